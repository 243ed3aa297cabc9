package screens

import (
	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
)

// A column is one column of a grid. Widths are fixed before drawing, so that nothing jumps while scrolling and only the
// rows in sight are worked out.
type column struct {
	title string
	width int // cells
	right bool
}

// A gridRow is one row: plain texts, one a column, and the style they have in common.
type gridRow struct {
	texts []string
	mark  mark
}

// A grid is a tview table with a heading whose rows are made when they come into sight.
type grid struct {
	*tview.Table
	look    look
	columns func(width int) []column
	count   func() int
	row     func(i int) gridRow
	layout  []column
	rows    map[int]gridRow // made since the last drawing
}

func newGrid(l look, columns func(int) []column, count func() int, row func(int) gridRow) *grid {
	g := &grid{Table: tview.NewTable(), look: l, columns: columns, count: count, row: row}
	g.layout, g.rows = columns(leastWidth), map[int]gridRow{}
	g.SetContent(gridContent{grid: g}).SetFixed(1, 0).SetSelectable(true, false).Select(1, 0)
	g.SetSelectedStyle(l.chosen.style)
	return g
}

// at is the selected row, -1 when there is none.
func (g *grid) at() int {
	row, _ := g.GetSelection()
	return min(row, g.count()) - 1
}

func (g *grid) choose(i int) { g.Select(max(0, min(i, g.count()-1))+1, 0) }

// Draw implements [tview.Primitive].
func (g *grid) Draw(screen tcell.Screen) {
	_, _, width, _ := g.GetInnerRect()
	g.layout = g.columns(width)
	clear(g.rows)
	if row, _ := g.GetSelection(); g.count() > 0 && (row > g.count() || row < 1) { // what is not there yet may come back
		g.choose(row - 1)
	}
	g.Table.Draw(screen)
}

// InputHandler implements [tview.Primitive]. A table without a row to select would look for one for ever.
func (g *grid) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	if g.count() == 0 {
		return func(*tcell.EventKey, func(tview.Primitive)) {}
	}
	return g.Table.InputHandler()
}

// rowAt is the row drawn at a place of the screen; ok is false beside them.
func (g *grid) rowAt(x, y int) (i int, ok bool) {
	row, _ := g.CellAt(x, y)
	return row - 1, g.InRect(x, y) && row >= 1 && row <= g.count()
}

// mouse selects and scrolls; clicked says that a row was clicked.
func (g *grid) mouse(action tview.MouseAction, event *tcell.EventMouse) (clicked bool) {
	i, onRow := g.rowAt(event.Position())
	switch {
	case action == tview.MouseLeftClick && onRow:
		g.choose(i)
		return true
	case wheel(action) != 0 && g.count() > 0 && g.InRect(event.Position()):
		g.choose(g.at() + wheel(action))
	}
	return false
}

// handler is the mouse handler of a page around the grid: it selects and scrolls, and opens the row clicked twice.
func (g *grid) handler(page *tview.Box, open func()) func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return page.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, _ func(tview.Primitive)) (bool, tview.Primitive) {
		if !page.InRect(event.Position()) {
			return false, nil
		}
		g.mouse(action, event)
		if _, onRow := g.rowAt(event.Position()); onRow && action == tview.MouseLeftDoubleClick {
			open()
		}
		return true, nil
	})
}

// gridContent lets the table ask the grid for its cells.
type gridContent struct {
	tview.TableContentReadOnly
	grid *grid
}

func (c gridContent) GetRowCount() int    { return c.grid.count() + 1 }
func (c gridContent) GetColumnCount() int { return len(c.grid.layout) }

func (c gridContent) GetCell(row, col int) *tview.TableCell {
	g := c.grid
	if col < 0 || col >= len(g.layout) || row < 0 || row > g.count() {
		return nil
	}
	column := g.layout[col]
	if row == 0 {
		return tview.NewTableCell(g.text(column, column.title)).SetSelectable(false).SetStyle(g.look.heading.style)
	}
	made, ok := g.rows[row-1]
	if !ok {
		made = g.row(row - 1)
		g.rows[row-1] = made
	}
	return tview.NewTableCell(g.text(column, made.texts[col])).SetStyle(made.mark.style)
}

func (g *grid) text(c column, text string) string {
	if c.right {
		return g.look.glyphs.right(text, c.width)
	}
	return g.look.glyphs.fit(text, c.width)
}

package text

// Glyphs are the characters of pictures and signs. A terminal or a mail program may lack all but ASCII.
type Glyphs struct {
	Levels             []string // a bar's part cell, from nearly nothing to full
	Whole, Some        string   // a mark over half of its column or more, or over less
	None               string   // no mark
	Side               string   // left edge of a chart
	Line, Tick         string   // time axis
	Missing            string   // where a text is cut
	Tee, Corner, Trunk string   // branches of a derivation, as a tree has them; none where Tee is empty
}

// The two sets: eighths of a block, and ASCII. Neither has branches.
var (
	Blocks = Glyphs{Levels: []string{"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"}, Whole: "▄", Some: "▂", None: "·", Side: "│", Line: "─", Tick: "┬", Missing: "…"}
	ASCII  = Glyphs{Levels: []string{".", ":", "#"}, Whole: "#", Some: "+", None: ".", Side: "|", Line: "-", Tick: "+", Missing: "~"}
)

// bar is the cell of a bar that fills so many of the levels above the cell's foot.
func (g Glyphs) bar(level int) string {
	if level <= 0 {
		return " "
	}
	return g.Levels[min(level, len(g.Levels))-1]
}

// mark is the cell of a column of which a mark covers a share.
func (g Glyphs) mark(share float64) string {
	switch {
	case share <= 1e-9:
		return g.None
	case share < 0.5:
		return g.Some
	}
	return g.Whole
}

package choose

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// A linear is a linear programme: the least of a sum, every variable 0 or more, held by rows.
type linear struct {
	names []string // of the variables
	price []float64
	rows  []linearRow
}

type linearRow struct {
	terms map[int]float64 // by variable
	sense string          // "<=" or "="
	right float64
}

// variable adds one with its price in the sum and returns its number.
func (l *linear) variable(name string, price float64) int {
	l.names, l.price = append(l.names, name), append(l.price, price)
	return len(l.names) - 1
}

func (l *linear) row(terms map[int]float64, sense string, right float64) {
	l.rows = append(l.rows, linearRow{terms, sense, right})
}

// solve gives the least sum and where it lies, by gonum's simplex. Each "<=" gets a variable for what is left.
func (l *linear) solve() (sum float64, at []float64, err error) {
	columns := len(l.names)
	for _, r := range l.rows {
		if r.sense == "<=" {
			columns++
		}
	}
	a := mat.NewDense(len(l.rows), columns, nil)
	right, price := make([]float64, len(l.rows)), make([]float64, columns)
	copy(price, l.price)
	left := len(l.names)
	for i, r := range l.rows {
		for v, factor := range r.terms {
			a.Set(i, v, factor)
		}
		if r.sense == "<=" {
			a.Set(i, left, 1)
			left++
		}
		right[i] = r.right
	}
	sum, at, err = lp.Simplex(price, a, right, 1e-10, nil)
	if err != nil {
		return 0, nil, err
	}
	return sum, at[:len(l.names)], nil
}

// text writes the programme in the CPLEX LP format, which general solvers read.
func (l *linear) text() string {
	var b strings.Builder
	b.WriteString("Minimize\n sum:")
	for v, price := range l.price {
		fmt.Fprintf(&b, " %+.17g %s\n", price, l.names[v])
	}
	b.WriteString("Subject To\n")
	for i, r := range l.rows {
		fmt.Fprintf(&b, " r%d:", i)
		for _, v := range slices.Sorted(maps.Keys(r.terms)) {
			fmt.Fprintf(&b, " %+.17g %s\n", r.terms[v], l.names[v])
		}
		fmt.Fprintf(&b, " %s %.17g\n", r.sense, r.right)
	}
	b.WriteString("End\n")
	return b.String()
}

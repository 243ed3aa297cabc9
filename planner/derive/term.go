package derive

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// A Term is a value with the formula that it comes from, and the figures in it. Terms combine into terms, so that what is worked
// out and what is said of it are one expression and cannot disagree; [Figures.Put] makes a figure of one.
//
// A quiet term, which nobody will read, has a value alone, and so has what it is combined into.
type Term struct {
	Value float64
	words string // empty in a bare number, whose value says it, and in a quiet term
	from  []string
	form  form
}

// A form is the shape of a term's formula, in the order in which they bind. The zero Term is the number 0.
type form int

const (
	number form = iota
	quiet
	sum
	product
	power
	name
)

// Number is a number that needs no name, such as the 2 of two legs.
func Number(value float64) Term { return Term{Value: value} }

// One is the number 1.
var One = Number(1)

// Quantity is a number with its unit, such as 24 h, of which a formula shows four figures at the most.
func Quantity(value float64, unit string) Term { return Called(digits(value, 4)+" "+unit, value) }

// Called is a value by the words that a formula has for it, and the figures behind it: for what is worked out by other means.
func Called(words string, value float64, from ...string) Term {
	return Term{value, words, from, name}
}

// As is another value worked out from a term alone, by the words that a formula has for it.
func (t Term) As(words string, value float64) Term {
	if t.form == quiet {
		return silent(value)
	}
	return Called(words, value, t.from...)
}

// silent is a quiet term.
func silent(value float64) Term { return Term{Value: value, form: quiet} }

// IDs are the ids of the figures in some terms, each once, in their order.
func IDs(terms ...Term) (out []string) {
	for _, t := range terms {
		out = union(out, t.from)
	}
	return out
}

// Plus adds.
func (t Term) Plus(o Term) Term { return join(t.Value+o.Value, t, " + ", o, sum, sum, sum) }

// Minus takes away.
func (t Term) Minus(o Term) Term { return join(t.Value-o.Value, t, " − ", o, sum, sum, product) }

// Times multiplies.
func (t Term) Times(o Term) Term {
	return join(t.Value*o.Value, t, " · ", o, product, product, product)
}

// Over divides.
func (t Term) Over(o Term) Term { return join(t.Value/o.Value, t, " / ", o, product, product, power) }

// To raises to a power.
func (t Term) To(o Term) Term {
	return join(math.Pow(t.Value, o.Value), t, "^", o, power, name, name)
}

// Max is the larger, and Min the smaller.
func Max(a, b Term) Term { return call("max", max(a.Value, b.Value), a, b) }

// Min is the smaller, and Max the larger.
func Min(a, b Term) Term { return call("min", min(a.Value, b.Value), a, b) }

// Sum adds up; of no terms it is 0.
func Sum(terms ...Term) (total Term) {
	for i, t := range terms {
		if total = total.Plus(t); i == 0 {
			total = t
		}
	}
	return total
}

// Kilo is the same in a unit a thousand times as large; the formula leaves that out.
func (t Term) Kilo() Term {
	t.Value /= 1000
	return t
}

// With adds a remark after the formula, of a value that is as good as worked out.
func (t Term) With(remark string, from ...string) Term {
	if t.form != quiet {
		t.words, t.from = t.text(sum)+", "+remark, union(t.from, from)
	}
	return t
}

// join combines two terms with a sign between them, of the form made; each must bind as tightly as left and right say, or stands in
// parentheses.
func join(value float64, a Term, sign string, b Term, made, left, right form) Term {
	if a.form == quiet || b.form == quiet {
		return silent(value)
	}
	return Term{value, a.text(left) + sign + b.text(right), union(a.from, b.from), made}
}

func call(function string, value float64, a, b Term) Term {
	t := join(value, a, ", ", b, name, sum, sum)
	if t.form != quiet {
		t.words = function + "(" + t.words + ")"
	}
	return t
}

// text is the formula as part of another that binds as tightly as least.
func (t Term) text(least form) string {
	if t.form == number {
		if t.Value < 0 {
			return "(" + strings.Replace(digits(t.Value, 6), "-", "−", 1) + ")"
		}
		return digits(t.Value, 6)
	}
	if t.form < least || (least == name && strings.Contains(t.words, " ") && !strings.HasSuffix(t.words, ")")) {
		return "(" + t.words + ")"
	}
	return t.words
}

// digits writes a number of a formula to so many significant figures, without an exponent.
func digits(value float64, significant int) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(value, 'g', significant, 64), 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// union lists the ids of both, each once, in their order.
func union(a, b []string) []string {
	out := slices.Clip(a)
	for _, id := range b {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// wordsOf are the words by which a formula calls the figure of an id: the last part of it, such as "running VA".
func wordsOf(id string) string {
	words := strings.Split(id[strings.LastIndexByte(id, '.')+1:], "_")
	for i, word := range words {
		if proper, ok := proper[word]; ok {
			words[i] = proper
		}
	}
	return strings.Join(words, " ")
}

// proper are the words of ids that are not written in lower case.
var proper = map[string]string{"w": "W", "kw": "kW", "va": "VA", "kva": "kVA", "wh": "Wh", "kwh": "kWh", "dc": "DC", "kpa": "kPa", "c": "°C", "k": "K"}

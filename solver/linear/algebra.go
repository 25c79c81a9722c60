package linear

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// algebraWidth is the column at which the printed algebra is broken.
const algebraWidth = 100

// String returns p as algebra; see [Problem.WriteAlgebra].
func (p *Problem) String() string {
	var b strings.Builder
	_ = p.WriteAlgebra(&b) // a Builder does not fail
	return b.String()
}

// WriteAlgebra prints p as a person would write it down, in the order of its
// rows and columns, broken at about 100 columns:
//
//	program breakfast
//	minimise
//	  3.19 beef + 2.59 chicken
//	subject to
//	  iron: 700 <= 60 beef + 8 chicken <= 10000
//	bounds
//	  0 <= beef <= 100
//	  chicken free
//	integer
//	  beef
//
// Columns that are at least zero without a ceiling are not in the bounds.
// Numbers have the fewest digits that read back the same; a name that could be
// taken for algebra is quoted. The result is for reading: the format that
// reads back is MPS.
func (p *Problem) WriteAlgebra(w io.Writer) error {
	a := algebra{w: w}
	names := make([]string, len(p.Cols))
	for j := range p.Cols {
		names[j] = algebraName(p.Cols[j].Name)
	}
	if p.Name != "" {
		a.line("program " + strings.Join(strings.Fields(p.Name), " "))
	}
	if p.Maximize {
		a.line("maximise")
	} else {
		a.line("minimise")
	}
	var terms []string
	for j := range p.Cols {
		if p.Cols[j].Cost != 0 {
			terms = append(terms, term(p.Cols[j].Cost, names[j]))
		}
	}
	if p.Offset != 0 || len(terms) == 0 {
		terms = append(terms, term(p.Offset, ""))
	}
	a.wrapped(firstTerm(terms))
	a.line("subject to")
	view := p.ByRow()
	for i, r := range p.Rows {
		cols, values := view.Row(i)
		terms = terms[:0]
		for k, j := range cols {
			terms = append(terms, term(values[k], names[j]))
		}
		if len(terms) == 0 {
			terms = append(terms, "0")
		}
		parts := append([]string{algebraName(r.Name) + ":"}, between(firstTerm(terms), r.Lower, r.Upper)...)
		a.wrapped(parts)
	}
	a.bounds(p, names)
	a.integers(p, names)
	return a.err
}

type algebra struct {
	w   io.Writer
	err error
}

func (a *algebra) line(s string) {
	if a.err == nil {
		_, a.err = io.WriteString(a.w, s+"\n")
	}
}

// wrapped prints parts joined by spaces, indented by two, later lines by six.
func (a *algebra) wrapped(parts []string) {
	var b strings.Builder
	b.WriteString(" ")
	width := 1
	for k, part := range parts {
		n := utf8.RuneCountInString(part)
		if k > 0 && width+1+n > algebraWidth {
			a.line(b.String())
			b.Reset()
			b.WriteString("     ")
			width = 5
		}
		b.WriteString(" " + part)
		width += 1 + n
	}
	a.line(b.String())
}

func (a *algebra) bounds(p *Problem, names []string) {
	header := false
	for j := range p.Cols {
		c := &p.Cols[j]
		if c.Lower == 0 && c.Upper == Inf {
			continue
		}
		if !header {
			a.line("bounds")
			header = true
		}
		a.wrapped(between([]string{names[j]}, c.Lower, c.Upper))
	}
}

func (a *algebra) integers(p *Problem, names []string) {
	var list []string
	for j := range p.Cols {
		if p.Cols[j].Integer {
			list = append(list, names[j]+",")
		}
	}
	if len(list) == 0 {
		return
	}
	list[len(list)-1] = strings.TrimSuffix(list[len(list)-1], ",")
	a.line("integer")
	a.wrapped(list)
}

// between puts the bounds around an expression.
func between(expression []string, lower, upper float64) []string {
	below, above := !math.IsInf(lower, -1), !math.IsInf(upper, 1)
	switch {
	case below && lower == upper:
		return append(expression, "= "+number(upper))
	case below && above:
		return append(append([]string{number(lower) + " <="}, expression...), "<= "+number(upper))
	case below:
		return append(expression, ">= "+number(lower))
	case above:
		return append(expression, "<= "+number(upper))
	}
	return append(expression, "free")
}

// term returns "+ 2 x", "- x" or, without a name, "+ 2".
func term(value float64, name string) string {
	sign := "+ "
	if value < 0 || (value == 0 && math.Signbit(value)) {
		sign, value = "- ", -value
	}
	switch {
	case name == "":
		return sign + number(value)
	case value == 1:
		return sign + name
	}
	return sign + number(value) + " " + name
}

// firstTerm takes the plus from the first term and the space after its minus.
func firstTerm(terms []string) []string {
	terms[0] = strings.TrimPrefix(terms[0], "+ ")
	if rest, ok := strings.CutPrefix(terms[0], "- "); ok {
		terms[0] = "-" + rest
	}
	return terms
}

// number returns the fewest digits that read back as v.
func number(v float64) string {
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// algebraName returns name as it is if it can only be read as a name, else
// quoted.
func algebraName(name string) string {
	plain := name != "" && !strings.ContainsAny(name, " \t\"+<>=:,") && strconv.CanBackquote(name)
	if first, _ := utf8.DecodeRuneInString(name); first == '-' || first == '.' || (first >= '0' && first <= '9') {
		plain = false
	}
	if plain {
		return name
	}
	return fmt.Sprintf("%q", name)
}

package linear

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
)

// WriteMPS writes p in free MPS form. [ReadMPS] reads back the same problem,
// bit for bit, except that −0 comes back as 0 and [Row.Lazy], for which MPS has
// no word, as false: numbers have the fewest digits
// that read back the same, and a name that free form cannot hold is escaped as
// a comment in the file says.
//
// A row without any bound is written as G with the right-hand side −1e30, and
// every integer column with its bounds, so that other programs read the same
// too. It returns [Findings] if p is not valid, and writes nothing then.
func WriteMPS(w io.Writer, p *Problem) error {
	if err := p.Validate(); err != nil {
		return err
	}
	m := mpsWriter{w: bufio.NewWriter(w), name: func(s string) string { return s }}
	title := p.Name
	if p.needsEscapes() {
		m.line(escapeComment)
		m.name = escapeName
		title = escapeName(title)
	}
	if title == "" {
		m.line("NAME")
	} else {
		m.line("NAME", title, "FREE") // FREE tells the form to readers that would guess
	}
	if p.Maximize {
		m.line("OBJSENSE")
		m.line("    MAX")
	}
	taken := make(map[string]bool, len(p.Rows))
	for _, r := range p.Rows {
		taken[m.name(r.Name)] = true
	}
	m.objective = freeName("OBJ", taken)
	m.rows(p)
	m.columns(p)
	m.bounds(p)
	m.line("ENDATA")
	return m.w.Flush()
}

// needsEscapes says whether any name of p must be escaped.
func (p *Problem) needsEscapes() bool {
	title := p.Name
	if title != strings.TrimSpace(title) || strings.ContainsFunc(title, unprintable) {
		return true
	}
	return slices.ContainsFunc(p.Rows, func(r Row) bool { return needsEscape(r.Name) }) ||
		slices.ContainsFunc(p.Cols, func(c Col) bool { return needsEscape(c.Name) })
}

func unprintable(c rune) bool { return !strconv.IsPrint(c) }

// mpsWriter writes lines; bufio.Writer keeps the first error for Flush.
type mpsWriter struct {
	w         *bufio.Writer
	name      func(string) string
	objective string
	header    string // section header to write before the next line
}

func (m *mpsWriter) line(parts ...string) {
	if m.header != "" {
		_, _ = m.w.WriteString(m.header + "\n")
		m.header = ""
	}
	_, _ = m.w.WriteString(strings.Join(parts, " ") + "\n")
}

// rowForm is how a row is told: its type, its right-hand side, and its range
// where it has one.
type rowForm struct {
	kind string
	rhs  float64
	span string
}

func (m *mpsWriter) rows(p *Problem) {
	m.line("ROWS")
	m.line(" N ", m.objective)
	for _, r := range p.Rows {
		m.line(" "+formOf(r).kind+" ", m.name(r.Name))
	}
}

func formOf(r Row) rowForm {
	below, above := !math.IsInf(r.Lower, 0), !math.IsInf(r.Upper, 0)
	switch {
	case below && r.Lower == r.Upper:
		return rowForm{kind: "E", rhs: r.Upper}
	case below && above:
		return rangedForm(r.Lower, r.Upper)
	case below:
		return rowForm{kind: "G", rhs: r.Lower}
	case above:
		return rowForm{kind: "L", rhs: r.Upper}
	}
	return rowForm{kind: "G", rhs: -Huge}
}

// rangedForm finds a right-hand side and a range whose sum, in floating point,
// is the other bound to the last bit. upper − lower rounded nearly always does,
// or one of its neighbours, from one side or the other. Bounds of opposite sign
// can need one bit more than a float64 has; their range is written with so many
// digits that it is added exactly, to the smaller bound, so that the larger one
// is what gets rounded.
func rangedForm(lower, upper float64) rowForm {
	span := upper - lower
	for _, s := range [...]float64{span, math.Nextafter(span, 0), math.Nextafter(span, Inf)} {
		if lower+s == upper {
			return rowForm{"G", lower, number(s)}
		}
		if upper-s == lower {
			return rowForm{"L", upper, number(s)}
		}
	}
	wide := new(big.Float).SetPrec(spanPrecision)
	wide.Sub(big.NewFloat(upper), big.NewFloat(lower))
	text := wide.Text('e', 20)
	if math.Abs(lower) > math.Abs(upper) {
		return rowForm{"L", upper, text}
	}
	return rowForm{"G", lower, text}
}

func (m *mpsWriter) columns(p *Problem) {
	m.line("COLUMNS")
	integer, markers := false, 0
	mark := func(word string) {
		markers++
		m.line(fmt.Sprintf("    MARKER%d 'MARKER' '%s'", markers, word))
	}
	for j := range p.Cols {
		c := &p.Cols[j]
		if c.Integer != integer {
			if integer = c.Integer; integer {
				mark("INTORG")
			} else {
				mark("INTEND")
			}
		}
		name := "    " + m.name(c.Name)
		if c.Cost != 0 || len(c.Entries) == 0 {
			m.line(name, m.objective, number(c.Cost))
		}
		for _, e := range c.Entries {
			m.line(name, m.name(p.Rows[e.Row].Name), number(e.Value))
		}
	}
	if integer {
		mark("INTEND")
	}
	m.line("RHS") // even if empty: some readers miss it
	if p.Offset != 0 {
		m.line("    RHS", m.objective, number(-p.Offset))
	}
	for _, r := range p.Rows {
		if f := formOf(r); f.rhs != 0 {
			m.line("    RHS", m.name(r.Name), number(f.rhs))
		}
	}
	m.header = "RANGES"
	for _, r := range p.Rows {
		if f := formOf(r); f.span != "" {
			m.line("    RANGE", m.name(r.Name), f.span)
		}
	}
}

func (m *mpsWriter) bounds(p *Problem) {
	m.header = "BOUNDS"
	for j := range p.Cols {
		c := &p.Cols[j]
		put := func(kind string, value ...string) {
			m.line(append([]string{" " + kind, "BOUND", m.name(c.Name)}, value...)...)
		}
		below, above := !math.IsInf(c.Lower, 0), !math.IsInf(c.Upper, 0)
		switch {
		case c.Integer && c.Lower == 0 && c.Upper == 1:
			put("BV")
			continue
		case below && c.Lower == c.Upper:
			put("FX", number(c.Upper))
			continue
		case !below && !above:
			put("FR")
			continue
		case !below:
			put("MI")
		case c.Lower != 0:
			put("LO", number(c.Lower))
		}
		switch {
		case above:
			put("UP", number(c.Upper))
		case c.Integer:
			put("PL")
		}
	}
	m.header = ""
}

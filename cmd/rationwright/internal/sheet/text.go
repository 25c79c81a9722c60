package sheet

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
)

// MaxColumns is the widest line any table or paragraph takes where nothing else is
// asked, in columns of a terminal.
const MaxColumns = 100

// gap is what stands between two columns of a table: nothing that a screen reader
// has to spell.
const gap = "  "

// Text writes s as plain text, no line wider than [MaxColumns].
func (s *Sheet) Text(w io.Writer) error { return s.Fit(w, MaxColumns) }

// Fit writes s as plain text, no line wider than limit columns. A key that is too wide
// stands on lines of its own, broken behind its hyphens.
func (s *Sheet) Fit(w io.Writer, limit int) error {
	p := printer{limit: limit}
	for _, a := range s.Alerts {
		p.paragraph(a)
	}
	for i, sec := range s.Sections {
		if i > 0 || len(s.Alerts) > 0 {
			p.out.WriteByte('\n')
		}
		if sec.Title != "" {
			p.paragraph(strings.ToUpper(sec.Title))
		}
		for _, text := range sec.Lead {
			p.paragraph(text)
		}
		if sec.Table != nil && len(sec.Table.Blocks) > 0 {
			p.grid(sec.Table)
		}
		for _, text := range sec.Notes {
			p.paragraph(text)
		}
	}
	if p.remembered {
		p.line("")
		p.paragraph(Legend)
	}
	_, err := w.Write(p.out.Bytes())
	return err
}

// remembered marks what its source says is from memory; the legend stands at the
// end, so that no sentence a family reads is broken by it.
const (
	remembered = "†"
	Legend     = remembered + " from memory: the figure was written down without its source at hand."
)

// Mark puts the mark in place of the words, and reports whether the legend is wanted.
func Mark(text string) (marked string, wanted bool) {
	marked = strings.ReplaceAll(text, " (from memory)", remembered)
	return marked, marked != text
}

// mark puts the mark in place of the words.
func (p *printer) mark(text string) string {
	text, wanted := Mark(text)
	p.remembered = p.remembered || wanted
	return text
}

// printer writes lines of at most limit columns.
type printer struct {
	out        bytes.Buffer
	limit      int
	remembered bool // something was marked so
}

// line writes text without spaces at its end.
func (p *printer) line(text string) { p.out.WriteString(strings.TrimRight(text, " ") + "\n") }

// paragraph writes text wrapped, to no more than MaxColumns: longer lines are
// hard to read. A paragraph that starts with "- " hangs.
func (p *printer) paragraph(text string) {
	text, hangs := strings.CutPrefix(p.mark(text), "- ")
	first, rest := "", ""
	if hangs {
		first, rest = "- ", "  "
	}
	for _, line := range wrap(text, min(p.limit, MaxColumns)-len(rest)) {
		p.line(first + line)
		first = rest
	}
}

// grid writes a table: the header once, then every block under its title, all
// with the same column widths.
func (p *printer) grid(g *Grid) {
	widths, below := g.fit(p.limit)
	names, rule := make([]string, len(widths)), make([]string, len(widths))
	for c, col := range g.Headings {
		names[c], rule[c] = col.Name, strings.Repeat("-", widths[c])
	}
	p.row(g, widths, below, names)
	p.row(g, widths, below, rule)
	for _, b := range g.Blocks {
		if b.Title != "" {
			p.paragraph(b.Title + ":")
		}
		for _, row := range b.Rows {
			p.row(g, widths, below, row)
		}
	}
}

// row writes one row, its cells wrapped and padded to the widths of their columns.
// Where keys stand below, they follow on lines of their own.
func (p *printer) row(g *Grid, widths []int, below bool, cells []string) {
	lines := make([][]string, len(cells))
	tallest := 0
	for c, text := range cells {
		if !below || !g.Headings[c].Key {
			lines[c] = wrap(p.mark(text), widths[c])
			tallest = max(tallest, len(lines[c]))
		}
	}
	for i := range tallest {
		var parts []string
		for c := range cells {
			switch {
			case below && g.Headings[c].Key:
			case i < len(lines[c]):
				parts = append(parts, pad(lines[c][i], widths[c], g.Headings[c].Right))
			default:
				parts = append(parts, strings.Repeat(" ", widths[c]))
			}
		}
		p.line(strings.Join(parts, gap))
	}
	for c, text := range cells {
		if below && g.Headings[c].Key && strings.Trim(text, "-") != "" && text != g.Headings[c].Name {
			for _, line := range wrap(text, p.limit-4) {
				p.line("    " + line)
			}
		}
	}
}

// leastWrapped is how narrow a column of long text gets before other columns
// give way as well.
const leastWrapped = 14

// nameWidth is how wide the name of a column must be.
func (col *Heading) nameWidth() int {
	if !col.tall {
		return width(col.Name)
	}
	n := 1
	for len(wrap(col.Name, n)) > 2 || slices.ContainsFunc(strings.Fields(col.Name), func(word string) bool { return width(word) > n }) {
		n++
	}
	return n
}

// fit returns the width of every column such that the table takes at most limit
// columns: long text gives way first, the widest first, then all but keys. Where
// that is not enough, below is true: keys stand on lines of their own.
func (g *Grid) fit(limit int) (widths []int, below bool) {
	widths = make([]int, len(g.Headings))
	total := len(gap) * (len(g.Headings) - 1)
	for c, col := range g.Headings {
		widths[c] = col.nameWidth()
		for _, row := range g.Rows() {
			widths[c] = max(widths[c], width(facts.Printable(row[c])))
		}
		total += widths[c]
	}
	for _, narrower := range []func(c int) bool{
		func(c int) bool { return g.Headings[c].wrap && widths[c] > leastWrapped },
		func(c int) bool { return !g.Headings[c].Key && !g.Headings[c].Right && widths[c] > leastWrapped/2 },
		func(c int) bool { return g.Headings[c].Key && !below },
		func(c int) bool { return !g.Headings[c].Key && widths[c] > 1 },
	} {
		for total > limit {
			c := g.widest(widths, narrower)
			if c < 0 {
				break
			}
			if g.Headings[c].Key { // all keys at once leave the table
				below = true
				for k, col := range g.Headings {
					if col.Key {
						total -= widths[k] + len(gap)
					}
				}
				break
			}
			widths[c]--
			total--
		}
	}
	return widths, below
}

// widest is the widest column of those that may give way, -1 for none.
func (g *Grid) widest(widths []int, may func(c int) bool) int {
	found := -1
	for c := range widths {
		if may(c) && (found < 0 || widths[c] > widths[found]) {
			found = c
		}
	}
	return found
}

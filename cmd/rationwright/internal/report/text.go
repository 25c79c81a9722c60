package report

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// gap is what stands between two columns of a table.
const gap = "  "

// Text writes s as plain text, no line wider than [MaxColumns].
func (s *Sheet) Text(w io.Writer) error {
	var out bytes.Buffer
	for _, a := range s.Alerts {
		paragraph(&out, a)
	}
	for i, sec := range s.Sections {
		if i > 0 || len(s.Alerts) > 0 {
			out.WriteByte('\n')
		}
		if sec.Title != "" {
			paragraph(&out, strings.ToUpper(sec.Title))
		}
		for _, p := range sec.Lead {
			paragraph(&out, p)
		}
		if sec.Table != nil && !sec.Table.empty() {
			if err := sec.Table.text(&out); err != nil {
				return err
			}
		}
		for _, p := range sec.Notes {
			paragraph(&out, p)
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}

// paragraph writes p wrapped. A paragraph that starts with "- " hangs.
func paragraph(out *bytes.Buffer, p string) {
	indent := ""
	if rest, ok := strings.CutPrefix(p, "- "); ok {
		p, indent = rest, "  "
	}
	for i, line := range wrap(p, MaxColumns-len(indent)) {
		switch {
		case indent != "" && i == 0:
			out.WriteString("- ")
		default:
			out.WriteString(indent)
		}
		out.WriteString(line)
		out.WriteByte('\n')
	}
}

// text writes g: the header once, then every block under its title, all with
// the same column widths.
func (g *Grid) text(out *bytes.Buffer) error {
	widths := g.fit(MaxColumns)
	if err := g.block(out, widths, [][]string{g.header()}); err != nil {
		return err
	}
	rule := make([]string, len(widths))
	for c, n := range widths {
		rule[c] = strings.Repeat("-", n)
	}
	out.WriteString(strings.Join(rule, gap) + "\n")
	for _, b := range g.Blocks {
		if b.Title != "" {
			paragraph(out, b.Title+":")
		}
		if err := g.block(out, widths, b.Rows); err != nil {
			return err
		}
	}
	return nil
}

// header returns the column names.
func (g *Grid) header() []string {
	names := make([]string, len(g.Columns))
	for c, col := range g.Columns {
		names[c] = col.Name
	}
	return names
}

// leastWrapped is how narrow a column of long text gets before other columns
// give way as well.
const leastWrapped = 14

// nameWidth is how wide the name of a column must be.
func (col *Column) nameWidth() int {
	if !col.Tall {
		return width(col.Name)
	}
	n := 1
	for len(wrap(col.Name, n)) > 2 || slices.ContainsFunc(strings.Fields(col.Name), func(word string) bool { return width(word) > n }) {
		n++
	}
	return n
}

// fit returns the width of every column such that the table takes at most
// limit columns: long text gives way first, the widest first.
func (g *Grid) fit(limit int) []int {
	widths := make([]int, len(g.Columns))
	total := len(gap) * (len(g.Columns) - 1)
	for c, col := range g.Columns {
		widths[c] = col.nameWidth()
		for _, row := range g.rows() {
			widths[c] = max(widths[c], width(clean(row[c])))
		}
		total += widths[c]
	}
	widest := func(may func(c int) bool) int {
		found := -1
		for c := range widths {
			if may(c) && (found < 0 || widths[c] > widths[found]) {
				found = c
			}
		}
		return found
	}
	for ; total > limit; total-- {
		c := widest(func(c int) bool { return g.Columns[c].Wrap && widths[c] > leastWrapped })
		if c < 0 {
			c = widest(func(c int) bool { return widths[c] > 1 })
		}
		if c < 0 {
			break
		}
		widths[c]--
	}
	return widths
}

// cell returns text wrapped and padded to the width of column c, its lines
// joined by line breaks.
func (g *Grid) cell(text string, c, wide int) string {
	lines := wrap(text, wide)
	for i := range lines {
		lines[i] = pad(lines[i], wide, g.Columns[c].Right)
	}
	return strings.Join(lines, "\n")
}

// block writes rows in g's layout. Header and blocks are tables of their own,
// as a title may stand between them.
func (g *Grid) block(out *bytes.Buffer, widths []int, rows [][]string) error {
	var buf bytes.Buffer
	table := tablewriter.NewTable(&buf, tablewriter.WithRenderer(renderer.NewBlueprint(layout)), tablewriter.WithConfig(cells(g)))
	for _, row := range rows {
		shown := make([]string, len(row))
		for c := range row {
			shown[c] = g.cell(row[c], c, widths[c])
		}
		if err := table.Append(shown); err != nil {
			return err
		}
	}
	if err := table.Render(); err != nil {
		return err
	}
	for line := range strings.Lines(buf.String()) {
		out.WriteString(strings.TrimRight(line, " \n"))
		out.WriteByte('\n')
	}
	return nil
}

// layout is a table without borders: columns two spaces apart, nothing that a
// screen reader has to spell.
var layout = tw.Rendition{
	Borders:  tw.Border{Left: tw.Off, Right: tw.Off, Top: tw.Off, Bottom: tw.Off},
	Symbols:  tw.NewSymbolCustom("plain").WithColumn(gap),
	Settings: tw.Settings{Separators: tw.Separators{BetweenRows: tw.Off, BetweenColumns: tw.On}},
}

// cells is the cell setting of a table: text as given, already wrapped and
// padded.
func cells(g *Grid) tablewriter.Config {
	align := make([]tw.Align, len(g.Columns))
	for c, col := range g.Columns {
		align[c] = tw.AlignLeft
		if col.Right {
			align[c] = tw.AlignRight
		}
	}
	one := tw.CellConfig{
		Formatting: tw.CellFormatting{AutoFormat: tw.Off, AutoWrap: tw.WrapNone},
		Alignment:  tw.CellAlignment{PerColumn: align},
		Padding:    tw.CellPadding{Global: tw.PaddingNone},
	}
	return tablewriter.Config{
		Row:      one,
		Behavior: tw.Behavior{TrimSpace: tw.Off, TrimLine: tw.Off},
	}
}

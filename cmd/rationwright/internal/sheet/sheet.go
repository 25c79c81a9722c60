package sheet

import "fmt"

// Sheet is an answer laid out for reading.
type Sheet struct {
	Alerts   []string // first lines of every form: the worst news
	Sections []Section
}

// Lines are lines of prose.
type Lines []string

// Say adds a line.
func (l *Lines) Say(format string, args ...any) { *l = append(*l, fmt.Sprintf(format, args...)) }

// If adds a line where it holds.
func (l *Lines) If(holds bool, format string, args ...any) {
	if holds {
		l.Say(format, args...)
	}
}

// Section is a heading, prose, one table and prose after it; each may be
// empty.
type Section struct {
	Title string
	Lead  Lines // paragraphs before the table; one that starts with "- " hangs
	Table *Grid
	Notes Lines // paragraphs after the table
}

// Grid is a table whose rows may be gathered in titled blocks.
type Grid struct {
	Headings []Heading // in the order of the columns
	Blocks   []Block
}

// Heading is the head of a column.
type Heading struct {
	Name  string
	Right bool // numbers, aligned right
	Key   bool // what people copy, as the key of a pack: never broken
	wrap  bool // long text: gives way first when the table is too wide
	tall  bool // the name takes two lines where what stands below is narrow
}

// Block is some rows under a title, which may be empty. Each row has one cell a column.
type Block struct {
	Title string
	Rows  [][]string
}

// NewGrid returns a table with the columns named. A mark before a name says how
// its column is set: ">" numbers to the right, "^" the same under a name of two
// lines, "~" long text that gives way first, "=" a key that is never broken.
func NewGrid(names ...string) *Grid {
	g := &Grid{}
	g.Column(names...)
	return g
}

// Column adds columns to a table that has no rows yet; see [NewGrid].
func (g *Grid) Column(names ...string) {
	for _, name := range names {
		mark := name[:min(1, len(name))]
		h := Heading{Name: name, Right: mark == ">" || mark == "^", tall: mark == "^", wrap: mark == "~", Key: mark == "="}
		if h.Right || h.wrap || h.Key {
			h.Name = name[1:]
		}
		g.Headings = append(g.Headings, h)
	}
}

// Row adds a row to the block of that title, which must be the last one, or opens
// that block.
func (g *Grid) Row(title string, cells ...string) {
	if n := len(g.Blocks); n == 0 || g.Blocks[n-1].Title != title {
		g.Blocks = append(g.Blocks, Block{Title: title})
	}
	b := &g.Blocks[len(g.Blocks)-1]
	b.Rows = append(b.Rows, cells)
}

// Rows returns all rows without their titles.
func (g *Grid) Rows() [][]string {
	var rows [][]string
	for _, b := range g.Blocks {
		rows = append(rows, b.Rows...)
	}
	return rows
}

// Add appends a section unless it holds nothing but a title; a table without rows
// takes the notes about it along.
func (s *Sheet) Add(sections ...Section) {
	for _, sec := range sections {
		if sec.Table != nil && len(sec.Table.Blocks) == 0 {
			sec.Table, sec.Notes = nil, nil
		}
		if len(sec.Lead)+len(sec.Notes) > 0 || sec.Table != nil {
			s.Sections = append(s.Sections, sec)
		}
	}
}

// List writes lines under a heading after the table, or nothing.
func (sec *Section) List(heading string, lines []string) {
	if len(lines) > 0 {
		sec.Notes = append(append(sec.Notes, heading), lines...)
	}
}

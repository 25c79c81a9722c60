package report

// Sheet is an answer laid out for reading: sections in the order in which they
// are read. Renderers decide only how it looks, never what it says.
type Sheet struct {
	Alerts   []string // first lines of every form: who is not fed
	Sections []Section
}

// Section is a heading, prose, one table and prose after it; each may be
// empty.
type Section struct {
	Title string
	Lead  []string // paragraphs before the table
	Table *Grid
	Notes []string // paragraphs after the table
}

// Grid is a table whose rows may be gathered in titled blocks.
type Grid struct {
	Columns []Column
	Blocks  []Block
}

// Column is one column of a [Grid].
type Column struct {
	Name  string
	Right bool // numbers, aligned right
	Wrap  bool // long text: gives way when the table is too wide
	Tall  bool // the name takes two lines where what stands below is narrow
}

// Block is some rows of a [Grid] under a title; the title may be empty. Each
// row has one cell per column.
type Block struct {
	Title string
	Rows  [][]string
}

// Add appends a section unless it holds nothing but a title.
func (s *Sheet) Add(sec Section) {
	if len(sec.Lead) == 0 && len(sec.Notes) == 0 && (sec.Table == nil || sec.Table.empty()) {
		return
	}
	s.Sections = append(s.Sections, sec)
}

// rows returns all rows of g without their titles.
func (g *Grid) rows() [][]string {
	var rows [][]string
	for _, b := range g.Blocks {
		rows = append(rows, b.Rows...)
	}
	return rows
}

func (g *Grid) empty() bool { return len(g.rows()) == 0 }

// append adds a row to the last block whose title is title, which must be the
// last one, or opens that block.
func (g *Grid) append(title string, row ...string) {
	if n := len(g.Blocks); n == 0 || g.Blocks[n-1].Title != title {
		g.Blocks = append(g.Blocks, Block{Title: title})
	}
	b := &g.Blocks[len(g.Blocks)-1]
	b.Rows = append(b.Rows, row)
}

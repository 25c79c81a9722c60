package sheet

// Sheet is an answer laid out for reading.
type Sheet struct {
	Alerts   []string // first lines of every form: the worst news
	Sections []Section
}

// Section is a heading, prose, one table and prose after it; each may be
// empty.
type Section struct {
	Title string
	Lead  []string // paragraphs before the table; one that starts with "- " hangs
	Table *Grid
	Notes []string // paragraphs after the table
}

// Grid is a table whose rows may be gathered in titled blocks.
type Grid struct {
	columns []column
	blocks  []block
}

type column struct {
	name  string
	right bool // numbers, aligned right
	wrap  bool // long text: gives way first when the table is too wide
	key   bool // what people copy, as the key of a pack: never broken
	tall  bool // the name takes two lines where what stands below is narrow
}

// block is some rows under a title; the title may be empty. Each row has one cell
// a column.
type block struct {
	title string
	rows  [][]string
}

// NewGrid returns a table with the columns named. A mark before a name says how
// its column is set: ">" numbers to the right, "^" the same under a name of two
// lines, "~" long text that gives way first, "=" a key that is never broken.
func NewGrid(names ...string) *Grid {
	g := &Grid{}
	for _, name := range names {
		g.Column(name)
	}
	return g
}

// Column adds a column to a table that has no rows yet; see [NewGrid].
func (g *Grid) Column(name string) {
	c := column{name: name}
	if name != "" {
		switch name[0] {
		case '>':
			c.right = true
		case '^':
			c.right, c.tall = true, true
		case '~':
			c.wrap = true
		case '=':
			c.key = true
		}
		if c.right || c.wrap || c.key {
			c.name = name[1:]
		}
	}
	g.columns = append(g.columns, c)
}

// Row adds a row to the block of that title, which must be the last one, or opens
// that block.
func (g *Grid) Row(title string, cells ...string) {
	if n := len(g.blocks); n == 0 || g.blocks[n-1].title != title {
		g.blocks = append(g.blocks, block{title: title})
	}
	b := &g.blocks[len(g.blocks)-1]
	b.rows = append(b.rows, cells)
}

// Rows returns all rows without their titles.
func (g *Grid) Rows() [][]string {
	var rows [][]string
	for _, b := range g.blocks {
		rows = append(rows, b.rows...)
	}
	return rows
}

// Add appends a section unless it holds nothing but a title; a table without rows
// takes the notes about it along.
func (s *Sheet) Add(sections ...Section) {
	for _, sec := range sections {
		if sec.Table != nil && len(sec.Table.blocks) == 0 {
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

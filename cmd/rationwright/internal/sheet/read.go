package sheet

// Heading is the head of a column, for a form of its own such as HTML.
type Heading struct {
	Name string
	Right,
	Key bool
}

// Headings returns the columns in order.
func (g *Grid) Headings() []Heading {
	heads := make([]Heading, len(g.columns))
	for i, c := range g.columns {
		heads[i] = Heading{Name: c.name, Right: c.right, Key: c.key}
	}
	return heads
}

// Block is some rows under a title, which may be empty.
type Block struct {
	Title string
	Rows  [][]string
}

// Blocks returns the rows under their titles.
func (g *Grid) Blocks() []Block {
	blocks := make([]Block, len(g.blocks))
	for i, b := range g.blocks {
		blocks[i] = Block{b.title, b.rows}
	}
	return blocks
}

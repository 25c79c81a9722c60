package foods

// Table is the food table of one request: every food in ascending order of
// its key, every pack by key.
type Table struct {
	Foods []*Food
	Packs []*Pack
}

// StockLine is one line of a stock list: packs on hand.
type StockLine struct {
	Pack       *Pack
	Count      float64
	BestBefore string // ISO date, "" unknown
	Place      string
	Opened     string // ISO date, "" unopened
}

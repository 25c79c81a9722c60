package foods

// The sizes that may be bought: those of ordinary shops in metric countries, those
// of North America, or both.
const (
	SizesMetric = "metric"
	SizesUS     = "us"
	SizesAll    = "all"
)

// Sizes is the market whose packs can be bought, as [Table.Sell] was told.
func (t *Table) Sizes() string { return t.sizes }

// Sell lets only the packs of the market be bought: SizesMetric, SizesUS or
// SizesAll. The user's own packs always may. Packs of any size stay in the table
// and can be in stock.
func (t *Table) Sell(sizes string) {
	t.sizes = sizes
	sold := map[*Food][]*Pack{}
	for _, p := range t.Packs {
		if p.Market == "" || p.Market == "both" || p.Market == sizes || sizes == SizesAll {
			sold[p.Food] = append(sold[p.Food], p)
		}
	}
	for _, f := range t.Foods {
		f.Packs = sold[f]
	}
	t.sort()
}

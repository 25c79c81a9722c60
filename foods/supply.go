package foods

// Supply is something in store that is no food: water, fuel, and the goods
// that are renewed, such as batteries. Its physical figures are in package
// stores, its name and price here, so that price and stock files know it.
type Supply struct {
	Key      string // the word of the pack column in price and stock files
	What     string // in words
	Unit     string // what one of it is: L, MJ, cartridge …
	Price    float64
	HasPrice bool // it costs something in a plan and may stand in a price file
	Currency string
	Invented bool // price invented for the demo
	Source   string
	Verified string
}

// StoredWater is the supply of stored water, in litres.
const StoredWater = "water"

// readSupplies fills t.Supplies from data/supplies.csv. Prices are invented for
// the demo.
func (t *Table) readSupplies() error {
	in, err := embedded("supplies.csv", append(filled("supply what unit source verified"), columns("price currency")...))
	if err != nil {
		return err
	}
	for _, row := range in.Rows {
		s := &Supply{
			Key: row.Text("supply"), What: row.Text("what"), Unit: row.Text("unit"), Currency: row.Text("currency"),
			Invented: true, Source: row.Text("source"), Verified: row.Text("verified"),
		}
		if t.supply(s.Key) != nil || t.pack(fold(s.Key)) != nil {
			row.Fail("supply", ErrTwice, "give each supply a key that no other supply and no pack has")
			continue
		}
		s.Price, s.HasPrice = row.Float("price", 0, mostPrice)
		t.Supplies = append(t.Supplies, s)
	}
	return in.Err()
}

// Supply returns the supply with the key; case does not matter. The error is
// an [*UnknownError] with the nearest keys.
func (t *Table) Supply(key string) (*Supply, error) {
	if s := t.supply(key); s != nil {
		return s, nil
	}
	keys := make([]string, len(t.Supplies))
	for i, s := range t.Supplies {
		keys[i] = s.Key
	}
	return nil, &UnknownError{What: "supply", Name: key, near: func() []string { return nearest(key, keys, mostNearest) }}
}

func (t *Table) supply(key string) *Supply {
	want := fold(key)
	for _, s := range t.Supplies {
		if s.Key == want {
			return s
		}
	}
	return nil
}

// unknownItem is the error of a key that neither a pack nor a supply bears,
// with the nearest of both.
func (t *Table) unknownItem(key string) error {
	return &UnknownError{What: "pack", Name: key, near: func() []string {
		keys := t.packKeys()
		for _, s := range t.Supplies {
			keys = append(keys, s.Key)
		}
		return nearest(key, keys, mostNearest)
	}}
}

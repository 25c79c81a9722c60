package foods

// readSupplies fills t.Supplies from data/supplies.csv. Prices are invented for
// the demo.
func readSupplies(t *Table) error {
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

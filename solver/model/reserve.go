package model

// Doses is how many doses against a low blood sugar are set aside for the whole
// household. They are never ration.
func (m *Model) Doses() float64 {
	total := 0.0
	for _, e := range m.Eaters {
		total += e.Count * float64(e.Needs.Lows.For(m.Request.Days))
	}
	return total
}

// addReserveRows sets packs of fast sugar aside for people with diabetes:
//
//	Σ_k doses_k r_k ≥ Σ_p n_p doses_p
func addReserveRows(m *Model) {
	need := m.Doses()
	if need <= 0 {
		return
	}
	row := -1
	for _, lf := range m.Larder {
		for _, k := range lf.Reserve {
			if row < 0 {
				row = m.addRow("fast-sugar-reserve", need, Inf, RowInfo{
					Kind: RowReserve, Class: Safety, Eater: -1,
					Text: "doses of quick sugar set aside for a low", Unit: "doses", PerDay: 1,
				})
			}
			m.Problem.Set(row, k.Col, k.Usable)
		}
	}
	if row < 0 {
		m.Notes = append(m.Notes, "no fast sugar against a low blood sugar can be set aside from what may be bought: keep some ready")
	}
}

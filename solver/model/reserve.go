package model

// ReserveG is the fast sugar to set aside for the whole household, in g. It is
// never ration.
func (m *Model) ReserveG() float64 {
	total := 0.0
	for _, e := range m.Eaters {
		total += e.Count * e.Needs.ReserveG
	}
	return total
}

// addReserveRows sets packs of fast sugar aside for people with diabetes:
//
//	Σ_k sugar_k r_k ≥ Σ_p n_p reserve_p
func addReserveRows(m *Model) {
	need := m.ReserveG()
	if need <= 0 {
		return
	}
	row := -1
	for _, lf := range m.Larder {
		for _, k := range lf.Reserve {
			if row < 0 {
				row = m.addRow("fast-sugar-reserve", need, Inf, RowInfo{
					Kind: RowReserve, Class: Safety, Eater: -1,
					Text: "fast sugar set aside for a low", Unit: "g", PerDay: 1,
				})
			}
			m.Problem.Set(row, k.Col, k.Usable)
		}
	}
	if row < 0 {
		m.Notes = append(m.Notes, "no fast sugar against a low blood sugar can be set aside from what may be bought: keep some ready")
	}
}

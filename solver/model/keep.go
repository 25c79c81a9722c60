package model

// addKeepRows fixes the packs of foods that must stay as they are:
//
//	x_k = old_k
func addKeepRows(m *Model) {
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			n, ok := m.Request.Keep[k.Pack.Key]
			if !ok {
				continue
			}
			row := m.addRow("keep["+k.Pack.Key+"]", float64(n), float64(n), RowInfo{
				Kind: RowKeep, Class: UserLimit, Eater: -1, Of: lf.Food.Name, Text: "keep " + lf.Food.Name, Group: k.Pack.Key, Unit: "packs", PerDay: 1,
			})
			m.Problem.Set(row, k.Col, 1)
		}
	}
}

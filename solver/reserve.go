package solver

import "rationwright/foods"

// reserveG is the fast sugar to set aside for the whole household, in g. It is
// never ration.
func (r *Ration) reserveG() float64 {
	total := 0.0
	for _, e := range r.eaters {
		total += e.count * e.needs.ReserveG
	}
	return total
}

// fastSugarG is the sugar of one pack, in g.
func fastSugarG(k *foods.Pack) float64 {
	return k.NetG * k.Food.FastSugarG()
}

// isFastSugar reports whether packs of f can be set aside against a low blood
// sugar.
func isFastSugar(f *foods.Food) bool {
	return f.FastSugarG() > 0
}

// addReserveRows sets packs of fast sugar aside for people with diabetes:
//
//	Σ_k sugar_k r_k ≥ Σ_p n_p reserve_p
func (r *Ration) addReserveRows() {
	need := r.reserveG()
	if need <= 0 {
		return
	}
	row := -1
	for _, lf := range r.larder {
		for _, k := range lf.reserve {
			if row < 0 {
				row = r.addRow("fast-sugar-reserve", need, inf, rowInfo{
					kind: rowReserve, class: safety, eater: -1,
					text: "fast sugar set aside for a low", unit: "g", perDay: 1,
				})
			}
			r.Problem.Set(row, k.col, k.usable)
		}
	}
	if row < 0 {
		r.notes = append(r.notes, "no fast sugar against a low blood sugar can be set aside from this table: keep some ready")
	}
}

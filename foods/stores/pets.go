package stores

// Pet is one animal, or several alike.
type Pet struct {
	Name     string
	WeightKg float64 // 0: not known
	Count    int     // alike; 0 counts as 1
}

// PetWater is the water of one pet a day, in litres.
type PetWater struct {
	RecommendedL float64 `json:"recommended_l"` // to store
	LeastL       float64 `json:"least_l"`       // under it the animal goes short
	Rule         string  `json:"rule"`
	Refs         []Ref   `json:"refs"`
}

// WaterForPet returns the water of one animal like p a day: the CDC's US
// gallon, or the rule of thumb by body weight (1 fl oz per lb, 65.2 mL/kg)
// where that is more. The least is the rule by weight, or without a weight a
// utility's quart for a dog or cat.
func WaterForPet(p Pet) PetWater {
	store := waterRule("CDC", "pet", "total")
	w := PetWater{RecommendedL: LPerGallon, Rule: "1 US gallon a pet a day", Refs: []Ref{store.Ref}}
	if p.WeightKg > 0 {
		byWeight := waterRule("Rule of thumb", "dog or cat", "drinking")
		w.LeastL = byWeight.Value * p.WeightKg / mlPerL
		w.Rule += "; 1 fl oz per lb of body weight is the least"
		w.Refs = append(w.Refs, byWeight.Ref)
		w.RecommendedL = max(w.RecommendedL, w.LeastL)
		return w
	}
	quart := waterRule("Water district", "dog or cat", "total")
	w.LeastL = quart.Value
	w.Rule += "; 1 quart for a dog or cat is the least"
	w.Refs = append(w.Refs, quart.Ref)
	return w
}

// count is how many animals p stands for.
func (p Pet) count() float64 { return float64(max(1, p.Count)) }

// mlPerL is exact.
const mlPerL = 1000

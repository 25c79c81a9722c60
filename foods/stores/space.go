package stores

// Space is what goods take on shelves and weigh, all together.
type Space struct {
	Packs  int     `json:"packs"`
	BoxL   float64 `json:"box_l"`   // litres of the upright boxes
	ShelfL float64 `json:"shelf_l"` // litres of shelf for them, with gaps and hand room
	Kg     float64 `json:"kg"`      // full
}

// SpaceOf adds up loads: food, water in its containers, fuel.
func SpaceOf(loads []Load) Space {
	var s Space
	for i := range loads {
		l := &loads[i]
		s.Packs += l.Count
		s.BoxL += l.BoxL()
		s.Kg += float64(l.Count) * l.Kg
	}
	s.ShelfL = ShelfSpaceL(s.BoxL)
	return s
}

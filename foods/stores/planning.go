package stores

// Figure is one published or planned figure with where it comes from.
type Figure struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	Rule  string  `json:"rule"`
	Ref
}

func figureOf(w WaterRule) Figure {
	return Figure{w.Value, w.Unit, w.Note, w.Ref}
}

// SpillFactor is what drinking and cooking water are multiplied by for spills
// and spoiling.
func SpillFactor() Figure {
	return figureOf(waterRule("Planning", "household", "spill_and_spoilage_allowance"))
}

// HygieneL is the water for hands and dishes, L a head and day.
func HygieneL() Figure { return figureOf(waterRule("Planning", "person", "dish_and_hand_hygiene")) }

// HotFactor is what heat multiplies the need to drink by.
func HotFactor() Figure { return figureOf(waterRule("FEMA/Red Cross", "hot climate", "drinking")) }

// PetL is the water of one pet of unknown weight, L a day: a US gallon.
func PetL() Figure {
	f := figureOf(waterRule("CDC", "pet", "total"))
	f.Value = LPerGallon
	return f
}

// BoilHeat is the useful heat that makes doubtful water safe, MJ a litre.
func BoilHeat() Figure {
	r := fuelRule("water_boil_for_disinfection_extra")
	return Figure{r.Value, r.Unit, r.Note, r.Ref}
}

// LeastDrink returns the published least litres a day to keep for one person
// like p to drink, 0 where nothing is published, with the rule: 2 quarts for
// anyone whom no plan feeds, 3 for the pregnant and in the heat, 4 (the upper
// figure) for the sick, nothing for an infant under 6 months, who gets no plain
// water. It is water to keep, not an amount to make anyone drink.
func LeastDrink(p WaterPerson, hot bool) Figure {
	var least Figure
	if p.tagged(InfantUnder6) {
		return least
	}
	for _, f := range drinkFloors(hot) {
		if f.concerns(p) && f.litres > least.Value {
			least = Figure{f.litres, "L/person/day", f.rule, f.ref}
		}
	}
	return least
}

// planContainer is the container in which the water of a plan is counted.
const planContainer = "can_water_20"

// PlanContainer returns the container in which the water of a plan is counted:
// the 20 L one. Given shelves on none of which it can stand, it is the one of
// the table that can and takes least room for a litre; where none can, the 20 L
// one again, as the water then stands elsewhere.
func PlanContainer(shelves []Shelf) *Container {
	usual, ok := ContainerByKey(planContainer)
	if !ok {
		panic("stores: data/packages.csv: no container " + planContainer)
	}
	best := (*Container)(nil)
	for _, c := range WaterContainers() {
		load := LoadOfContainer(c, 1)
		switch {
		case c.Sealed() || !load.StandsOnAny(shelves):
		case c.Key == usual.Key:
			return usual
		case best == nil || c.BoxL/c.NetML < best.BoxL/best.NetML:
			best = c
		}
	}
	if best == nil {
		return usual
	}
	return best
}

// StandsOnAny reports whether one pack of the load can stand on one of the
// shelves by itself: foot, clear height and load.
func (l *Load) StandsOnAny(shelves []Shelf) bool {
	for i := range shelves {
		s := &shelves[i]
		if s.LoadKg+sameFigure >= l.Kg && fitsBoard(l, s) && tiersOn(l, s) > 0 {
			return true
		}
	}
	return false
}

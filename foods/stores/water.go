package stores

import (
	"fmt"
	"slices"
)

// Names of parts of a [WaterNeed].
const (
	drinking = "drinking"
	cooking  = "preparing food"
	spills   = "spills and spoilage"
	washing  = "washing hands and dishes"
	petsLine = "pets"
)

// WaterPerson is one row of the household as far as water goes.
type WaterPerson struct {
	Name         string
	Count        int     // alike people; 0 counts as 1
	DrinkLPerDay float64 // water one of them drinks a day, of the plan: total requirement less the water in food
	Tags         []Tag   // [PersonTags]; pregnant, nursing, infant-under-6-months and ill count here
	Refused      bool    // the plan does not feed this person; the published drinking water is stored all the same
}

func (p WaterPerson) tagged(t Tag) bool { return slices.Contains(p.Tags, t) }

// WaterInput is everything that decides how much water to store.
type WaterInput struct {
	People []WaterPerson
	Days   int

	PreparationL float64 // food preparation, all people, whole horizon: eaten, discarded and steam
	FormulaL     float64 // mixing infant formula, whole horizon
	Hot          bool    // doubles the drinking water
	HeatCounted  bool    // with Hot: the drink figures are of a plan made for the heat, doubled already
	// WashingL is for hands and dishes, L a head and day; nil means the planning
	// value of 1 L, and 0 that nothing is kept for it.
	WashingL *float64
	Pets     []Pet
}

// WaterLine is one part of the water to store, with the rule that gave it.
type WaterLine struct {
	What   string  `json:"what"`
	Litres float64 `json:"litres"` // over the horizon, all people
	Rule   string  `json:"rule"`
	Ref
}

// WaterNeed is the computed water of a household over the horizon:
//
//	1.1 × (drinking + preparation + formula) + hygiene + pets
type WaterNeed struct {
	Lines  []WaterLine `json:"lines"`
	Litres float64     `json:"litres"` // sum of Lines
	Heads  int         `json:"heads"`

	// ProtectedL of the drinks are those of infants, the ill, the pregnant and
	// nursing mothers, with the feeds: nothing is taken from them, see [Short].
	ProtectedL float64 `json:"protected_l"`

	Days int `json:"days"`

	// OnTop is what the published allowance is raised by for these people:
	// its gallon is for the healthy in a mild climate.
	OnTop []WaterLine `json:"on_top_of_allowance,omitempty"`
}

// ComputeWater returns the water a household needs over the horizon. Drinking
// is what the plan says, twice that in a hot climate, and never under the
// published figures: 3 quarts a day for the pregnant and in the heat, 4 quarts
// (the upper figure) for the sick, 2 quarts for anyone whom the plan does not
// feed. None of this holds for an infant under 6 months, who gets no plain
// water.
func ComputeWater(in WaterInput) WaterNeed {
	need := WaterNeed{Days: in.Days}
	days := float64(in.Days)
	add := func(what string, amountL float64, rule string, ref Ref) {
		if amountL > 0 {
			need.Lines = append(need.Lines, WaterLine{what, amountL, rule, ref})
		}
	}
	hot := waterRule("FEMA/Red Cross", "hot climate", "drinking")
	floors := drinkFloors(in.Hot)
	more := make([]float64, len(floors)) // what each floor adds
	var drink, heat float64
	for _, p := range in.People {
		count := float64(max(1, p.Count))
		need.Heads += max(1, p.Count)
		if p.tagged(InfantUnder6) {
			continue
		}
		has := max(0, p.DrinkLPerDay)
		drink += count * has * days
		if in.Hot && !in.HeatCounted {
			heat += count * has * (hot.Value - 1) * days
			has *= hot.Value
		}
		for i, f := range floors {
			if f.concerns(p) && f.litres > has {
				more[i] += count * (f.litres - has) * days
				has = f.litres
			}
		}
		if slices.ContainsFunc([]Tag{Infant, Ill, Pregnant, Nursing}, p.tagged) {
			need.ProtectedL += count * has * days
		}
	}
	drinks := "drinks of the plan: water required less the water in food"
	if in.Hot && in.HeatCounted {
		drinks = "drinks of the plan: twice the water required, for the heat, less the water in food"
	}
	add(drinking, drink, drinks, waterRule("IOM 2005", "woman 19 and over", "total_water_AI").Ref)
	add("drinking in the heat", heat, "heat or hard work can double the drinking need", hot.Ref)
	for i, f := range floors {
		add(f.what, more[i], f.rule, f.ref)
	}
	add(cooking, in.PreparationL, "by the foods' preparation: eaten, discarded and steam",
		Ref{"preparation of the foods in the plan", "see each food"})
	add("infant formula", in.FormulaL, "to mix the feeds; the label of the tin rules",
		Ref{"feeds of the plan", "see each infant"})
	spill := waterRule("Planning", "household", "spill_and_spoilage_allowance")
	add(spills, litres(need.Lines)*(spill.Value-1), spill.Note, spill.Ref)
	hygiene := waterRule("Planning", "person", "dish_and_hand_hygiene")
	perHead := hygiene.Value
	if in.WashingL != nil {
		perHead = *in.WashingL
	}
	add(washing, perHead*float64(need.Heads)*days, "per head and day, with economy", hygiene.Ref)
	var pets float64
	for _, p := range in.Pets {
		pets += WaterForPet(p).RecommendedL * p.count() * days
	}
	add(petsLine, pets, "1 US gallon a pet a day, more for a large animal", waterRule("CDC", "pet", "total").Ref)
	need.ProtectedL += in.FormulaL
	need.Litres = litres(need.Lines)
	need.OnTop = onTop(in)
	return need
}

func litres(lines []WaterLine) float64 {
	var sum float64
	for _, l := range lines {
		sum += l.Litres
	}
	return sum
}

// onTop returns what published figures add to the published allowance, whose
// drinking half is 2 quarts: a nursing mother the difference of her water
// requirement to another woman's, anyone in the heat the drinking half again,
// or else the sick the difference to 4 quarts and the pregnant to 3.
func onTop(in WaterInput) []WaterLine {
	half := waterRule("FEMA/Red Cross", "person", "drinking")
	hot := waterRule("FEMA/Red Cross", "hot climate", "drinking")
	sick := waterRule("CDC", "sick", "drinking")
	pregnant := waterRule("CDC", "pregnant", "drinking")
	nursing := waterRule("IOM 2005", "nursing mother", "total_water_AI")
	woman := waterRule("IOM 2005", "woman 19 and over", "total_water_AI")
	lines := []WaterLine{
		{"nursing", 0, "3.8 instead of 2.7 L of water a day", nursing.Ref},
		{"heat", 0, "heat or hard work can double the drinking need", hot.Ref},
		{"illness", 0, "4 quarts to drink instead of 2", sick.Ref},
		{"pregnancy", 0, "3 quarts to drink instead of 2", pregnant.Ref},
	}
	for _, p := range in.People {
		has := p.tagged
		if has(InfantUnder6) {
			continue
		}
		days := float64(in.Days) * float64(max(1, p.Count))
		if has(Nursing) {
			lines[0].Litres += (nursing.Value - woman.Value) * days
		}
		switch {
		case in.Hot:
			lines[1].Litres += half.Value * (hot.Value - 1) * days
		case has(Ill):
			lines[2].Litres += (sick.ValueMax - half.Value) * days
		case has(Pregnant):
			lines[3].Litres += (pregnant.Value - half.Value) * days
		}
	}
	return slices.DeleteFunc(lines, func(l WaterLine) bool { return l.Litres <= 0 })
}

// drinkFloor is a published least amount to drink for some people.
type drinkFloor struct {
	what, rule string
	litres     float64 // per person and day
	ref        Ref
	concerns   func(WaterPerson) bool
}

// drinkFloors returns the floors in the order in which they are applied, from
// the lowest up.
func drinkFloors(hot bool) []drinkFloor {
	tagged := func(t Tag) func(WaterPerson) bool {
		return func(p WaterPerson) bool { return p.tagged(t) }
	}
	half := waterRule("FEMA/Red Cross", "person", "drinking")
	pregnant := waterRule("CDC", "pregnant", "drinking")
	heat := waterRule("CDC", "hot climate", "drinking")
	sick := waterRule("CDC", "sick", "drinking")
	floors := []drinkFloor{
		{"drinking, not fed by the plan", "2 quarts a day", half.Value, half.Ref,
			func(p WaterPerson) bool { return p.Refused }},
		{"drinking in pregnancy", "at least 3 quarts a day", pregnant.Value, pregnant.Ref, tagged(Pregnant)},
	}
	if hot {
		floors = append(floors, drinkFloor{"drinking in the heat, least", "at least 3 quarts a day", heat.Value, heat.Ref,
			func(p WaterPerson) bool { return !p.tagged(Infant) }})
	}
	return append(floors, drinkFloor{"drinking when ill", "4 quarts a day, the upper figure", sick.ValueMax, sick.Ref, tagged(Ill)})
}

// WaterAdvice holds the computed need beside the allowances.
type WaterAdvice struct {
	Computed    WaterNeed   `json:"computed"`
	Allowances  []Allowance `json:"allowances"`
	AllowanceL  []float64   `json:"allowance_l"` // of each, over the horizon, all heads
	Recommended float64     `json:"recommended_l"`
	Because     string      `json:"because"` // which of them it is
}

// Recommend returns the water to store: what the plan counts, countedL, which
// is the computed need or, where it was asked for, the usual allowance. The
// allowances stand beside it: they are for people, so the pets' water comes on
// top, and the published one, which says that some need more, with OnTop.
func Recommend(need WaterNeed, countedL float64) WaterAdvice {
	a := WaterAdvice{
		Computed: need, Allowances: []Allowance{UsualAllowance(), PublishedAllowance()},
		Recommended: countedL, Because: "the computed need, as the plan counts it",
	}
	if countedL > need.Litres*(1+sameLitres) {
		a.Because = "the older allowance, as the plan was asked to count it"
	}
	var pets float64
	for _, l := range need.Lines {
		if l.What == petsLine {
			pets = l.Litres
		}
	}
	for _, w := range a.Allowances {
		all := w.Litres(need.Heads, need.Days) + pets
		if w.Key == published {
			all += litres(need.OnTop)
			if all > countedL*(1+sameLitres) {
				a.Because += fmt.Sprintf("; the published allowance is %.0f L more, for washing and cooking of any kind", all-countedL)
			}
		}
		a.AllowanceL = append(a.AllowanceL, all)
	}
	return a
}

// sameLitres is the part by which two sums of the same litres may differ: their
// rounding.
const sameLitres = 1e-6

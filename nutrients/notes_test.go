package nutrients

import (
	"slices"
	"strings"
	"testing"
)

// Whatever was assumed, lowered or left out for a person is said, and of nobody else. Reference
// bodies are those of IOM 2002/2005: a woman 163 cm and 57 kg.
func TestWhatIsAssumedIsSaid(t *testing.T) {
	woman := Person{AgeMonths: 360, Sex: Female}
	of := func(change func(*Person)) Person { p := woman; change(&p); return p }
	const bodies = "of the reference body of the age."
	for _, c := range []struct {
		name string
		p    Person
		o    Options
		part string
		said bool
	}{
		{"no body", woman, Options{}, "Height and weight, 163 cm and 57 kg, are those " + bodies, true},
		{"a height", of(func(p *Person) { p.HeightCm = 170 }), Options{}, "Weight, 57 kg, is that " + bodies, true},
		{"a weight", of(func(p *Person) { p.WeightKg = 60 }), Options{}, "Height, 163 cm, is that " + bodies, true},
		{"a body", of(func(p *Person) { p.HeightCm, p.WeightKg = 170, 60 }), Options{}, bodies, false},

		{"lean", woman, Options{LeanEnergy: true}, "The lean energy floor is for adults", false},
		{"lean at 65", of(func(p *Person) { p.AgeMonths = 780 }), Options{LeanEnergy: true}, "The lean energy floor is for adults of 19 to 64 years", true},
		{"lean at 18", of(func(p *Person) { p.AgeMonths = 227 }), Options{LeanEnergy: true}, "The lean energy floor is for adults of 19 to 64 years", true},
		{"lean and pregnant", of(func(p *Person) { p.State = Pregnant1 }), Options{LeanEnergy: true}, "here the whole requirement stands", true},
		{"not lean at 65", of(func(p *Person) { p.AgeMonths = 780 }), Options{}, "lean energy", false},

		{"Guidelines", woman, Options{EnergySet: EnergyGuidelines}, "The Guidelines table", false},
		{"Guidelines with a body", of(func(p *Person) { p.WeightKg = 60 }), Options{EnergySet: EnergyGuidelines}, "The Guidelines table is for a reference body", true},
		{"Guidelines with a height", of(func(p *Person) { p.HeightCm = 170 }), Options{EnergySet: EnergyGuidelines}, "height and weight change nothing", true},
		{"2023 with a body", of(func(p *Person) { p.WeightKg = 60 }), Options{}, "The Guidelines table", false},
		{"Guidelines, very active", of(func(p *Person) { p.Activity = VeryActive }), Options{EnergySet: EnergyGuidelines}, "no class above active", true},
		{"Guidelines, active", of(func(p *Person) { p.Activity = Active }), Options{EnergySet: EnergyGuidelines}, "no class above active", false},
		{"Guidelines, very active at three", of(func(p *Person) { p.AgeMonths, p.Activity = 36, VeryActive }), Options{EnergySet: EnergyGuidelines}, "no class above active", true},
		{"Guidelines, very active at two", of(func(p *Person) { p.AgeMonths, p.Activity = 35, VeryActive }), Options{EnergySet: EnergyGuidelines}, "no class above active", false},
		{"Guidelines of an infant", of(func(p *Person) { p.AgeMonths, p.Feeding = 11, BreastFed }), Options{EnergySet: EnergyGuidelines}, "The Guidelines table begins at 12 months; energy is by the 2005 equation", true},
		{"Guidelines at a year", of(func(p *Person) { p.AgeMonths = 12 }), Options{EnergySet: EnergyGuidelines}, "begins at 12 months", false},

		// 57 kg before and 1.25 + 0.42 × 7 kg more in week 20: 61 kg now, BMI 21.5 before.
		{"second trimester", of(func(p *Person) { p.State = Pregnant2 }), Options{}, "for week 20, at a weight of 61 kg now and 57 kg (normal weight) before", true},
		// 92 kg now are 10.07 less, 82 kg, before: BMI 30.8.
		{"third trimester", of(func(p *Person) { p.State, p.WeightKg = Pregnant3, 92 }), Options{}, "for week 34, at a weight of 92 kg now and 82 kg (obese) before", true},
		{"first trimester", of(func(p *Person) { p.State = Pregnant1 }), Options{}, "equation of pregnancy", false},
		{"breast-feeding", of(func(p *Person) { p.State = Lactating1 }), Options{EnergySet: Energy2005}, "Energy includes 330 kcal a day for pregnancy or breast-feeding.", true},
		{"second half-year", of(func(p *Person) { p.State = Lactating2 }), Options{EnergySet: EnergyGuidelines}, "Energy includes 400 kcal a day", true},
		{"first trimester by the Guidelines", of(func(p *Person) { p.State = Pregnant1 }), Options{EnergySet: EnergyGuidelines}, "Energy includes", false},

		{"no orders", woman, Options{}, "By order of", false},
		{"orders", of(func(p *Person) {
			p.Orders = Orders{By: "Dr Ardal", On: "2026-01-31", List: []Order{{Of: OrderSodium, High: 2000}}}
		}), Options{}, "By order of Dr Ardal, 2026-01-31: sodium at most 2000 mg. Nothing in this plan relaxes it", true},
		{"low sodium", of(func(p *Person) { p.Conditions = []Condition{LowSodium} }), Options{}, "Low-sodium diet: at most 2000 mg of sodium a day and no least amount.", true},
		{"low sodium of a child", of(func(p *Person) { p.AgeMonths, p.Conditions = 30, []Condition{LowSodium} }), Options{}, "at most 1200 mg of sodium", true},
		// A girl of a year needs less than the 1,357 kcal that 19 g of fibre are for.
		{"fibre of a child", of(func(p *Person) { p.AgeMonths = 12 }), Options{}, "Fibre: at least ", true},
		{"fibre of a child says why", of(func(p *Person) { p.AgeMonths = 12 }), Options{}, "14 g per 1,000 kcal, which the AI of 19 g is derived from.", true},
		{"fibre of a woman", woman, Options{}, "Fibre: at least ", false},
		{"a supplement of others", of(func(p *Person) { p.Sex, p.Supplements = Male, []string{"iron 14 mg", "vitamin D 10 ug"} }), Options{}, `Supplement "iron 14 mg" is not counted: not for a man or boy.`, true},
		{"the next is counted", of(func(p *Person) { p.Sex, p.Supplements = Male, []string{"iron 14 mg", "vitamin D 10 ug"} }), Options{}, "vitamin D 10 µg, 1 a day, is counted.", true},
	} {
		needs := mustFor(t, c.p, c.o)
		if got := noted(&needs, c.part); got != c.said {
			t.Errorf("%s: told %q %v, want %v: %+v", c.name, c.part, got, c.said, needs.Notes)
		}
	}
	if needs := mustFor(t, of(func(p *Person) { p.Sex, p.Supplements = Male, []string{"iron 14 mg", "vitamin D 10 ug"} }), Options{}); len(needs.Supplements) != 1 {
		t.Errorf("%+v are counted, want vitamin D alone", needs.Supplements)
	}
}

// A figure that was turned says from what and why.
func TestTurnedFiguresSayHow(t *testing.T) {
	vegan := []Condition{Vegan}
	for _, c := range []struct {
		name string
		p    Person
		of   func(*Needs) *Limit
		kind string
		note string
	}{
		{"energy", Person{AgeMonths: 360, Sex: Male}, func(n *Needs) *Limit { return find(n, Energy).Ceiling }, "EER", "planning band: 1.00 to 1.10 × the requirement"},
		{"iron", Person{AgeMonths: 360, Sex: Female, Conditions: vegan}, func(n *Needs) *Limit { return find(n, Iron).Floor }, "RDA", "RDA of 18 mg × 1.8 for a diet without meat"},
		{"iron in pregnancy", Person{AgeMonths: 360, Sex: Female, State: Pregnant1, Conditions: vegan}, func(n *Needs) *Limit { return find(n, Iron).Floor }, "RDA", "RDA of 27 mg × 1.8 for a diet without meat; stopped at 0.9 × the upper level of 45 mg"},
		{"protein by weight", Person{AgeMonths: 360, Sex: Male, WeightKg: 100}, func(n *Needs) *Limit { return find(n, Protein).Floor }, "RDA", "0.8 g per kg × 100 kg"},
		{"protein at 65", Person{AgeMonths: 780, Sex: Male, WeightKg: 80}, func(n *Needs) *Limit { return find(n, Protein).Floor }, "expert group", "1 g per kg × 80 kg"},
		{"retinol", Person{AgeMonths: 360, Sex: Male}, func(n *Needs) *Limit { return find(n, Retinol).Ceiling }, "UL", "counts preformed retinol alone"},
		{"niacin", Person{AgeMonths: 360, Sex: Male}, func(n *Needs) *Limit { return find(n, Niacin).Floor }, "RDA", "held against preformed niacin alone"},
		{"drinks", Person{AgeMonths: 360, Sex: Female}, func(n *Needs) *Limit { return n.Water.Drinks }, "planning", "0.45 × 2.7 L"},
		{"drinks at 65", Person{AgeMonths: 780, Sex: Female}, func(n *Needs) *Limit { return n.Water.Drinks }, "guideline", ""},
		{"water", Person{AgeMonths: 360, Sex: Female}, func(n *Needs) *Limit { return n.Water.Total }, "AI", ""},
		{"fibre of a child", Person{AgeMonths: 12, Sex: Female}, func(n *Needs) *Limit { return find(n, Fibre).Floor }, "AI", "14 g per 1,000 kcal"},
		{"folic acid", Person{AgeMonths: 360, Sex: Female, Supplements: []string{"folic acid 400 ug"}}, func(n *Needs) *Limit { return find(n, FolicAcid).Ceiling }, "UL", "1000 less 400 of folic acid 400 µg"},
		{"vitamin D beside a tablet", Person{AgeMonths: 360, Sex: Female, Supplements: []string{"vitamin D 10 ug"}}, func(n *Needs) *Limit { return find(n, VitaminD).Floor }, "RDA", "15 less 10 of vitamin D 10 µg"},
		{"its upper level", Person{AgeMonths: 360, Sex: Female, Supplements: []string{"vitamin D 10 ug"}}, func(n *Needs) *Limit { return find(n, VitaminD).Ceiling }, "UL", "100 less 10 of vitamin D 10 µg"},
	} {
		needs := mustFor(t, c.p, Options{})
		if l := c.of(&needs); l == nil || l.Kind != c.kind || !strings.Contains(l.Note, c.note) || c.note != "" && l.Note == "" {
			t.Errorf("%s: %+v, want %s with %q", c.name, l, c.kind, c.note)
		}
	}
	lean := mustFor(t, Person{AgeMonths: 360, Sex: Male}, Options{LeanEnergy: true})
	if got := find(&lean, Energy).Floor.Note; got != "planning band: 0.97 to 1.10 × the requirement" {
		t.Errorf("the lean floor says %q", got)
	}
}

// Requirements without a column are named for everybody, refused people too, and somebody whom a
// clinician must plan for has water stored and a line that says why.
func TestWhoIsRefusedHasWater(t *testing.T) {
	for _, c := range []struct {
		name, says string
		p          Person
		water      float64 // L a day (IOM 2005)
	}{
		{"tube feeding", "Not planned: tube feeding takes a formula", Person{AgeMonths: 360, Sex: Female, Conditions: []Condition{TubeFeeding}}, 2.7},
		{"kidney disease", "written under orders, with who gave them and when, they are planned with.", Person{AgeMonths: 360, Sex: Male, Conditions: []Condition{KidneyDisease}}, 3.7},
		{"heart failure", "written under orders", Person{AgeMonths: 360, Sex: Male, Conditions: []Condition{HeartFailure}}, 3.7},
		{"unplanned", "Not planned: the orders cannot all be kept. Ask the clinician now", Person{AgeMonths: 360, Sex: Male, Unplanned: &Refusal{"the orders cannot all be kept", "a source", "yes: a copy"}}, 3.7},
		{"nobody", "", Person{AgeMonths: 360, Sex: Male}, 3.7},
	} {
		needs := mustFor(t, c.p, Options{})
		if (needs.Refused != nil) != (c.says != "") || !slices.Equal(needs.NotChecked, []string{"alpha_linolenic_acid", "biotin", "chloride", "chromium", "fluoride", "iodine", "linoleic_acid", "molybdenum"}) {
			t.Errorf("%s: refused %+v, not checked %v", c.name, needs.Refused, needs.NotChecked)
		}
		if w := needs.Water.Total; w == nil || w.Amount != c.water || (w.Note == "stored, not planned: the clinician says how much to drink") != (c.says != "") {
			t.Errorf("%s: water %+v, want %g L", c.name, w, c.water)
		}
		if c.says != "" && (len(needs.Notes) != 1 || !strings.Contains(needs.Notes[0].Text, c.says) || !strings.HasSuffix(needs.Notes[0].Text, "drinking water is stored all the same.") || needs.Notes[0].Source != needs.Refused.Source) {
			t.Errorf("%s: %+v, want one line with %q", c.name, needs.Notes, c.says)
		}
		if orders := strings.Contains(c.says, "under orders"); needs.Refused != nil && strings.Contains(needs.Refused.Reason, "under orders") != orders {
			t.Errorf("%s: %s", c.name, needs.Refused.Reason)
		}
	}
}

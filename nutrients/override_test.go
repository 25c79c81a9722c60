package nutrients

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// A band of the household's own, by hand: three meals and two snacks of 15 g. The day keeps the 130 g
// that nobody goes under without a clinician (RDA; in pregnancy 175 g), as far as the band holds
// them; where it does not that is said.
func TestDayOfAnOwnBand(t *testing.T) {
	for _, c := range []struct {
		state     State
		band      string
		low, high float64
		note, day string // of the floor, and in the line that is said
	}{
		{NoState, "carbohydrate 50-65 g/meal", 180, 225, "3 meals and 2 snacks of 15 g", ": 180 to 225 g of carbohydrate a day (3 meals and 2 snacks of 15 g)"},
		{NoState, "carbohydrate 30-45 g/meal", 130, 165, "", ": 130 to 165 g of carbohydrate a day"},
		{NoState, "carbohydrate 15-25 g/meal", 105, 105, "lowered to the top of the band: ask a clinician", ": 105 to 105 g"},
		{Pregnant2, "carbohydrate 45-60 g/meal", 175, 210, "", ": 175 to 210 g"},
		{Pregnant2, "carbohydrate 50-60 g/meal", 180, 210, "3 meals and 2 snacks of 15 g", ": 180 to 210 g"},
	} {
		needs := ruled(t, Person{AgeMonths: 360, Sex: Female, State: c.state}, Options{}, c.band)
		need := find(&needs, Carbohydrate)
		if need.Floor.Amount != c.low || need.Ceiling.Amount != c.high || need.Floor.Note != c.note || need.Ceiling.Note != "3 meals and 2 snacks of 15 g" {
			t.Errorf("%s %s: %+v to %+v, want %g to %g", c.state, c.band, need.Floor, need.Ceiling, c.low, c.high)
		}
		if !noted(&needs, c.day) || !noted(&needs, "it stands in place of the shares of energy from carbohydrate and fat") {
			t.Errorf("%s %s: no line %q", c.state, c.band, c.day)
		}
	}
}

// What a rule leaves of the figures beside it, by hand, in each direction at its limit: over nine
// tenths of a ceiling of the tables there is no floor, and under a ceiling of the household's own
// the floor of the tables is lowered to nine tenths of it. In the standard of the fewest needs the
// upper levels hold for what is ruled, and the CDRR of sodium, which is none, does not.
func TestFiguresBesideARule(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		standard  Standard
		months    int
		rules     string
		n         Nutrient
		low, high float64
		refused   string // "" when it is taken
	}{
		{"", 360, "floor iron 40.5 mg", Iron, 40.5, 45, ""},
		{"", 360, "floor iron 40.6 mg", Iron, 0, 0, "it is over 40.5 mg"},
		{"", 360, "ceiling iron 45 mg", Iron, 18, 45, ""},
		{"", 360, "ceiling iron 45.1 mg", Iron, 0, 0, "does not lift the upper level of 45 mg"},
		{"", 360, "ceiling iron 20 mg", Iron, 18, 20, ""},
		{"", 360, "ceiling iron 19 mg", Iron, 17.1, 19, ""},
		{"", 360, "ceiling vitamin k 0 µg", VitaminK, 0, 0, ""},
		{"", 360, "ceiling potassium 3000 mg", Potassium, 2600, 3000, ""},
		{StandardBasic, 360, "floor iron 40.6 mg", Iron, 0, 0, "ceiling of 45 mg (UL"},
		{StandardBasic, 360, "floor iron 30 mg", Iron, 30, 45, ""},
		{StandardBasic, 360, "floor sodium 3000 mg", Sodium, 3000, inf, ""},
		{"", 360, "floor sodium 3000 mg", Sodium, 0, 0, "ceiling of 2300 mg (CDRR"},
		{"", 360, "floor sodium 2070 mg", Sodium, 2070, 2300, ""},
		{"", 360, "ceiling sodium 1800 mg", Sodium, 1500, 1800, ""},
		{"", 360, "floor protein 46 g", Protein, 46, inf, ""},
		{"", 360, "floor protein 45.9 g", Protein, 0, 0, "this person needs 46 g of protein"},
		{"", 360, "ceiling protein 46 g", Protein, 46, 46, ""},
		{"", 360, "ceiling protein 45.9 g", Protein, 0, 0, "below the 46 g of protein"},
		{"", 360, "floor energy 1500 kcal", Energy, 0, 0, "this person needs"},
		{"", 360, "ceiling energy 1500 kcal", Energy, 0, 0, "of energy that this person needs"},
		{"", 360, "floor energy 3000 kcal", Energy, 3000, 3300, ""},
		{"", 18, "floor added sugars 10 g", AddedSugars, 0, 0, "no added sugars under 24 months"},
		{"", 24, "floor added sugars 10 g", AddedSugars, 10, inf, ""},
		{"", 360, "floor added sugars 10 g", AddedSugars, 10, inf, ""},
		{"", 360, "floor sugars 10 g", Sugars, 10, inf, ""},
		{"", 18, "floor sugars 10 g", Sugars, 10, inf, ""},
		{"", 8, "floor iron 12 mg", Iron, 0, 0, "the feed is fixed"},
		{"", 8, "ceiling iron 30 mg", Iron, 0, 0, "the feed is fixed"},
		{"", 8, "carbohydrate 20-30 g/meal", Iron, 0, 0, "the feed is fixed"},
		{"", 8, "no liver", Iron, 11, inf, ""},
		{"", 8, "most rice 20 g/day", Iron, 11, inf, ""},
	} {
		p := Person{AgeMonths: c.months, Sex: Female}
		if c.months < infantBelow {
			p.Feeding = BreastFed
		}
		rule, fix, err := ParseRule(c.rules)
		if err != nil {
			t.Fatalf("%q: %v; %s", c.rules, err, fix)
		}
		p.Rules = []Rule{rule}
		needs, err := For(p, Options{Standard: c.standard})
		if c.refused != "" {
			if !errors.Is(err, ErrRule) || !strings.Contains(err.Error(), c.refused) {
				t.Errorf("%s %s: %v, want it refused with %q", c.standard, c.rules, err, c.refused)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s %s: %v", c.standard, c.rules, err)
			continue
		}
		if low, high := floorOf(&needs, c.n), ceilingOf(&needs, c.n); math.Abs(low-c.low) > 1e-9 || high != c.high && !(math.Abs(high-c.high) < 1e-9) {
			t.Errorf("%s %s: %g to %g, want %g to %g", c.standard, c.rules, low, high, c.low, c.high)
		}
		if l := find(&needs, c.n).Floor; l != nil && l.Kind == kindRule && strings.HasPrefix(c.rules, "ceiling") && l.Note != "0.9 × the ceiling of the rule" {
			t.Errorf("%s: the floor says %q", c.rules, l.Note)
		}
	}
}

// A rule is told with the figure in whose place it stands and where that is from.
func TestRulesAreToldWithTheirSource(t *testing.T) {
	needs := ruled(t, Person{AgeMonths: 360, Sex: Female}, Options{}, "ceiling sodium 3000 mg", "floor sugars 10 g")
	found := 0
	for _, n := range needs.Notes {
		switch {
		case strings.Contains(n.Text, "in place of the ceiling of 2300 mg (CDRR)"):
			found++
			if !strings.HasPrefix(n.Source, "NASEM") || !strings.HasPrefix(n.Verified, "yes: ") && !fromMemory(n.Verified) {
				t.Errorf("%+v", n)
			}
		case strings.Contains(n.Text, "sets a floor where the tables have none"):
			found++
			if n.Source != "household" || n.Verified != "set by the user" {
				t.Errorf("%+v", n)
			}
		}
	}
	if found != 2 {
		t.Errorf("%d of the two rules are told: %+v", found, needs.Notes)
	}
}

// The mark of a figure says how it was verified, in the words of the data or of this program, and
// never where it is from: whoever is told something is told both.
func TestMarksAreMarks(t *testing.T) {
	marks := []string{"yes: ", "from memory", "common practice, no source", "own planning rule, no source", "planning rule of this program", "set by the user", "set by the clinician", "computed: yes: ", "computed: from memory", "see data/supplements.csv"}
	seen := map[string]bool{}
	check := func(what, source, verified string) {
		good := false
		for _, m := range marks {
			good = good || strings.HasPrefix(verified, m)
			if strings.HasPrefix(source, m) {
				t.Errorf("%s: source %q", what, source)
			}
		}
		if seen[verified] = true; !good || source == "" {
			t.Errorf("%s: source %q, mark %q", what, source, verified)
		}
	}
	turn := 0
	everyPerson(func(p Person) {
		p.Conditions = [][]Condition{nil, {Vegan}, {LowSodium}, {Diabetes2}, {Vegetarian, Coeliac}, {HeartFailure}}[turn%6]
		if turn%5 == 0 {
			p.HeightCm, p.WeightKg = 70, 9
			if p.AgeMonths >= 36 {
				p.HeightCm, p.WeightKg = 150, 50
			}
		}
		o := Options{EnergySet: allSets[turn%3], LeanEnergy: turn%2 == 0}
		turn++
		needs := mustFor(t, p, o)
		for _, n := range needs.Notes {
			check(n.Text, n.Source, n.Verified)
		}
		limits := []*Limit{needs.Water.Total, needs.Water.Drinks}
		for _, need := range needs.List {
			limits = append(limits, need.Floor, need.Ceiling, need.Target, need.Upper)
		}
		for _, s := range needs.Shares {
			limits = append(limits, s.Min, s.Max)
		}
		if f := needs.Feed; f != nil {
			limits = append(limits, f.FormulaML, f.HumanMilkML, f.PureeG, f.MeatG, f.IronFoods)
		}
		for _, l := range limits {
			if l != nil {
				check(l.Kind, l.Source, l.Verified)
			}
		}
	})
	if len(seen) < 10 {
		t.Errorf("only %d marks seen", len(seen))
	}
}

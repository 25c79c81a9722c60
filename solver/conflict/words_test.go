package conflict

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// household is a model of rows alone, for three people over 14 days.
func household() *model.Model {
	m := &model.Model{Request: &ration.Request{Days: 14, Cook: ration.CookSimmer, Standard: nutrients.StandardRDA}, Problem: &linear.Problem{}}
	for _, name := range []string{"Signe", "Arvid", "Odd"} {
		p := nutrients.Person{Name: name}
		m.Request.People = append(m.Request.People, p)
		m.Eaters = append(m.Eaters, &model.Eater{Person: p})
	}
	add := func(name string, lower, upper float64, info model.RowInfo) {
		m.Problem.AddRow(name, lower, upper)
		m.Rows = append(m.Rows, info)
	}
	inf := math.Inf(1)
	need := func(eater int, n nutrients.Nutrient, text, unit string) model.RowInfo {
		return model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Eater: eater, Nutrient: n, Text: text, Unit: unit, PerDay: 14}
	}
	add("balance", 0, 0, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, PerDay: 1})                                                            // 0
	add("budget", -inf, 100, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "budget", Unit: "EUR", PerDay: 1, On: model.OnBudget})          // 1
	add("salt", -inf, 14*2300, model.RowInfo{Kind: model.RowNutrient, Class: model.Safety, Eater: 1, Text: "sodium", Unit: "mg", PerDay: 14})                             // 2
	add("energy[Signe]", 14*1800, inf, need(0, nutrients.Energy, "energy", "kcal"))                                                                                       // 3
	add("energy[Arvid]", 14*2400, inf, need(1, nutrients.Energy, "energy", "kcal"))                                                                                       // 4
	add("protein[Odd]", 14*50, 14*90, need(2, nutrients.Protein, "protein", "g"))                                                                                         // 5
	add("D[Signe]", 14*15, 14*100, need(0, nutrients.VitaminD, "vitamin D", "µg"))                                                                                        // 6
	add("sweets", -inf, 7, model.RowInfo{Kind: model.RowKindCap, Class: model.Planning, Eater: 0, PerDay: 14})                                                            // 7
	add("keep", 3, 3, model.RowInfo{Kind: model.RowKeep, Class: model.UserLimit, Eater: -1, Text: "change the packs of rice", Of: "rice", Group: "rice-bag", PerDay: 1})  // 8
	add("rule", 14*30, inf, model.RowInfo{Kind: model.RowUser, Class: model.Requirement, Eater: 0, Text: "own rule: least rye 30 g/day", Unit: "g", PerDay: 14, Of: "r"}) // 9
	add("feed", 14*700, 14*700, model.RowInfo{Kind: model.RowFeed, Class: model.Requirement, Eater: 2, Text: "formula", Unit: "mL", PerDay: 14})                          // 10
	food := m.Problem.AddCol("formula", 7, 0, 9, true)
	m.Problem.Set(9, food, 1)
	m.Problem.Set(10, food, 1)
	return m
}

func side(row int, lower, upper bool) conflictLimit {
	return conflictLimit{row: row, lower: lower, upper: upper, exclusion: -1}
}

// TestEverythingInItsOrder: needs come first, then safety, then what the household may
// change; structure and planning rules never; each side by itself but of one amount; floors
// of what the body stores only where the finder is strict.
func TestEverythingInItsOrder(t *testing.T) {
	f := newFinder(household())
	want := []conflictLimit{side(3, true, false), side(4, true, false), side(5, true, false), side(5, false, true), side(6, false, true), side(9, true, false), side(10, true, true),
		side(2, false, true), side(1, false, true), side(8, true, true)}
	if got := f.everything(); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	f.strict = true
	if got := f.everything(); !slices.Equal(got, slices.Insert(want, 4, side(6, true, false))) {
		t.Errorf("strict: %v", got)
	}
}

// TestProgramOfTheKept: what is kept is in force by the side that is kept, the structure
// always, and nothing else; costs are gone, and no row is left for later.
func TestProgramOfTheKept(t *testing.T) {
	m := household()
	for i := range m.Problem.Rows {
		m.Problem.Rows[i].Lazy = true
	}
	f := newFinder(m)
	_, p, err := f.program([]conflictLimit{side(3, true, false), side(5, false, true), side(6, true, false), side(6, false, true), side(8, true, true)})
	if err != nil {
		t.Fatal(err)
	}
	inf := math.Inf(1)
	for i, want := range [][2]float64{{0, 0}, {-inf, inf}, {-inf, inf}, {14 * 1800, inf}, {-inf, inf}, {-inf, 14 * 90}, {14 * 15, 14 * 100}, {-inf, inf}, {3, 3}, {-inf, inf}, {-inf, inf}} {
		if row := p.Rows[i]; row.Lower != want[0] || row.Upper != want[1] || row.Lazy != (i == 0) {
			t.Errorf("%s: from %g to %g, later %v; want %v", row.Name, row.Lower, row.Upper, row.Lazy, want)
		}
	}
	if p.Cols[0].Cost != 0 || m.Problem.Cols[0].Cost != 7 || m.Problem.Rows[1].Upper != 100 {
		t.Error("costs stay, or the model is changed")
	}
}

// TestMembersOfASet: a need of several people is one member where sets are grouped, by need
// and side; a rule, a limit and an exclusion are each by themselves.
func TestMembersOfASet(t *testing.T) {
	f := newFinder(household())
	limits := []conflictLimit{side(3, true, false), side(1, false, true), side(4, true, false), side(5, true, false), side(5, false, true), side(9, true, false), {row: -1, exclusion: 0}, side(2, false, true)}
	grouped := f.members(conflictSet{limits: limits, grouped: true})
	want := [][]int{{3, 4}, {1}, {5}, {5}, {9}, {-1}, {2}}
	var got [][]int
	for _, member := range grouped {
		var rows []int
		for _, l := range member {
			rows = append(rows, l.row)
		}
		got = append(got, rows)
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("members %v, want %v", got, want)
	}
	if one := f.members(conflictSet{limits: limits}); len(one) != len(limits) {
		t.Errorf("%d members by themselves, want %d", len(one), len(limits))
	}
	set := conflictSet{limits: limits}
	if ex := set.exclusions(); len(ex) != 1 || ex[0][0].exclusion != 0 || len(set.limits) != len(limits) {
		t.Errorf("exclusions %v", ex)
	}
	if !set.holds(2) || set.holds(6) {
		t.Error("what rows are in the set")
	}
}

// TestTooLongToRead: a set of more than six needs, of which some are the same of several people.
func TestTooLongToRead(t *testing.T) {
	m := household()
	for k := range 5 {
		for e := range 2 {
			m.Problem.AddRow(fmt.Sprint("need", k, e), 1, math.Inf(1))
			m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Eater: e, Text: fmt.Sprint("need", k), Unit: "g", PerDay: 14})
		}
	}
	f := newFinder(m)
	for _, c := range []struct {
		rows []int
		want bool
	}{
		{[]int{11, 12, 13, 14, 15, 16}, false},      // six
		{[]int{11, 12, 13, 14, 15, 16, 17}, true},   // seven, three of them of two people
		{[]int{11, 13, 15, 17, 19, 3, 5}, false},    // seven, each of one person
		{[]int{11, 12, 13, 14, 15, 16, 1}, false},   // six and the budget
		{[]int{11, 12, 13, 14, 15, 16, 2}, false},   // six and a safety row
		{[]int{11, 12, 13, 15, 17, 19, 3, 1}, true}, // seven, one of two people, and the budget
	} {
		var set conflictSet
		for _, i := range c.rows {
			set.limits = append(set.limits, side(i, true, false))
		}
		if got := f.tooLong(set); got != c.want {
			t.Errorf("rows %v: too long %v, want %v", c.rows, got, c.want)
		}
	}
}

// TestConflictInWords, by hand: amounts are a day's, of the side that is meant.
func TestConflictInWords(t *testing.T) {
	m := household()
	f := newFinder(m)
	for _, c := range []struct {
		limits []conflictLimit
		want   ration.ConflictLimit
	}{
		{[]conflictLimit{side(3, true, false)}, ration.ConflictLimit{Limit: "energy at least 1800 kcal a day", Person: "Signe"}},
		{[]conflictLimit{side(5, false, true)}, ration.ConflictLimit{Limit: "protein at most 90 g a day", Person: "Odd"}},
		{[]conflictLimit{side(2, false, true)}, ration.ConflictLimit{Limit: "sodium at most 2300 mg a day", Person: "Arvid"}},
		{[]conflictLimit{side(1, false, true)}, ration.ConflictLimit{Limit: "budget at most 100 EUR"}},
		{[]conflictLimit{side(10, true, true)}, ration.ConflictLimit{Limit: "formula 700 mL a day", Person: "Odd"}},
		{[]conflictLimit{side(8, true, true)}, ration.ConflictLimit{Limit: "change the packs of rice"}},
		{[]conflictLimit{side(3, true, false), side(4, true, false)}, ration.ConflictLimit{Limit: "energy at least 1800 to 2400 kcal a day, for Signe, Arvid"}},
		{[]conflictLimit{side(4, true, false), side(3, true, false)}, ration.ConflictLimit{Limit: "energy at least 1800 to 2400 kcal a day, for Arvid, Signe"}},
	} {
		if got := f.inWords(conflictSet{limits: c.limits, proven: true, grouped: true}); len(got) != 1 || got[0] != c.want {
			t.Errorf("%v: %v, want %v", c.limits, got, c.want)
		}
	}
	m.Problem.Rows[4].Lower = 14 * 1800 // as much as Signe, and Odd too
	m.Problem.AddRow("energy[Odd]", 14*1800, math.Inf(1))
	m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Eater: 2, Nutrient: nutrients.Energy, Text: "energy", Unit: "kcal", PerDay: 14})
	all := conflictSet{limits: []conflictLimit{side(3, true, false), side(4, true, false), side(11, true, false)}, proven: true, grouped: true}
	if got := f.inWords(all); len(got) != 1 || got[0].Limit != "energy at least 1800 kcal a day, for everyone" {
		t.Errorf("%v, want as much for everyone", got)
	}
	if ceilings := f.needInWords([]conflictLimit{side(5, false, true), side(6, false, true)}); ceilings.Limit != "protein at most 90 to 100 g a day, for Odd, Signe" {
		t.Errorf("ceilings: %v", ceilings)
	}
	// Sixteen that could not be told apart are named, of more only what the household may change.
	few, many := conflictSet{limits: f.everything()}, conflictSet{limits: f.everything()}
	for len(few.limits) < mostNamed {
		few.limits = append(few.limits, side(1, false, true))
	}
	many.limits = append(slices.Clone(few.limits), side(1, false, true))
	if got := f.inWords(few); slices.Contains(got, f.allNeeds()) || !slices.Contains(got, f.words(side(3, true, false))) {
		t.Errorf("sixteen: %v", got)
	}
	if got := f.inWords(many); len(got) != 3 || got[0].Limit != "what everyone needs, by the standard rda" || got[1].Limit != "budget at most 100 EUR" || got[2].Limit != "change the packs of rice" {
		t.Errorf("seventeen: %v", got)
	}
	many.proven = true
	if got := f.inWords(many); slices.Contains(got, f.allNeeds()) {
		t.Errorf("seventeen that are proven: %v", got)
	}
}

// TestCarried: how much of a proof leans on a side, which it does by its sign; a side of
// nothing carries something too.
func TestCarried(t *testing.T) {
	m := household()
	m.Problem.Rows[9].Lower = 0
	f := newFinder(m)
	ray := make([]float64, len(m.Rows))
	ray[3], ray[5], ray[6], ray[9], ray[1] = 2, -3, 0.5, 1, -1
	for _, c := range []struct {
		member []conflictLimit
		want   float64
	}{
		{[]conflictLimit{side(3, true, false)}, 2 * 14 * 1800}, {[]conflictLimit{side(4, true, false)}, 0}, {[]conflictLimit{side(5, true, false)}, 0}, {[]conflictLimit{side(5, false, true)}, 3 * 14 * 90},
		{[]conflictLimit{side(6, true, false)}, 0.5 * 14 * 15}, {[]conflictLimit{side(6, false, true)}, 0}, {[]conflictLimit{side(1, false, true)}, 100},
		{[]conflictLimit{side(3, true, false), side(1, false, true)}, 2*14*1800 + 100}, {[]conflictLimit{side(5, true, true)}, 3 * 14 * 90},
	} {
		if got := f.carried(c.member, ray); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v carries %g, want %g", c.member, got, c.want)
		}
	}
	if got := f.carried([]conflictLimit{side(9, true, false)}, ray); !(got > 0 && got < 1e-300) {
		t.Errorf("a floor of nothing carries %g", got)
	}
}

// TestSidesInForce puts one side at a time in force and frees it again; the other stays.
func TestSidesInForce(t *testing.T) {
	p := &linear.Problem{}
	p.Set(p.AddRow("r", 2, 7), p.AddCol("x", 0, 0, 9, false), 1)
	x, err := search.Relax(p.Clone())
	if err != nil {
		t.Fatal(err)
	}
	inf := math.Inf(1)
	for _, c := range []struct {
		lower, upper, inForce bool
		want                  [2]float64
	}{
		{true, false, false, [2]float64{-inf, 7}}, {false, true, false, [2]float64{-inf, inf}}, {true, false, true, [2]float64{2, inf}},
		{false, true, true, [2]float64{2, 7}}, {true, true, false, [2]float64{-inf, inf}}, {true, true, true, [2]float64{2, 7}}, {false, false, false, [2]float64{2, 7}},
	} {
		setSides(x, side(0, c.lower, c.upper), p.Rows[0], c.inForce)
		if low, high := x.Solver.RowBounds(x.At[0]); low != c.want[0] || high != c.want[1] {
			t.Errorf("%+v: from %g to %g", c, low, high)
		}
	}
}

// TestWaysInWords: how much more of a limit a plan takes is told in full hundredths, none of
// them for rounding, and no more is asked for than it takes.
func TestWaysInWords(t *testing.T) {
	for _, c := range []struct {
		info     model.RowInfo
		from     float64
		totals   ration.Totals
		most     float64
		want     string
		limit    func(l *ration.Limits) *float64
		standing string
	}{
		{model.RowInfo{Text: "budget", Unit: "EUR", Total: ration.LeastCost, On: model.OnBudget}, 100, ration.Totals{Cost: 123.456}, 123.456, "23.46 EUR more in the budget", func(l *ration.Limits) *float64 { return l.Budget }, ""},
		{model.RowInfo{Text: "budget", Unit: "EUR", Total: ration.LeastCost, On: model.OnBudget}, 100, ration.Totals{Cost: 123.45}, 123.45, "23.45 EUR more in the budget", func(l *ration.Limits) *float64 { return l.Budget }, ""},
		{model.RowInfo{Text: "weight", Unit: "kg", Total: ration.LeastWeight, On: model.OnWeight}, 20, ration.Totals{WeightKg: 22.5, Cost: 7}, 22.5, "2.50 kg more weight", func(l *ration.Limits) *float64 { return l.WeightKg }, ""},
		{model.RowInfo{Text: "room", Unit: "L", Total: ration.LeastVolume, On: model.OnVolume}, 20, ration.Totals{VolumeL: 21.001, Cost: 7}, 21.001, "1.01 L more room", func(l *ration.Limits) *float64 { return l.VolumeL }, ""},
		{model.RowInfo{Text: "water", Unit: "L", On: model.OnWater}, 20, ration.Totals{WaterL: 28, HeatMJ: 5}, 28, "8.00 L more water", func(l *ration.Limits) *float64 { return l.WaterL }, ""},
		{model.RowInfo{Text: "heat", Unit: "MJ", On: model.OnHeat}, 2, ration.Totals{WaterL: 28, HeatMJ: 5}, 5, "3.00 MJ more heat", func(l *ration.Limits) *float64 { return l.HeatMJ }, ""},
	} {
		w := proposal{change: "more", request: &ration.Request{}, raised: &c.info, from: c.from}
		w.settle(&ration.Plan{Totals: &c.totals})
		if got := c.limit(&w.request.Limits); w.change != c.want || got == nil || *got != c.most {
			t.Errorf("%s: %q, a limit of %v; want %q, %g", c.info.Text, w.change, got, c.want, c.most)
		}
		l := &w.request.Limits
		set := 0
		for _, other := range []*float64{l.Budget, l.WeightKg, l.VolumeL, l.WaterL, l.HeatMJ} {
			if other != nil {
				set++
			}
		}
		if set != 1 {
			t.Errorf("%s: %d limits are set", c.info.Text, set)
		}
	}
	other := proposal{change: "allow peas", request: &ration.Request{}}
	if other.settle(&ration.Plan{Totals: &ration.Totals{Cost: 9}}); other.change != "allow peas" || other.request.Limits != (ration.Limits{}) {
		t.Errorf("a change of no limit becomes %q", other.change)
	}
	if one, more := counted(1, "day"), counted(13, "day"); one != "1 day" || more != "13 days" {
		t.Errorf("%q, %q", one, more)
	}
	for cook, want := range map[ration.Cook][]ration.Cook{
		ration.CookNone: {ration.CookWarm, ration.CookBoil, ration.CookSimmer}, ration.CookWarm: {ration.CookBoil, ration.CookSimmer}, ration.CookBoil: {ration.CookSimmer}, ration.CookSimmer: nil,
	} {
		if got := moreCooking(cook); !slices.Equal(got, want) {
			t.Errorf("more than %s: %v, want %v", cook, got, want)
		}
	}
}

// TestOneThingGivesWay: of rules the one that is meant, of the person that is meant; of packs
// that were to stay those of one food.
func TestOneThingGivesWay(t *testing.T) {
	m := household()
	floor := nutrients.Rule{Kind: nutrients.RuleFloor, Nutrient: nutrients.Fibre, Low: 30, Text: "floor fibre 30 g"}
	ceiling := nutrients.Rule{Kind: nutrients.RuleCeiling, Nutrient: nutrients.Sodium, Low: 2000, Text: "ceiling sodium 2000 mg"}
	m.Request.People[0].Rules = []nutrients.Rule{floor}
	m.Request.People[1].Rules = []nutrients.Rule{floor, ceiling}
	f := newFinder(m)
	for rule, want := range map[nutrients.Rule]string{floor: `give up the rule "floor fibre 30 g" (Arvid)`, ceiling: `give up the rule "ceiling sodium 2000 mg" (Arvid), unless a clinician set it`} {
		ways := f.dropRule(model.RowInfo{Eater: 1}, func(r nutrients.Rule) bool { return r == rule })
		if len(ways) != 1 || ways[0].change != want {
			t.Fatalf("%v, want %q", ways, want)
		}
		if p := ways[0].request.People; len(p[0].Rules) != 1 || len(p[1].Rules) != 1 || p[1].Rules[0] == rule || len(m.Request.People[1].Rules) != 2 {
			t.Errorf("%s: rules %v and %v are left", want, p[0].Rules, p[1].Rules)
		}
	}
	if ways := f.dropRule(model.RowInfo{Eater: 2}, func(nutrients.Rule) bool { return true }); len(ways) != 0 {
		t.Errorf("of a person without rules: %v", ways)
	}
	m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowKeep, Of: "rice", Group: "rice-sack"}, model.RowInfo{Kind: model.RowKeep, Of: "peas", Group: "peas-can"})
	m.Request.Keep = map[string]int{"rice-bag": 3, "rice-sack": 1, "peas-can": 2}
	way := f.letChange(m.Rows[8])
	if way.change != "do not change the packs of rice" || !maps.Equal(way.request.Keep, map[string]int{"peas-can": 2}) || len(m.Request.Keep) != 3 {
		t.Errorf("%q keeps %v", way.change, way.request.Keep)
	}
}

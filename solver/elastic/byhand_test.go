package elastic

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

var inf = math.Inf(1)

// sketch is a model of rows and columns alone, without foods, for Signe and Arvid over ten days;
// columns come in by their costs and upper bounds, rows by their coefficients.
type sketch struct{ *model.Model }

func newSketch(washingL float64) sketch {
	m := &model.Model{Request: &ration.Request{Days: 10, Cook: ration.CookSimmer, Least: ration.LeastCost, WashingL: &washingL}, Problem: &linear.Problem{}}
	for _, name := range []string{"Signe", "Arvid"} {
		e := &model.Eater{Person: nutrients.Person{Name: name}, Count: 1, Drink: -1}
		e.Needs.EER.Amount = 2000
		m.Eaters = append(m.Eaters, e)
	}
	return sketch{m}
}

func (s sketch) col(cost, lower, upper float64, integer bool) int {
	s.Cols = slices.Grow(s.Cols, 1)[:len(s.Cols)+1]
	s.Cols[len(s.Cols)-1].Larder = -1
	return s.Problem.AddCol("", cost, lower, upper, integer)
}

func (s sketch) row(lower, upper float64, info model.RowInfo, coefficients ...float64) int {
	if info.PerDay == 0 {
		info.PerDay = 10
	}
	s.Rows = append(s.Rows, info)
	i := s.Problem.AddRow(info.Text, lower, upper)
	for j, v := range coefficients {
		s.Problem.Set(i, j, v)
	}
	return i
}

func need(eater int, n nutrients.Nutrient) model.RowInfo {
	return model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Eater: eater, Nutrient: n, Text: n.Name(), Unit: "g"}
}

// TestWhatMayBeMissed: which rows may be missed or passed, and by how much a unit counts, by
// hand. A floor may be missed by all of it; a ceiling that guards against long-term illness
// be passed, and a share of energy be missed, only by those who would go hungry; a limit of the
// household's own be passed, and the drinks and the water for washing be missed.
func TestWhatMayBeMissed(t *testing.T) {
	sodium := need(0, nutrients.Sodium)
	sodium.MayPass = true
	potassium := need(1, nutrients.Potassium)
	potassium.MayPass = true
	share := model.RowInfo{Kind: model.RowShare, Class: model.Requirement, Eater: 0, Nutrient: nutrients.Protein, Text: "share of protein", Unit: "kcal"}
	limit := model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "budget", Unit: "EUR"}
	small, none := limit, limit
	small.Text, none.Text = "water", "heat"
	type want struct {
		text        string
		row         int // -1: one of its own
		sign        float64
		whole, most float64
	}
	build := func(washing float64) sketch {
		s := newSketch(washing)
		drink := s.col(0, 28, 99, false)
		s.col(0, 5, 99, false) // Arvid's, who is to drink nothing by it
		s.Eaters[0].Drink = drink
		s.row(100, inf, need(0, nutrients.Energy))                                                                                   // 0
		s.row(50, 90, need(0, nutrients.Protein))                                                                                    // 1: its ceiling stays
		s.row(12, 34, sodium)                                                                                                        // 2
		s.row(0, 20, potassium)                                                                                                      // 3: no floor
		s.row(0, inf, need(1, nutrients.Fibre))                                                                                      // 4: nothing to miss
		s.row(0, inf, share)                                                                                                         // 5: a floor
		s.row(-inf, 0, share)                                                                                                        // 6: a ceiling
		s.row(-inf, 40, limit)                                                                                                       // 7
		s.row(-inf, 0.5, small)                                                                                                      // 8
		s.row(-inf, inf, none)                                                                                                       // 9
		s.row(0, inf, model.RowInfo{Kind: model.RowAllWater, Class: model.Structural, Eater: -1, Text: "water", Unit: "L"})          // 10
		s.row(7, 7, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: "balance"})                      // 11: never soft
		s.row(60, inf, need(1, nutrients.Energy))                                                                                    // 12
		s.row(3, 9, model.RowInfo{Kind: model.RowUser, Class: model.UserLimit, Eater: 0, Text: "own rule: least rye", Unit: "g"})    // 13
		s.row(-inf, 9, model.RowInfo{Kind: model.RowKindCap, Class: model.Planning, Eater: 0, Text: "at most of sweets", Unit: "g"}) // 14
		s.row(0.5, inf, need(1, nutrients.Iron))                                                                                     // 15
		return s
	}
	drinks := want{ration.ShortDrink, -1, 1, 28, 28}
	for _, c := range []struct {
		name   string
		wash   float64
		soft   func(model.RowInfo) bool
		hungry bool
		want   []want
	}{
		{"needs of the hungry", 3, IsNeed, true, []want{{"energy", 0, 1, 100, 100}, {"protein", 1, 1, 50, 50}, {"sodium", 2, 1, 12, 12}, {"sodium at most", 2, -1, 34, inf}, {"potassium at most", 3, -1, 20, inf},
			{"share of protein", 5, 1, 6000, inf}, {"share of protein", 6, -1, 6000, inf}, {"water", 10, 1, 60, 60}, {"energy", 12, 1, 60, 60}, {"iron", 15, 1, 0.5, 0.5}, drinks}},
		{"needs of others", 3, IsNeed, false, []want{{"energy", 0, 1, 100, 100}, {"protein", 1, 1, 50, 50}, {"sodium", 2, 1, 12, 12}, {"water", 10, 1, 60, 60}, {"energy", 12, 1, 60, 60}, {"iron", 15, 1, 0.5, 0.5}, drinks}},
		{"no water for washing", 0, func(i model.RowInfo) bool { return i.Kind == model.RowAllWater }, true, nil},
		{"limits", 3, func(i model.RowInfo) bool { return i.Kind == model.RowLimit }, false, []want{{"budget", 7, -1, 40, inf}, {"water", 8, -1, 1, inf}}},
		{"rules", 3, func(i model.RowInfo) bool { return i.Kind == model.RowUser }, false, []want{{"own rule: least rye", 13, 1, 3, 3}}},
		{"planning rules", 3, func(i model.RowInfo) bool { return i.Class == model.Planning }, true, nil},
	} {
		s := build(c.wash)
		before := s.Problem.Clone()
		e := New(s.Model, c.soft, c.hungry)
		if len(e.Rows) != len(c.want) || len(e.Signs) != len(c.want) {
			t.Errorf("%s: %d rows may be missed, want %d", c.name, len(e.Rows), len(c.want))
			continue
		}
		groups := map[string]int{}
		for k, w := range c.want {
			info, col := e.Kinds[k], e.Problem.Cols[e.Cols[k]]
			if w.row < 0 {
				w.row = len(s.Rows) // the row of what Signe is to drink
				if own := e.Problem.Rows[w.row]; own.Lower != 28 || own.Upper != inf || e.Problem.Cols[0].Lower != 0 || e.Problem.Cols[0].Entries[len(e.Problem.Cols[0].Entries)-1] != (linear.Entry{Row: w.row, Value: 1}) {
					t.Errorf("%s: drinks from %g, %+v", c.name, e.Problem.Cols[0].Lower, own)
				}
			}
			if info.Text != w.text || e.Rows[k] != w.row || e.Signs[k] != w.sign || math.Abs(e.Weights[k]-EveryoneWeight/w.whole) > 1e-15 {
				t.Errorf("%s: %q of row %d, sign %g, weight %g; want %+v", c.name, info.Text, e.Rows[k], e.Signs[k], e.Weights[k], w)
			}
			if col.Lower != 0 || col.Upper != w.most || col.Cost != 0 || col.Integer || col.Entries[0] != (linear.Entry{Row: w.row, Value: w.sign}) {
				t.Errorf("%s: %q is missed by %+v, want %+v", c.name, w.text, col, w)
			}
			// The worst off of a kind: short ≤ whole · worst.
			last := col.Entries[len(col.Entries)-1]
			row := e.Problem.Rows[last.Row]
			if last.Value != 1 || !math.IsInf(row.Lower, -1) || row.Upper != 0 {
				t.Errorf("%s: %q in the row of the worst off: %+v, %+v", c.name, w.text, last, row)
			}
			at := slices.IndexFunc(e.Problem.Cols, func(o linear.Col) bool {
				return slices.Contains(o.Entries, linear.Entry{Row: last.Row, Value: -w.whole})
			})
			if at < 0 || e.Problem.Cols[at].Lower != 0 || e.Problem.Cols[at].Upper != inf || e.Problem.Cols[at].Cost != 0 {
				t.Errorf("%s: nobody is the worst off by %q", c.name, w.text)
				continue
			}
			if before, ok := groups[info.Unit+" "+w.text]; ok && before != at {
				t.Errorf("%s: %q has two that are the worst off", c.name, w.text)
			}
			groups[info.Unit+" "+w.text] = at
			if n := slices.Index(e.Cols, at); n < len(e.Rows) || e.Weights[n] != 1 || e.Kinds[n].Text != w.text {
				t.Errorf("%s: the worst off by %q counts %v", c.name, w.text, n)
			}
		}
		if len(e.Cols) != len(c.want)+len(groups) {
			t.Errorf("%s: %d columns, want %d", c.name, len(e.Cols), len(c.want)+len(groups))
		}
		if s.Problem.String() != before.String() {
			t.Errorf("%s: the model itself is changed", c.name)
		}
	}
}

// TestStagesCountEachOnce: what is missed counts in one stage and no other: what is drunk,
// energy, protein, the other needs, and the household's own limits last.
func TestStagesCountEachOnce(t *testing.T) {
	s := newSketch(3)
	s.Eaters[0].Drink = s.col(0, 28, 99, false)
	after := need(0, nutrients.Energy)
	after.Kind, after.Text = model.RowAfter, "energy after day 5"
	infos := []model.RowInfo{need(0, nutrients.Energy), need(1, nutrients.Protein), need(0, nutrients.Iron), after,
		{Kind: model.RowFluid, Class: model.Requirement, Eater: 0, Text: "fluid", Unit: "L"}, {Kind: model.RowAllWater, Class: model.Structural, Eater: -1, Text: "washing", Unit: "L"}}
	for _, info := range infos {
		s.row(5, inf, info)
	}
	s.row(-inf, 40, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "budget", Unit: "EUR"})
	e := New(s.Model, func(model.RowInfo) bool { return true }, true)
	stage := map[string]int{"energy": 1, "protein": 2, "iron": 3, "energy after day 5": 1, "fluid": 0, "washing": 3, "budget": 4, ration.ShortDrink: 0}
	seen := map[string]int{}
	for n := range stages {
		for k, cost := range e.stageCosts(n) {
			text := e.Kinds[k].Text
			want := 0.0
			if stage[text] == n {
				want = e.Weights[k]
				seen[text]++
			}
			if cost != want {
				t.Errorf("%q counts %g in stage %d, want %g", text, cost, n, want)
			}
		}
	}
	for text := range stage {
		if seen[text] != 2 { // what is missed, and the worst off by it
			t.Errorf("%q is counted %d times", text, seen[text])
		}
	}
}

// TestRanks: what shortfalls are told first.
func TestRanks(t *testing.T) {
	for name, want := range map[string]int{
		nutrients.Water.Name(): 0, ration.ShortWater: 0, ration.ShortDrink: 0, nutrients.Energy.Name(): 1, nutrients.Energy.Name() + " after day 5": 1,
		nutrients.Protein.Name(): 2, nutrients.Protein.Name() + " after day 12": 2, nutrients.Iron.Name(): 3, nutrients.VitaminD.Name() + " after day 3": 3, "": 3,
	} {
		if got := Rank(name); got != want {
			t.Errorf("%q: %d, want %d", name, got, want)
		}
	}
}

// scarce is ten units of two foods, of which one serves the energy, the other the protein: 8
// and 6 are needed.
func scarce() (s sketch, room int) {
	s = newSketch(0)
	s.col(1, 0, 99, false)
	s.col(2, 0, 99, false)
	s.row(8, inf, need(0, nutrients.Energy), 1)
	s.row(6, inf, need(0, nutrients.Protein), 0, 1)
	return s, s.row(-inf, 10, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: "room"}, 1, 1)
}

// TestStagesInTheirOrder: what comes first takes what it needs, the next what is left, by
// hand: with 10 of them, energy first leaves 2 of 6 for protein, protein first 4 of 8 for
// energy; with a tenth left free 9 are shared out. What is missed counts by its part, for
// the worst off and a hundredth for everyone. An earlier go leaves nothing behind.
func TestStagesInTheirOrder(t *testing.T) {
	s, room := scarce()
	e := New(s.Model, IsNeed, true)
	energy, protein := e.Costs(func(i model.RowInfo) bool { return i.IsOf(nutrients.Energy) }), e.Costs(func(i model.RowInfo) bool { return i.IsOf(nutrients.Protein) })
	for _, c := range []struct {
		name         string
		costs        [][]float64
		margin       float64
		shortE       float64
		shortP       float64
		first, other float64 // parts that are missed
	}{
		{"energy first", [][]float64{energy, protein}, 0, 0, 4, 0, 4.0 / 6},
		{"protein first", [][]float64{protein, energy}, 0, 4, 0, 0, 4.0 / 8},
		{"energy first, a tenth free", [][]float64{energy, protein}, 0.1, 0, 5, 0, 5.0 / 6},
		{"energy first, half free", [][]float64{energy, protein}, 0.5, 3, 6, 3.0 / 8, 1},
		{"energy first again", [][]float64{energy, protein}, 0, 0, 4, 0, 4.0 / 6},
	} {
		point, values := e.RelaxedLeast(t.Context(), c.costs, []int{room}, c.margin)
		if point == nil || len(values) != 2 {
			t.Fatalf("%s: %v %v", c.name, point, values)
		}
		if math.Abs(point[e.Cols[0]]-c.shortE) > 1e-5 || math.Abs(point[e.Cols[1]]-c.shortP) > 1e-5 ||
			math.Abs(values[0]-1.01*c.first) > 1e-5 || math.Abs(values[1]-1.01*c.other) > 1e-5 {
			t.Errorf("%s: short of %g and %g, parts %v; want %g and %g, 1.01 times %g and %g", c.name, point[e.Cols[0]], point[e.Cols[1]], values, c.shortE, c.shortP, c.first, c.other)
		}
		if e.Problem.Rows[room].Upper != 10 || len(e.Problem.Rows) != 5 {
			t.Errorf("%s: the program has another limit, or more rows", c.name)
		}
	}
	// Without limits on packs what was reached is held in the program itself.
	point, _ := e.RelaxedLeast(t.Context(), [][]float64{energy}, nil, 0)
	if point == nil || len(e.Problem.Rows) != 6 {
		t.Fatalf("%d rows, want one more that holds the energy", len(e.Problem.Rows))
	}
	for short, keeps := range map[float64]bool{0: true, 0.1: false} {
		x := slices.Clone(point)
		x[0], x[1] = 8-short, 2
		x[e.Cols[0]], x[e.Cols[1]], x[e.Cols[2]], x[e.Cols[3]] = short, 4, short/8, 4.0/6
		if missed, err := e.Problem.Check(x, 1e-6); err != nil || (len(missed) == 0) != keeps {
			t.Errorf("short of %g: %v %v", short, missed, err)
		}
	}
	if found := Closest(t.Context(), s.Model, IsNeed); found == nil || math.Abs(found[0]-8) > 1e-5 || math.Abs(found[1]-2) > 1e-5 || len(found) != 2 {
		t.Errorf("what comes closest is %v, want 8 and 2", found)
	}
	// Where all is met, it is met at the least cost: 3 of the cheap food serve as well as 3 of the dear.
	s = newSketch(0)
	s.col(5, 0, 99, false)
	s.col(1, 0, 99, false)
	s.row(3, inf, need(0, nutrients.Energy), 1, 1)
	if found := Closest(t.Context(), s.Model, IsNeed); found == nil || math.Abs(found[0]) > 1e-5 || math.Abs(found[1]-3) > 1e-3 {
		t.Errorf("%v, want 3 of the cheap food", found)
	}
	s.row(1, 1, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: "never"})
	if found := Closest(t.Context(), s.Model, IsNeed); found != nil {
		t.Errorf("%v comes close to what nothing keeps", found)
	}
}

// TestPacksAsTheyAre: of packs of 1,000 that weigh 3 each, three of them leave 500 of 3,500
// missing, which may be rounded but no more; four are too heavy. The program stays as it was.
func TestPacksAsTheyAre(t *testing.T) {
	s := newSketch(0)
	s.col(1, 0, 9, true)
	s.row(3500, inf, need(0, nutrients.Energy), 1000)
	weight := s.row(-inf, 10, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "weight", Unit: "kg", Total: ration.LeastWeight, On: model.OnWeight, PerDay: 1}, 3)
	e := New(s.Model, IsNeed, true)
	costs := [][]float64{e.Costs(func(model.RowInfo) bool { return true })}
	if point, _ := e.RelaxedLeast(t.Context(), costs, []int{weight}, 0); point == nil || math.Abs(point[0]-10.0/3) > 1e-5 {
		t.Errorf("in parts %v", point)
	}
	for packs, want := range map[float64]float64{3: 500, 3 - 1e-7: 500, 3 + 1e-7: 500, 2: 1500, 0: 3500, 4: -1} {
		point := e.sharedOut(t.Context(), costs, []float64{packs})
		switch {
		case want < 0:
			if point != nil {
				t.Errorf("%g packs: %v", packs, point)
			}
		case point == nil || point[0] != math.Round(packs) || math.Abs(point[e.Cols[0]]-want) > 1e-3:
			t.Errorf("%g packs: %v, want %g missing", packs, point, want)
		}
		if c := e.Problem.Cols[0]; c.Lower != 0 || c.Upper != 9 || len(e.Problem.Rows) != 3 {
			t.Errorf("%g packs: the program has %+v and %d rows", packs, c, len(e.Problem.Rows))
		}
	}
	if point, _ := e.RelaxedLeast(t.Context(), costs, []int{weight}, 0); point == nil || math.Abs(point[0]-10.0/3) > 1e-5 {
		t.Errorf("in parts, afterwards %v", point)
	}
}

// TestRoomThatIsLeft: a limit may be kept with room to spare, and where the structure has no
// point there is none, whatever is missed.
func TestRoomThatIsLeft(t *testing.T) {
	s, room := scarce()
	s.Problem.Cols[0].Upper, s.Problem.Cols[1].Upper, s.Problem.Rows[room].Upper = 8, 6, 20
	e := New(s.Model, IsNeed, true)
	costs := [][]float64{e.Costs(func(model.RowInfo) bool { return true })}
	if point, values := e.RelaxedLeast(t.Context(), costs, []int{room}, 0.1); point == nil || math.Abs(values[0]) > 1e-6 {
		t.Errorf("%v %v, want all met", point, values)
	}
	s.row(1, 1, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: "never"})
	e = New(s.Model, IsNeed, true)
	before := len(e.Problem.Rows)
	for _, limits := range [][]int{nil, {room}} {
		if point, values := e.RelaxedLeast(t.Context(), costs, limits, 0); point != nil || values != nil || len(e.Problem.Rows) != before {
			t.Errorf("%v %v", point, values)
		}
	}
}

// TestShorter compares by the first stage that differs.
func TestShorter(t *testing.T) {
	e := &Elastic{Cols: []int{1, 3}}
	costs := [][]float64{{1, 0}, {0.5, 2}}
	for _, c := range []struct {
		a, b []float64 // of the columns 1 and 3
		want bool
	}{
		{[]float64{1, 9}, []float64{2, 0}, true}, {[]float64{2, 0}, []float64{1, 9}, false}, {[]float64{2, 1}, []float64{2, 3}, true}, {[]float64{2, 3}, []float64{2, 1}, false},
		{[]float64{2, 3}, []float64{2, 3}, false}, {[]float64{2, 1}, []float64{2 - 0.9e-7, 3}, true}, {[]float64{2, 1}, []float64{2 - 1.1e-7, 3}, false},
	} {
		if got := e.shorter(costs, []float64{7, c.a[0], 7, c.a[1]}, []float64{0, c.b[0], 0, c.b[1]}); got != c.want {
			t.Errorf("%v falls less short than %v: %v, want %v", c.a, c.b, got, c.want)
		}
	}
}

// TestWholePacksComeClosest, by hand: packs of 1,000 that weigh 3 each give 3,500 of what is
// needed only in parts; of 10 in weight three packs are the most, and 500 are missing. Where
// the weight is not limited a fourth pack is bought.
func TestWholePacksComeClosest(t *testing.T) {
	build := func(most float64) sketch {
		s := newSketch(0)
		s.col(1, 0, 9, true)
		s.row(3500, inf, need(0, nutrients.Energy), 1000)
		s.row(-inf, most, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "weight", Unit: "kg", Total: ration.LeastWeight, On: model.OnWeight, PerDay: 1}, 3)
		return s
	}
	for most, want := range map[float64]float64{10: 3, 9: 3, 8.9: 2, 2.9: 0, 12: 4, 1000: 4} {
		found := Closest(t.Context(), build(most).Model, IsNeed)
		if found == nil || found[0] != want {
			t.Errorf("within %g: %v packs, want %g", most, found, want)
		}
	}
}

// TestLeastIsLoosened, by hand: 60 are needed of two foods with at most 5 of one and 50 of
// the other: 5 more of the other are a tenth of its limit, of the one all of it; what they
// cost has no say. Beginning at a point that goes beyond changes nothing.
func TestLeastIsLoosened(t *testing.T) {
	build := func() sketch {
		s := newSketch(0)
		s.col(1, 0, 99, false)
		s.col(1000, 0, 99, false)
		s.row(60, inf, need(0, nutrients.Energy), 1, 1)
		for k, most := range []float64{5, 50} {
			group := []string{"sweets", "grain"}[k]
			s.row(-inf, most, model.RowInfo{Kind: model.RowKindCap, Class: model.Planning, Eater: 0, Group: group, Text: group, Unit: "g", PerDay: 1, Limit: most}, []float64{1, 0}[k], []float64{0, 1}[k])
		}
		return s
	}
	for _, from := range [][]float64{nil, {60, 0}, {5, 55}, {30, 40}} {
		s := build()
		loosened, start, ok := Loosen(t.Context(), s.Model, from)
		if !ok || math.Abs(start[0]-5) > 0.6 || math.Abs(start[0]+start[1]-60) > 1 || len(start) != 2 {
			t.Fatalf("from %v: %v at %v, want 5 and 55", from, ok, start)
		}
		if missed, err := loosened.Problem.Check(start, 1e-6); err != nil || len(missed) > 0 {
			t.Errorf("from %v: the loosened model is missed: %v %v", from, missed, err)
		}
		if up := loosened.Problem.Rows; up[1].Upper > 5.6 || up[2].Upper < 54 || up[2].Upper > 56 || s.Problem.Rows[2].Upper != 50 {
			t.Errorf("from %v: loosened to %g and %g", from, up[1].Upper, up[2].Upper)
		}
	}
	s := build()
	s.Problem.Cols[0].Upper, s.Problem.Cols[1].Upper = 20, 20
	if _, _, ok := Loosen(t.Context(), s.Model, nil); ok {
		t.Error("loosened though 40 are all there is")
	}
}

// TestStoredVitaminsGiveWay, by hand: of what Signe eats no more than 100 units there are 1 a
// unit of vitamin D, of which 15 a day are asked over ten days: 10 a day are left of them.
// Nothing gives way where all is there, nor where it is iron that is missing.
func TestStoredVitaminsGiveWay(t *testing.T) {
	for _, c := range []struct {
		name       string
		vitamin    float64 // a unit
		ofVitamin  nutrients.Nutrient
		iron       float64 // needed of 1 a unit
		amount     float64 // a day, 0 where nothing gives way
		whole      bool
		otherLacks bool
	}{
		{"too little", 1, nutrients.VitaminD, 50, 10, false, false},
		{"a little too little", 1.49, nutrients.VitaminD, 50, 14.9, false, false},
		{"none at all", 0, nutrients.VitaminD, 50, 0, false, true},
		{"enough", 1.5, nutrients.VitaminD, 50, 0, false, false},
		{"too little of what is not stored", 1, nutrients.VitaminC, 50, 0, false, false},
		{"too little iron as well", 1, nutrients.VitaminD, 101, 0, false, false},
		{"whole packs", 1, nutrients.VitaminB12, 50, 10, true, false},
	} {
		s := newSketch(0)
		s.col(1, 0, 100, c.whole)
		s.row(c.iron, inf, need(0, nutrients.Iron), 1)
		s.row(150, inf, need(0, c.ofVitamin), c.vitamin)
		if !c.whole {
			s.row(30, inf, need(1, nutrients.VitaminA), 1) // is met
		}
		eased, short, start := EaseStoredVitamins(t.Context(), s.Model)
		if c.amount == 0 && !c.otherLacks {
			if eased != nil || short != nil || start != nil {
				t.Errorf("%s: %v gives way", c.name, short)
			}
			continue
		}
		if eased == nil || len(short) != 1 {
			t.Errorf("%s: %v, want a shortfall of %s", c.name, short, c.ofVitamin.Name())
			continue
		}
		if got := short[0]; got.Person != "Signe" || got.Nutrient != c.ofVitamin.Name() || got.Unit != "g" || got.Target != 15 || math.Abs(got.Amount-c.amount) > 0.001 {
			t.Errorf("%s: %+v, want %g of 15", c.name, got, c.amount)
		}
		if missed, err := eased.Problem.Check(start, 1e-6); err != nil || len(missed) > 0 || len(start) != 1 {
			t.Errorf("%s: %v misses %v %v", c.name, start, missed, err)
		}
		if rows := eased.Problem.Rows; math.Abs(rows[1].Lower-10*c.amount) > 0.01 || rows[0].Lower != c.iron || len(rows) > 2 && rows[2].Lower != 30 || s.Problem.Rows[1].Lower != 150 {
			t.Errorf("%s: rows %+v", c.name, rows)
		}
	}
}

// TestImpossible: what is missed of a need that the body does not store is impossible, what
// contradicts the structure too; what may be given up is not, nor is what is met to the
// tolerance of the check.
func TestImpossible(t *testing.T) {
	for _, c := range []struct {
		name  string
		n     nutrients.Nutrient
		floor float64 // of 100
		never float64 // of 0
		want  bool
	}{
		{"met", nutrients.Iron, 100, 0, false}, {"missed", nutrients.Iron, 101, 0, true}, {"stored", nutrients.VitaminD, 200, 0, false}, {"stored, against the structure", nutrients.VitaminD, 50, 1, true},
	} {
		s := newSketch(0)
		s.col(1, 0, 100, false)
		s.row(c.floor, inf, need(0, c.n), 1)
		s.row(c.never, inf, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: "never"})
		if got := Impossible(t.Context(), s.Model); got != c.want {
			t.Errorf("%s: impossible %v, want %v", c.name, got, c.want)
		}
	}
}

package answer_test

import (
	"math"
	"strings"
	"testing"

	"rationwright/solver/answer"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// saidOf is what the check says of a row that is passed, by the kind of row: the
// name of the limit, in part. Nutrients, kinds and what a user orders are said by
// their own names.
var saidOf = []struct{ row, said string }{
	{"packs", "packs of "}, {"opened", "opened packs of "},
	{"ordered-fluid", "fluid that is ordered"}, {"fluid", "drinks"},
	{"water-stored", "stored water"}, {"water-allowance", "water allowance"}, {"water", "water"}, {"heat-used", "heat"},
	{"infant-formula", "infant formula"}, {"human-milk", "human milk"}, {"iron-rich-food", "iron-rich infant food"}, {"puree", "fruit or vegetable infant food"}, {"infant-meat", "plain infant meat"}, {"turns-", " in the "},
	{"most-fish", "most fish"}, {"most-complementary food", "food beside the milk"}, {"most-", "most "},
	{"group-", "servings of "}, {"kind-", "most "}, {"energy-of-", " as a share of all energy"}, {"with", " with what it is cooked with"},
	{"low-gi", "grains of low glycaemic index"}, {"fast-sugar-reserve", "doses of quick sugar set aside"}, {"rule-", " g/day"},
	{"dated-of", "dated "}, {"dated", " of day "}, {"by-day", " by day "}, {"on-hand", "stock of "}, {"kept", "stored water"}, {"ready-or-powder", "formula as powder"}, {"powder", "formula as powder"},
	{"budget", "budget"}, {"max-weight", "weight"}, {"max-litres", "shelf space"}, {"max-water", "stored water"}, {"max-heat", "heat"},
	{"shelf-space", "room on the shelves"}, {"shelf-load", "load of the shelves"}, {"shelf-size", "stands on none"},
}

// said is the name, in part, by which the check must find that a row is passed.
func said(m *model.Model, i int) string {
	name, info := m.Problem.Rows[i].Name, m.Rows[i]
	of := strings.ReplaceAll(info.Nutrient.Name(), "_", " ")
	switch {
	case info.Kind == model.RowAfter:
		return map[bool]string{true: " after day ", false: " by day "}[strings.Contains(name, "-after-")]
	case info.Kind == model.RowShare:
		return info.Nutrient.Name() + " as a share of energy"
	case info.Kind == model.RowNutrient:
		return info.Nutrient.Name()
	}
	for _, s := range saidOf {
		if strings.HasPrefix(name, s.row) {
			return s.said
		}
	}
	return "no row is called so: " + name + of
}

// passes reports whether a point goes beyond an end of m by more than a
// ten-thousandth.
func passes(m *model.Model, x []float64, e end) bool {
	row := m.Problem.Rows[e.row]
	got, size := 0.0, 0.0
	for j := range m.Cols {
		for _, entry := range m.Problem.Cols[j].Entries {
			if entry.Row == e.row {
				got += entry.Value * x[j]
				size = math.Max(size, math.Abs(entry.Value*x[j]))
			}
		}
	}
	beyond := row.Lower - got
	if e.top {
		beyond = got - row.Upper
	}
	return beyond > 1e-4*math.Max(size, 1e-3)
}

// farFromNought is how far an end at nought is moved: in g, kcal, L or MJ more
// than anything that rounds.
const farFromNought = 1000

// widened moves an end of a row by a part of it, or away where it is nought.
func widened(row linear.Row, top bool, part float64) linear.Row {
	switch {
	case top && row.Upper > 0:
		row.Upper *= 1 + part
	case top:
		row.Upper = farFromNought
	case row.Lower > 0:
		row.Lower *= 1 - part
	default:
		row.Lower = -farFromNought
	}
	return row
}

// refused fails where the check does not find what is wrong with the plan of a
// spoilt model by its own name.
func refused(t *testing.T, what string, req *ration.Request, p *ration.Plan, want string) {
	t.Helper()
	p.Eatable.Loosened = nil // what a plan says that it goes beyond is let pass
	found := verify.Check(req, p)
	for _, v := range found {
		if strings.Contains(v.Limit, want) {
			return
		}
	}
	t.Errorf("%s: found %v, want something about %q", what, found, want)
}

// carried reports whether a plan carries what a row is about: what is taken of the
// water and fuel on hand, and the containers, are worked out where it is written.
func carried(row string) bool { return !strings.HasPrefix(row, "own-") && row != "containers-filled" }

// Each kind of row of the model with one end widened or left out, and led beyond
// it: the check, which shares no rule with the model, finds the plan by the name
// of that rule. What other rules hold as well cannot be passed alone.
func TestSpoiledRowsAreRefused(t *testing.T) {
	tried := map[string]bool{}
	for _, c := range asked {
		req := c.make(t)
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		led := leading(t, m)
		for _, e := range endsOf(m, 4) {
			row := m.Problem.Rows[e.row]
			group := groupOf(row.Name) + map[bool]string{true: " at most", false: " at least"}[e.top]
			if tried[group] {
				continue
			}
			bad := *m
			bad.Problem = m.Problem.Clone()
			bad.Problem.Rows[e.row] = widened(row, e.top, 0.25)
			led.model = &bad
			wide := widened(row, e.top, 0.12) // whole packs take some of it
			led.lp.SetRowBounds(e.row, wide.Lower, wide.Upper)
			if m.Rows[e.row].Kind == model.RowLimit {
				led = leading(t, &bad)
				led.freeOtherLimits(e.row)
				led.lp.SetRowBounds(e.row, wide.Lower, wide.Upper)
			}
			x := led.point(e)
			led.lp.SetRowBounds(e.row, row.Lower, row.Upper)
			if x == nil || !carried(row.Name) || !passes(m, bad.Tightened(x), e) {
				continue
			}
			tried[group] = true
			refused(t, row.Name+map[bool]string{true: " at most", false: " at least"}[e.top], req, answer.Write(&bad, x), said(m, e.row))
		}
	}
	if len(tried) < 100 {
		t.Errorf("%d kinds of ends were passed, want at least 100", len(tried))
	}
	for _, limit := range []string{"budget", "max-weight", "max-litres", "max-water", "max-heat", "shelf-space", "shelf-load"} {
		if !tried[limit+" at most"] {
			t.Errorf("%s was not passed", limit)
		}
	}
}

// coefficients are faults in single coefficients and bounds of columns: those of
// the columns whose names begin so, in the first row of that name that has some.
var coefficients = []struct {
	name, of    string
	row, column string // column bounds where row is ""
	factor      float64
	top         bool // the end of the row that is led beyond
	want        string
}{
	{"more can be eaten of a pack bought", "nursery", "packs[", "buy[", 1.25, true, "packs of "},
	{"a person is fed out of a smaller share of the packs", "nursery", "packs[", "eat[", 0.8, true, "packs of "},
	{"formula is bought without a tenth to spare", "nursery", "packs[infant formula", "eat[", 0.6, true, "packs of "},
	{"more is eaten of an opened pack", "nursery", "opened[", "buy[", 1.25, true, "opened packs of "},
	{"a food has more iron", "nursery", "iron[", "eat[", 1.25, false, "iron"},
	{"a food has less sodium", "nursery", "sodium[", "eat[", 0.8, true, "sodium"},
	{"the fat of fat foods is counted with fewer kcal", "nursery", "fat-share-at-most[", "eat[+", 0.8, true, "fat as a share"},
	{"a cup of vegetables is larger", "nursery", "group-vegetables[", "eat[", 1.25, false, "servings of vegetables"},
	{"fish is counted as packed", "nursery", "most-fish", "eat[", 0.75, true, "most fish"},
	{"juice is counted less", "nursery", "most-fruit juice[", "eat[", 0.8, true, "most fruit juice"},
	{"coffee holds less caffeine", "nursery", "kind-caffeine", "eat[", 0.8, true, "most caffeine"},
	{"a gram of powder makes more feed", "nursery", "infant-formula[", "eat[", 1.25, false, "infant formula"},
	{"breast milk is lighter", "nursery", "human-milk[", "eat[", 1.25, false, "human milk"},
	{"a serving of cereal is smaller", "nursery", "iron-rich-food[", "eat[", 1.25, false, "iron-rich"},
	{"an infant's mash counts dry", "nursery", "most-complementary", "eat[", 0.8, true, "food beside the milk"},
	{"food brings more water", "nursery", "water[", "eat[", 1.25, false, "water"},
	{"cooking takes less water", "nursery", "water-stored", "eat[", 0.8, false, "stored water"},
	{"drinks are stored without their spare", "nursery", "water-stored", "drink[", 1 / 1.1, false, "stored water"},
	{"cooking takes less heat", "nursery", "heat-used", "eat[", 0.8, false, "heat"},
	{"boiling takes less heat", "diabetes", "heat-used", "drink[", 0.8, false, "heat"},
	{"an ingredient needs less beside it", "nursery", "with[", "dishes[", 1.25, true, "cooked with"},
	{"a grain counts as lower in its index", "diabetes", "low-gi[", "eat[-", 0.8, false, "glycaemic"},
	{"a pack holds more doses", "diabetes", "fast-sugar-reserve", "reserve[", 2, false, "doses of quick sugar"},
	{"a food has less carbohydrate of the day", "diabetes", "carbohydrate[", "eat[", 0.8, true, "carbohydrate"},
	{"a food has less carbohydrate of ordered meals", "orders", "ordered-carbohydrate-at-most[", "eat[", 0.8, true, "carbohydrate"},
	{"a jar of fruit counts for more", "nursery", "puree[", "eat[", 1.25, false, "fruit or vegetable infant food"},
	{"a jar of meat counts for more", "nursery", "infant-meat[", "eat[", 1.25, false, "plain infant meat"},
	{"a fruit counts less of the purees", "nursery", "turns-infant p", "eat[+", 0.7, true, " in the purees"},
	{"fluid of food counts less", "orders", "ordered-fluid-at-most[", "eat[", 0.8, true, "fluid that is ordered"},
	{"more is eaten by a date than there is", "stock", "dated[", "stock[", 1.25, true, " of day "},
	{"dated food feeds one of two", "stock", "dated[", "by-date[", 0.5, true, " of day "},
	{"food of a date counts after it", "stock", "energy-after-", "by-date[", 0.5, false, "energy after day"},
	{"a food of one's own rule counts less", "stock", "rule-most", "eat[", 0.8, true, " g/day"},
	{"a pack weighs less", "limits", "max-weight", "buy[", 0.8, true, "weight"},
	{"a pack costs less", "limits", "budget", "buy[", 0.8, true, "budget"},
	{"a pack takes less room", "limits", "max-litres", "buy[", 0.8, true, "shelf space"},
	{"a pack is lighter on the shelf", "limits", "shelf-load", "buy[", 0.8, true, "load of the shelves"},
	{"more of a food than anybody eats", "nursery", "", "eat[Signe,lemon juice", 1.25, true, "most of "},
	{"more eaten by a date than in the days to it", "stock", "", "by-date[", 1.25, true, " by day "},
	{"more packs than are on hand", "stock", "", "stock[", 2, true, "stock of "},
	{"drinks of less than the least", "nursery", "", "drink[", 0.5, false, "drinks"},
	{"less water kept for the sick", "diabetes", "", "kept[", 0.5, false, "stored water"},
}

// A single kind of coefficient or bound that is off, and the plan led to where it
// shows: the check finds it by its name.
func TestSpoiledCoefficientsAreRefused(t *testing.T) {
	models := map[string]*model.Model{}
	for _, c := range asked {
		m, err := model.Build(c.make(t))
		if err != nil {
			t.Fatal(err)
		}
		models[c.name] = m
	}
	for _, c := range coefficients {
		t.Run(c.name, func(t *testing.T) {
			m := models[c.of]
			for n := range 12 { // the first in which it shows alone
				bad := *m
				bad.Problem = m.Problem.Clone()
				e, cols, values := spoilt(m, bad.Problem, c.row, c.column, c.factor, c.top, n)
				if cols == nil {
					break
				}
				led := leading(t, &bad)
				if e.row >= 0 && m.Rows[e.row].Kind == model.RowLimit { // whole packs take some of it
					led.freeOtherLimits(e.row)
					led.lp.SetRowBounds(e.row, math.Inf(-1), 0.9*m.Problem.Rows[e.row].Upper)
				}
				x := led.towards(cols, values, c.top)
				if x == nil || e.row >= 0 && !passes(m, bad.Tightened(x), e) || e.row < 0 && within(m, x, cols[0]) {
					continue
				}
				refused(t, c.name, m.Request, answer.Write(&bad, x), c.want)
				return
			}
			t.Fatal("no row or column was passed")
		})
	}
}

// freeOtherLimits leaves only one of the user's limits in the model and its
// relaxation: whole packs would break the others.
func (l *led) freeOtherLimits(but int) {
	for i, info := range l.model.Rows {
		if info.Kind == model.RowLimit && i != but {
			l.model.Problem.Rows[i].Upper = math.Inf(1)
			l.lp.SetRowBounds(i, l.model.Problem.Rows[i].Lower, math.Inf(1))
		}
	}
}

// spoilt scales in p the coefficients of columns in the n-th row of a name that has
// some, or the bound of the n-th column, and returns the end and the sum to lead.
func spoilt(m *model.Model, p *linear.Problem, row, column string, factor float64, top bool, n int) (e end, cols []int, values []float64) {
	if row == "" {
		for j := range p.Cols {
			c := &p.Cols[j]
			bound := &c.Lower
			if top {
				bound = &c.Upper
			}
			if !strings.HasPrefix(c.Name, column) || *bound <= 0 || math.IsInf(*bound, 0) {
				continue
			}
			if n--; n < 0 {
				*bound *= factor
				return end{-1, top}, []int{j}, []float64{1}
			}
		}
		return end{}, nil, nil
	}
	column, sign, _ := strings.Cut(column, "[")
	is := func(name string, v float64) bool {
		return strings.HasPrefix(name, column) && (sign != "+" || v > 0) && (sign != "-" || v < 0)
	}
	for i := range p.Rows {
		if !strings.HasPrefix(p.Rows[i].Name, row) {
			continue
		}
		scaled := false
		for j := range p.Cols {
			for k, entry := range p.Cols[j].Entries {
				if entry.Row == i && is(p.Cols[j].Name, entry.Value) && n == 0 {
					p.Cols[j].Entries[k].Value *= factor
				}
				scaled = scaled || entry.Row == i && is(p.Cols[j].Name, entry.Value)
			}
		}
		if !scaled {
			continue
		}
		if n--; n < 0 {
			cols, values = sumOf(m, i)
			return end{i, top}, cols, values
		}
	}
	return end{}, nil, nil
}

// within reports whether a column keeps its bounds in m.
func within(m *model.Model, x []float64, j int) bool {
	c := m.Problem.Cols[j]
	return x[j] >= c.Lower*(1-1e-4) && x[j] <= c.Upper*(1+1e-4)
}

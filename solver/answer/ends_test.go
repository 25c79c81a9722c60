package answer_test

import (
	"context"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

// asked are households that between them have every kind of row of the model.
var asked = []struct {
	name string
	make func(t testing.TB) *ration.Request
}{
	{"nursery", func(t testing.TB) *ration.Request {
		return askedFor(t, "name,age_years,age_months,sex,count,feeding,allergies,conditions,state,dislikes,rules",
			"Signe,30,,f,2,,,,lactating-1,canned beans,", "Liv,,8,f,1,formula,,,,,", "Una,,3,f,1,mixed,,,,,", "Odd,2,,m,1,,peanut,,,,", "Siri,9,,f,1,,sesame~,vegetarian,,,no lentils")
	}},
	{"diabetes", func(t testing.TB) *ration.Request {
		req := askedFor(t, "name,age_years,sex,count,conditions,state,activity",
			"Torleif,50,m,2,diabetes-1,,", "Runa,28,f,1,diabetes-pregnancy,pregnant-3,", "Ylva,16,f,1,vegetarian,,active", "Ragna,70,f,1,lactose,,", "Nils,60,m,1,kidney-disease,,")
		req.Pets, req.Hot, req.BoilWater, req.Cook = 1, true, true, ration.CookSimmer
		req.Ill, req.Without = []string{"Ylva"}, []string{"soups"}
		return req
	}},
	{"stock", func(t testing.TB) *ration.Request {
		req := askedFor(t, "name,age_years,sex,count,rules", "Signe,30,f,2,least rolled oats 20 g/day;most rice 60 g/day", "Torgeir,40,m,1,")
		water, heat := 30.0, 5.0
		req.StockWaterL, req.StockHeatMJ, req.Least = &water, &heat, ration.LeastCost
		for _, f := range req.Table.Foods {
			if len(f.Packs) == 0 || f.HasTag(foods.TagInfantFood) || f.HasTag(foods.TagInfantFormula) {
				continue
			}
			line := foods.StockLine{Pack: f.Packs[0], Count: 9, BestBefore: "2026-12-01"}
			switch len(req.Stock) % 8 {
			case 0:
				line.BestBefore, line.Opened, line.Count = "", "2026-11-24", 1
			case 1:
				line.BestBefore = "2026-11-27"
			case 2:
				line.BestBefore = "2027-06-01"
			case 3: // open, and good for longer than it keeps open
				line.BestBefore, line.Opened, line.Count = "2027-06-01", "2026-11-24", 1
			}
			if req.Stock = append(req.Stock, line); len(req.Stock) == 60 {
				break
			}
		}
		return req
	}},
	{"orders", func(t testing.TB) *ration.Request {
		req := askedFor(t, "name,age_years,sex,weight_kg,conditions,orders",
			`Aud,60,f,70,kidney-disease,"protein 55-60 g; sodium at most 1800 mg; potassium at most 2500 mg; phosphorus at most 900 mg; fluid at most 1.3 L; energy 1800-2000 kcal; by Dr Ardal, 2026-06-01"`,
			"Egil,45,m,80,coeliac;low-sodium,", `Rolf,57,m,88,diabetes-2,"carbohydrate 45-60 g a meal; by Dr Ardal, 2026-06-01"`)
		req.Least = ration.LeastVolume
		return req
	}},
	{"limits", func(t testing.TB) *ration.Request {
		req := askedFor(t, "name,age_years,sex,conditions", "Gro,72,f,soft-food", "Olav,75,m,")
		limit := func(v float64) *float64 { return &v }
		req.Limits = ration.Limits{Budget: limit(3000), WeightKg: limit(1500), VolumeL: limit(2500), WaterL: limit(900), HeatMJ: limit(20)}
		req.EasyOpen, req.Allowance, req.WashingL, req.Pets = true, true, limit(1), 1
		req.Shelves = []stores.Shelf{{Name: "floor", WidthCm: 120, DepthCm: 60, HeightCm: 60, LoadKg: 400}, {Name: "board", WidthCm: 120, DepthCm: 20, HeightCm: 60, LoadKg: 150}}
		return req
	}},
}

// askedFor is a request of a household as users write it.
func askedFor(t testing.TB, rows ...string) *ration.Request {
	t.Helper()
	people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(strings.Join(rows, "\n")+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	return rationtest.Request(t, people...)
}

// groupOf is the kind of a row: its name without whom and what it is about.
func groupOf(name string) string {
	name, _, _ = strings.Cut(name, "[")
	return inName.ReplaceAllString(name, "#")
}

var inName = regexp.MustCompile(`[0-9]+`)

// end is one side of one row of a model.
type end struct {
	row int
	top bool
}

// endsOf are the sides of the rows of a model that bound something: of each
// group and side the first few.
func endsOf(m *model.Model, each int) []end {
	var list []end
	seen := map[string]int{}
	for i, row := range m.Problem.Rows {
		for _, top := range []bool{false, true} {
			if side := sideOf(&row, top); math.IsInf(side, 0) || m.Rows[i].Class == model.Structural && row.Lower == row.Upper {
				continue
			}
			group := groupOf(row.Name)
			if kind := m.Rows[i].Kind; kind == model.RowKindCap || kind == model.RowKindShare || kind == model.RowCompanion {
				group = fmt.Sprint(kind, m.Rows[i].Class, m.Rows[i].Unit)
			} else if kind == model.RowAfter { // of each date
				group, _, _ = strings.Cut(row.Name, "[")
			}
			if top {
				group += " at most"
			}
			if seen[group]++; seen[group] <= each {
				list = append(list, end{i, top})
			}
		}
	}
	return list
}

func sideOf(row *linear.Row, top bool) float64 {
	if top {
		return row.Upper
	}
	return row.Lower
}

// led is the relaxation of a model that is led to the ends of its rows.
type led struct {
	model *model.Model
	lp    *search.Relaxation
	aimed []int // columns with a cost
}

func leading(t testing.TB, m *model.Model) *led {
	t.Helper()
	p := m.Problem.Clone()
	for j := range p.Cols {
		c := &p.Cols[j]
		c.Cost = 0
		if math.IsInf(c.Upper, 1) && (strings.HasPrefix(c.Name, "drink[") || strings.HasPrefix(c.Name, "kept[")) {
			c.Upper = 500 // L: what nobody drinks, so that no end is led to without end
		}
	}
	lp, err := search.Relax(p)
	if err != nil {
		t.Fatal(err)
	}
	return &led{model: m, lp: lp}
}

// point is a point of the model that goes as far towards an end as its rows let
// it: parts of packs rounded up, or the packs searched where a row bounds them.
// It is nil where there is none.
func (l *led) point(e end) []float64 {
	cols, values := sumOf(l.model, e.row)
	return l.towards(cols, values, e.top)
}

// sumOf is what is led to the end of a row: its own sum, or where a plan holds no
// more water, heat or containers than it needs, the need.
func sumOf(m *model.Model, i int) (cols []int, values []float64) {
	info, sign := m.Rows[i], 1.0
	if name := m.Problem.Rows[i].Name; name == "max-water" || name == "max-heat" || name == "water-allowance" {
		for k, row := range m.Problem.Rows {
			if name := map[string]string{"L": "water-stored", "MJ": "heat-used"}[info.Unit]; row.Name == name {
				i, sign = k, -1
			}
		}
	}
	if info.Kind == model.RowAfter && m.Problem.Rows[i].Lower > 0 {
		return keptFor(m, i)
	}
	all, of := m.Problem.ByRow().Row(i)
	for k, j := range all {
		if info.Kind != model.RowLimit || j != m.Water && j != m.Heat && !strings.HasPrefix(m.Problem.Cols[j].Name, "containers[") {
			cols, values = append(cols, j), append(values, sign*of[k])
		}
	}
	return cols, values
}

// towards is the point that makes a sum over columns largest or smallest.
func (l *led) towards(cols []int, values []float64, top bool) []float64 {
	for _, j := range l.aimed {
		l.lp.SetCost(j, 0)
	}
	l.aimed = cols
	for k, j := range cols {
		cost := values[k]
		if top {
			cost = -cost
		}
		l.lp.SetCost(j, cost)
	}
	r := l.lp.Solve(context.Background())
	if r.Status != simplex.Optimal {
		return nil
	}
	x := l.model.PacksUp(r.X[:len(l.model.Cols)])
	if missed, err := l.model.Problem.Check(x, search.LimitTolerance); err == nil && len(missed) == 0 {
		return x
	}
	p := l.model.Problem.Clone()
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
	for k, j := range cols {
		if p.Cols[j].Cost = values[k]; top {
			p.Cols[j].Cost = -values[k]
		}
	}
	return search.RestrictedSearch(context.Background(), l.model, p, search.Options{Gap: 0.3, MinDenom: 1, Work: 500}).X
}

// everything are the columns of all that each person may eat, of all packs that
// may be bought or set aside, and of all that may be taken from stock.
func everything(m *model.Model) map[string][]int {
	all := map[string][]int{}
	for j, c := range m.Problem.Cols {
		what, _, _ := strings.Cut(c.Name, "[")
		if what == "eat" {
			what = "eat " + m.Eaters[m.Cols[j].Eater].Person.Name
		}
		switch {
		case strings.HasPrefix(what, "eat "), what == "buy", what == "reserve", what == "stock", what == "reserve-stock", what == "by-date":
			all[what] = append(all[what], j)
		}
	}
	return all
}

// Every row of the model, led to its end, leaves a plan that the check passes:
// what the model allows, the check allows, whatever the objective. So does a plan
// with something of all that a person may eat, and one with a pack of all that may be
// bought. A coefficient
// or a bound that lets one gram too many through shows here, where a cheap plan
// may never come near it.
func TestEveryRowAtItsEnd(t *testing.T) {
	for _, c := range asked {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			req := c.make(t)
			m, err := model.Build(req)
			if err != nil {
				t.Fatal(err)
			}
			reached := 0
			ends, led := endsOf(m, *rationtest.Campaign), leading(t, m)
			if *rationtest.Campaign == 1 && c.name != "nursery" && c.name != "orders" { // there, and alike here
				ends = slices.DeleteFunc(ends, func(e end) bool { return m.Rows[e.row].Kind == model.RowNutrient })
			}
			for _, e := range ends {
				x := led.point(e)
				if x == nil {
					continue
				}
				reached++
				p := answer.Write(m, x)
				for _, v := range verify.Check(req, p) {
					t.Errorf("at the end of %s: %s", m.Problem.Rows[e.row].Name, v)
				}
				if len(p.Eatable.Loosened) > 0 { // which nothing has loosened
					t.Errorf("at the end of %s: goes beyond %v", m.Problem.Rows[e.row].Name, p.Eatable.Loosened)
				}
			}
			all := everything(m)
			for _, what := range slices.Sorted(maps.Keys(all)) { // a pack of each stays in
				cols := all[what]
				values := make([]float64, len(cols))
				for k, j := range cols {
					if values[k] = 1; what == "by-date" {
						values[k] = 1 / max(1, m.Problem.Cols[j].Upper)
					} else if strings.HasPrefix(what, "eat") {
						values[k] = 1 / m.Problem.Cols[j].Upper
					} else {
						led.lp.SetBounds(j, min(1, m.Problem.Cols[j].Upper), m.Problem.Cols[j].Upper)
					}
				}
				x := led.towards(cols, values, what == "by-date" || strings.HasPrefix(what, "eat"))
				if x == nil {
					t.Errorf("no point of %s", what)
					continue
				}
				for _, v := range verify.Check(req, answer.Write(m, x)) {
					t.Errorf("with all of %s: %s", what, v)
				}
			}
			if reached < len(ends)*3/4 {
				t.Errorf("%d ends of %d were reached", reached, len(ends))
			}
		})
	}
}

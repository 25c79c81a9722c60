package answer_test

import (
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// finds reports whether the check finds something about what.
func finds(req *ration.Request, p *ration.Plan, what string) bool {
	for _, v := range verify.Check(req, p) {
		if strings.Contains(v.Limit, what) {
			return true
		}
	}
	return false
}

// withStock is a request from 25 November for 14 days, so to 8 December, with packs
// of one food on hand.
func withStock(t *testing.T, food string, count float64, row ...string) *ration.Request {
	t.Helper()
	req := askedFor(t, row...)
	f, err := req.Table.Food(food)
	if err != nil {
		t.Fatal(err)
	}
	req.Stock = []foods.StockLine{{Pack: f.Packs[0], Count: count}}
	return req
}

// Sugar for a low is set aside for all days: what is good to the last day of the
// plan, 8 December, may be, what is good to the day before may not. A plan that sets
// aside the one and is then asked about the other is found out.
func TestReserveKeepsToTheLastDay(t *testing.T) {
	req := withStock(t, "sugar, white", 3, "name,age_years,sex,conditions", "Torleif,50,m,diabetes-1")
	for date, want := range map[string]bool{"": true, "2027-06-01": true, "2026-12-08": true, "2026-12-07": false, "2026-11-25": false, "2026-11-24": false} {
		req.Stock[0].BestBefore = date
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		offered := false
		for _, lf := range m.Larder {
			for _, k := range lf.Reserve {
				offered = offered || k.Line == 0
			}
		}
		if offered != want {
			t.Errorf("sugar good to %q is offered for the reserve: %v, want %v", date, offered, want)
		}
	}
	req.Stock[0].BestBefore = "2026-12-08"
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	led := leading(t, m)
	var cols []int
	var values []float64
	for _, lf := range m.Larder {
		for _, k := range lf.Reserve {
			if k.Line == 0 {
				cols, values = append(cols, k.Col), append(values, 1)
			}
		}
	}
	p := answer.Write(m, led.towards(cols, values, true))
	aside := 0
	for _, line := range p.Packs {
		if line.Reserve {
			aside += line.FromStock
		}
	}
	if aside != 3 || finds(req, p, "set aside") {
		t.Fatalf("%d bags of 3 are set aside; the check finds %v", aside, verify.Check(req, p))
	}
	req.Stock[0].BestBefore = "2026-12-07"
	if !finds(req, p, "keep to the last day") {
		t.Errorf("bags that are over on 7 December are set aside to the 8th: the check finds %v", verify.Check(req, p))
	}
}

// Packs good to a day feed to that day: a plan that eats all that may be eaten of
// rice by the last day of its date passes, with the date a day earlier it does not.
func TestDatedStockFeedsToItsDay(t *testing.T) {
	req := withStock(t, "white rice, long grain, enriched", 20, "name,age_years,sex", "Signe,30,f")
	for _, c := range []struct {
		date, before string // the day of the date, and the one before
		day          int
	}{{"2026-11-25", "2026-11-24", 1}, {"2026-11-26", "2026-11-25", 2}, {"2026-12-01", "2026-11-30", 7}, {"2026-12-07", "2026-12-06", 13}} {
		req.Stock[0].BestBefore = c.date
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		var cols []int
		var values []float64
		for _, v := range m.ByDate {
			if v.Day != c.day {
				t.Errorf("rice good to %s counts to day %d, want %d", c.date, v.Day, c.day)
			}
			cols, values = append(cols, v.Col), append(values, 1)
		}
		x := leading(t, m).towards(cols, values, true)
		if x == nil {
			t.Fatal("no point")
		}
		p := answer.Write(m, x)
		if found := verify.Check(req, p); len(found) > 0 || len(p.People[0].ByDate) == 0 {
			t.Errorf("rice good to %s: %v, eaten by date %v", c.date, found, p.People[0].ByDate)
		}
		req.Stock[0].BestBefore = c.before
		if !finds(req, p, "rice") {
			t.Errorf("rice good to %s is eaten to %s: the check finds %v", c.before, c.date, verify.Check(req, p))
		}
	}
}

// Sugar for a low stands within reach: in a house with an infant it is no honey, with
// a child under four nothing that one chokes on.
func TestReserveBesideSmallChildren(t *testing.T) {
	for _, c := range []struct {
		child          string
		honey, choking bool
	}{{"Odd,9,,", true, true}, {"Odd,4,,", true, true}, {"Odd,3,,", true, false}, {"Odd,1,,", true, false}, {"Liv,,11,formula", false, false}} {
		name, rest, _ := strings.Cut(c.child, ",")
		age, feeding := rest[:strings.LastIndex(rest, ",")], rest[strings.LastIndex(rest, ",")+1:]
		m, err := model.Build(askedFor(t, "name,age_years,age_months,sex,feeding,conditions", "Torleif,50,,m,,diabetes-1", name+","+age+",m,"+feeding+","))
		if err != nil {
			t.Fatal(err)
		}
		honey, choking := false, false
		for _, lf := range m.Larder {
			if len(lf.Reserve) > 0 {
				honey = honey || lf.Food.HasTag(foods.TagHoney)
				choking = choking || lf.Food.HasTag(foods.TagChoking)
			}
		}
		if honey != c.honey || choking != c.choking {
			t.Errorf("beside %s: honey %v and choking %v are offered, want %v and %v", c.child, honey, choking, c.honey, c.choking)
		}
	}
}

// A bag of sugar is set aside or eaten: as many as there are can be shared between
// the two, and no more.
func TestReserveIsNotEatenAsWell(t *testing.T) {
	req := withStock(t, "sugar, white", 3, "name,age_years,sex,conditions", "Torleif,50,m,diabetes-1", "Signe,30,f,")
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	var cols []int
	var values []float64
	for j, c := range m.Problem.Cols {
		if strings.HasPrefix(c.Name, "stock[") || strings.HasPrefix(c.Name, "reserve-stock[") {
			cols, values = append(cols, j), append(values, 1)
		}
	}
	x := leading(t, m).towards(cols, values, true)
	if x == nil || len(cols) != 2 {
		t.Fatalf("%d columns, point %v", len(cols), x != nil)
	}
	if taken := x[cols[0]] + x[cols[1]]; taken != 3 {
		t.Errorf("%g bags of 3 are taken", taken)
	}
	if found := verify.Check(req, answer.Write(m, x)); len(found) > 0 {
		t.Errorf("the check finds %v", found)
	}
}

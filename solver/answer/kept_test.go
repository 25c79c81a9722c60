package answer_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/verify"
)

// keptFor is what one gets out of food that keeps past a date of the stock: all that is
// eaten, by row i, without what is eaten by that date, as the rows of dates are meant.
func keptFor(m *model.Model, i int) (cols []int, values []float64) {
	_, after, _ := strings.Cut(m.Problem.Rows[i].Name, "-after-")
	day := 0
	if _, err := fmt.Sscanf(after, "%d[", &day); err != nil {
		panic(err) // of a name of our own
	}
	per := map[int]float64{} // of a gram, by food
	all, of := m.Problem.ByRow().Row(i)
	for k, j := range all {
		if strings.HasPrefix(m.Problem.Cols[j].Name, "eat[") {
			cols, values = append(cols, j), append(values, of[k])
			per[m.Cols[j].Larder] = of[k]
		}
	}
	for _, v := range m.ByDate {
		if v.Eater == m.Rows[i].Eater && v.Day <= day {
			cols, values = append(cols, v.Col), append(values, -per[v.Larder])
		}
	}
	return cols, values
}

// TestEachReserveAlone: of each pack that may be set aside as many as are needed, with no
// other pack set aside, hold all doses by the check; so do those of the stock, which are
// not eaten as well.
func TestEachReserveAlone(t *testing.T) {
	req := asked[1].make(t)
	for _, f := range req.Table.Foods {
		if f.FastSugarG() > 0 && len(f.Packs) > 0 && len(req.Stock) < 6 {
			req.Stock = append(req.Stock, foods.StockLine{Pack: f.Packs[0], Count: 2})
		}
	}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	led := leading(t, m)
	var packs []model.PackCol
	for _, lf := range m.Larder {
		packs = append(packs, lf.Reserve...)
	}
	tried := 0
	for _, one := range packs {
		whole := math.Floor(one.Pack.NetG*one.Pack.Food.FastSugarG()/15 + 1e-9) // at 15 g each: ADA, 15-15 rule
		if one.Line >= 0 || whole < 2 || tried >= 20**rationtest.Campaign {
			continue
		}
		tried++
		for _, k := range packs {
			led.lp.SetBounds(k.Col, 0, 0)
		}
		led.lp.SetBounds(one.Col, 0, 1e6)
		x := led.towards([]int{one.Col}, []float64{1}, false)
		if x == nil {
			t.Errorf("%s alone holds no doses", one.Pack.Key)
			continue
		}
		p := answer.Write(m, x)
		for _, v := range verify.Check(req, p) {
			t.Errorf("%s alone: %s", one.Pack.Key, v)
		}
		need := 0.0
		for _, e := range m.Eaters {
			need += e.Count * float64(e.Needs.Lows.For(req.Days))
		}
		if n := x[one.Col]; n*rules.Doses(one.Pack) < need {
			t.Errorf("%g of %s hold %g doses of %g", n, one.Pack.Key, n*rules.Doses(one.Pack), need)
		}
	}
	if tried < 3 {
		t.Errorf("only %d packs of doses were tried", tried)
	}
	for _, k := range packs {
		led.lp.SetBounds(k.Col, 0, m.Problem.Cols[k.Col].Upper)
	}
	var cols []int
	var ones []float64
	for _, lf := range m.Larder {
		for _, k := range append(lf.Stock, lf.Reserve...) {
			if k.Line >= 0 {
				cols, ones = append(cols, k.Col), append(ones, 1)
			}
		}
	}
	x := led.towards(cols, ones, true) // all of the stock, eaten and set aside
	if x == nil || len(cols) < 4 {
		t.Fatalf("no point with all of the stock, %d columns", len(cols))
	}
	for _, v := range verify.Check(req, answer.Write(m, x)) {
		t.Errorf("with all of the stock: %s", v)
	}
}

package nutrients

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

// ordered returns the needs of p with orders as the household writes them, of Dr Ardal.
func ordered(t *testing.T, p Person, o Options, orders ...string) Needs {
	t.Helper()
	p.Orders = Orders{By: "Dr Ardal", On: "2026-01-31"}
	for _, text := range orders {
		order, fix, err := parseOrder(text)
		if err != nil {
			t.Fatalf("%q: %v; %s", text, err, fix)
		}
		p.Orders.List = append(p.Orders.List, order)
	}
	return mustFor(t, p, o)
}

// The widest amounts of each order are taken and what lies just beyond them is not, with the limits
// in the remedy: common practice, no source, as entered.
func TestWidestOrders(t *testing.T) {
	for _, c := range []struct {
		of, unit    string
		least, most float64
	}{
		{"protein", "g", 5, 400}, {"sodium", "mg", 200, 10_000}, {"potassium", "mg", 500, 10_000}, {"phosphorus", "mg", 200, 5_000},
		{"energy", "kcal", 200, 10_000}, {"fluid", "L", 0.3, 6}, {"carbohydrate", "g a meal", 5, 400},
	} {
		for _, at := range []struct {
			amount float64
			ok     bool
		}{{c.least, true}, {c.least * 0.99, false}, {c.most, true}, {c.most * 1.001, false}} {
			for _, word := range []string{"at most", "at least"} {
				text := fmt.Sprintf("%s %s %s %s", c.of, word, measure(at.amount), c.unit)
				_, fix, err := parseOrder(text)
				limits := fmt.Sprintf("write %g to %g %s", c.least, c.most, strings.Fields(c.unit)[0])
				if (err == nil) != at.ok || !at.ok && (!errors.Is(err, table.ErrRange) || fix != limits) {
					t.Errorf("%q: %v; %s, want taken %v, or: %s", text, err, fix, at.ok, limits)
				}
			}
		}
		if _, _, err := parseOrder(fmt.Sprintf("%s %g-%g %s", c.of, c.least, c.least, c.unit)); err != nil {
			t.Errorf("a band of %s with one end: %v", c.of, err)
		}
	}
}

// Who gave the orders is a name of a line, of 100 letters at most, and when a day from 1900.
func TestOriginOfOrders(t *testing.T) {
	for by, want := range map[string]bool{
		"Dr Ardal, 2026-01-31": true, strings.Repeat("A", 100) + ", 2026-01-31": true, strings.Repeat("A", 101) + ", 2026-01-31": false,
		"Dr\x07 Ardal, 2026-01-31": false, "\x07Ardal, 2026-01-31": false, "Dr Ardal, 1900-01-01": true, "Dr Ardal, 1899-12-31": false, "Dr Ardal, 2026-13-01": false,
	} {
		_, err := readOne(t, `Aud,60,f,,,,,,"protein 55-60 g; by `+by+`",`)
		if (err == nil) != want || err != nil && strings.Contains(err.Error(), "\n") {
			t.Errorf("by %q: %v, want taken %v", by, err, want)
		}
	}
	for _, o := range []Orders{{}, {By: "Dr Ardal", On: "2020-01-31"}, {On: "2020-01-31", List: nil}} {
		if why := o.Stale("2026-06-01"); why != "" {
			t.Errorf("%+v, without an order, is stale: %s", o, why)
		}
	}
	one := Orders{By: "Dr Ardal", On: "2020-01-31", List: []Order{{Of: OrderSodium, High: 2000}}}
	for day, stale := range map[string]bool{"": false, "soon": false, "2020-01-31": false, "2021-01-31": false, "2021-02-01": true, "2020-01-30": true} {
		if why := one.Stale(day); (why != "") != stale {
			t.Errorf("orders of 2020-01-31 on %q: %q, want stale %v", day, why, stale)
		}
	}
}

// Three meals and two snacks of 15 g; where one end of a meal is ordered the other is that of the
// counting range, 45 to 60 g, and never on the wrong side of what is ordered. The shares of
// carbohydrate and fat are then gone and the others stay.
func TestOneEndOfAMealOrdered(t *testing.T) {
	for order, want := range map[string][4]float64{ // of a meal, of a day
		"carbohydrate at most 50 g a meal":  {45, 50, 165, 180},
		"carbohydrate at most 40 g a meal":  {40, 40, 150, 150},
		"carbohydrate at least 50 g a meal": {50, 60, 180, 210},
		"carbohydrate at least 70 g a meal": {70, 70, 240, 240},
		"carbohydrate 30-40 g a meal":       {30, 40, 120, 150},
	} {
		needs := ordered(t, Person{AgeMonths: 360, Sex: Female, Conditions: []Condition{Diabetes1}}, Options{}, order)
		m := needs.Meals
		if got := [4]float64{m.Low.Amount, m.High.Amount, floorOf(&needs, Carbohydrate), ceilingOf(&needs, Carbohydrate)}; got != want || !m.Enforced {
			t.Errorf("%s: %v, want %v", order, got, want)
		}
		for _, s := range needs.Shares {
			if s.Nutrient == Carbohydrate || s.Nutrient == Fat {
				t.Errorf("%s: a share of %s stays", order, s.Nutrient)
			}
		}
		if len(needs.Shares) != 3 {
			t.Errorf("%s: %d shares, want those of protein, saturated fat and added sugars", order, len(needs.Shares))
		}
	}
}

// What an order leaves of the figures beside it, by hand: the floor of a nutrient under its ordered
// ceiling is nine tenths of that where it must be eaten, energy and protein, and none elsewhere;
// an upper level stays and other ceilings go where a floor is ordered over nine tenths of them.
func TestFiguresBesideAnOrder(t *testing.T) {
	none, inf := 0.0, math.Inf(1)
	for _, c := range []struct {
		order      string
		n          Nutrient
		low, high  float64
		lowOrdered bool
		note       string
	}{
		{"protein at most 40 g", Protein, 36, 40, false, "0.9 × the ceiling ordered, in place of 46 g (RDA)"},
		{"protein at most 52 g", Protein, 46, 52, false, ""}, // 0.9 × 52 = 46.8
		{"protein at most 51 g", Protein, 45.9, 51, false, "0.9 × the ceiling ordered"},
		{"protein at least 60 g", Protein, 60, inf, true, ""},
		{"protein 60-70 g", Protein, 60, 70, true, ""},
		{"potassium at most 2500 mg", Potassium, none, 2500, false, ""}, // AI 2600
		{"potassium at most 3000 mg", Potassium, 2600, 3000, false, ""}, // 0.9 × 3000 = 2700
		{"phosphorus at least 3500 mg", Phosphorus, 3500, 4000, true, ""},
		{"phosphorus at least 3700 mg", Phosphorus, 3700, 4000, true, ""}, // over 0.9 × the UL, which stays
		{"sodium at least 2000 mg", Sodium, 2000, 2300, true, ""},
		{"sodium at least 2100 mg", Sodium, 2100, inf, true, ""}, // over 0.9 × 2300, the CDRR
		{"sodium at most 1800 mg", Sodium, none, 1800, false, ""},
		{"sodium at most 2500 mg", Sodium, none, 2500, false, ""}, // over the CDRR, which is no upper level
		{"energy at least 3000 kcal", Energy, 3000, 3300, true, ""},
		{"energy 1500-1600 kcal", Energy, 1500, 1600, true, ""},
	} {
		needs := ordered(t, Person{AgeMonths: 360, Sex: Female}, Options{}, c.order)
		need := find(&needs, c.n)
		if low, high := floorOf(&needs, c.n), ceilingOf(&needs, c.n); math.Abs(low-c.low) > 1e-9 || high != c.high && math.Abs(high-c.high) > 1e-9 {
			t.Errorf("%s: %g to %g, want %g to %g", c.order, low, high, c.low, c.high)
			continue
		}
		if f := need.Floor; f != nil && (f.Ordered() != c.lowOrdered || !strings.Contains(f.Note, c.note) || c.note != "" && (f.Kind != "planning" || f.Verified != "planning rule of this program")) {
			t.Errorf("%s: a floor of %+v, ordered %v, want %q", c.order, f, c.lowOrdered, c.note)
		}
	}
}

// An order lifts the share of energy that it contradicts, as a rule does: protein over nine tenths
// of 35 % of the energy, and at most under 10 %.
func TestOrdersLiftTheSharesThatTheyContradict(t *testing.T) {
	woman := Person{AgeMonths: 360, Sex: Female}
	plain := mustFor(t, woman, Options{})
	grams := func(percent float64) string { return measure(math.Round(100*percent*plain.EER.Amount/400) / 100) }
	for order, stays := range map[string]bool{
		"protein at least " + grams(31.4) + " g": true, "protein at least " + grams(31.6) + " g": false,
		"protein at most " + grams(11.3) + " g": true, "protein at most " + grams(10.9) + " g": false,
		"sodium at most 2000 mg": true,
	} {
		needs := ordered(t, woman, Options{}, order)
		for _, n := range []Nutrient{Protein, Carbohydrate, Fat} {
			found := false
			for _, s := range needs.Shares {
				found = found || s.Nutrient == n
			}
			if found != stays {
				t.Errorf("%s: a share of %s %v, want %v", order, n, found, stays)
			}
		}
		if noted(&needs, "no longer hold") == stays {
			t.Errorf("%s: told %v", order, stays)
		}
	}
}

// Drinks, fluid and water in all: what is ordered holds, and what the tables ask more is lowered to
// it. A woman's total is 2.7 L and her drinks 45 % of it, 1.215 L (IOM 2005).
func TestOrderedFluid(t *testing.T) {
	for order, want := range map[string][3]float64{ // total, drinks, most; 0 none
		"fluid at most 1 L":        {1, 1, 1},
		"fluid at most 1500 mL":    {1.5, 1.215, 1.5},
		"fluid at most 3 L":        {2.7, 1.215, 3},
		"fluid at least 2 litres":  {2.7, 2, 0},
		"fluid 1-1.5 L":            {1.5, 1, 1.5},
		"potassium at least 3.5 g": {2.7, 1.215, 0},
	} {
		w := ordered(t, Person{AgeMonths: 360, Sex: Female}, Options{}, order).Water
		got := [3]float64{w.Total.Amount, w.Drinks.Amount}
		if w.Most != nil {
			got[2] = w.Most.Amount
		}
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-12 {
				t.Errorf("%s: %v, want %v", order, got, want)
			}
		}
		if fluid := strings.HasPrefix(order, "fluid"); w.ByFluid() != fluid {
			t.Errorf("%s: counted by fluid %v", order, !fluid)
		}
	}
}

// The calcium of adults with kidney disease whose orders let them be planned: 800 to 1,000 mg (KDOQI
// 2020, from memory), the least in no standard of few needs; children, and women who are pregnant
// or breast-feed, keep the figures of the tables (IOM 2011), as does everybody else.
func TestCalciumWithKidneyDisease(t *testing.T) {
	for _, c := range []struct {
		p         Person
		o         Options
		low, high float64
		told      bool
	}{
		{Person{AgeMonths: 60 * 12, Sex: Female, Conditions: []Condition{KidneyDisease}}, Options{}, 800, 1000, true},
		{Person{AgeMonths: 60 * 12, Sex: Female, Conditions: []Condition{KidneyDisease}}, Options{Standard: StandardEAR}, 800, 1000, true},
		{Person{AgeMonths: 60 * 12, Sex: Female, Conditions: []Condition{KidneyDisease}}, Options{Standard: StandardBasic}, 0, 1000, true},
		{Person{AgeMonths: 228, Sex: Male, Conditions: []Condition{KidneyDisease}}, Options{}, 800, 1000, true},
		{Person{AgeMonths: 227, Sex: Male, Conditions: []Condition{KidneyDisease}}, Options{}, 1300, 3000, false},
		{Person{AgeMonths: 360, Sex: Female, State: Pregnant1, Conditions: []Condition{KidneyDisease}}, Options{}, 1000, 2500, false},
		{Person{AgeMonths: 360, Sex: Female, State: Lactating1, Conditions: []Condition{KidneyDisease}}, Options{}, 1000, 2500, false},
		{Person{AgeMonths: 60 * 12, Sex: Female}, Options{}, 1200, 2000, false},
	} {
		needs := ordered(t, c.p, c.o, "sodium at most 2000 mg")
		if low, high := floorOf(&needs, Calcium), ceilingOf(&needs, Calcium); low != c.low || high != c.high || noted(&needs, "Calcium: 800 to 1000 mg a day from all sources") != c.told {
			t.Errorf("%d months, %v %s %s: calcium %g to %g, want %g to %g, told %v", c.p.AgeMonths, c.p.Conditions, c.p.State, c.o.Standard, low, high, c.low, c.high, c.told)
		}
	}
}

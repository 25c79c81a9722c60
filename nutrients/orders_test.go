package nutrients

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

const header = "name,age_years,sex,weight_kg,state,conditions,allergies,rules,orders,supplements\n"

func readOne(t *testing.T, row string) (Person, error) {
	t.Helper()
	people, _, err := ReadHousehold("home.csv", strings.NewReader(header+row+"\n"))
	if err != nil {
		return Person{}, err
	}
	return people[0], nil
}

func TestOrdersAreRead(t *testing.T) {
	p, err := readOne(t, `Aud,60,f,70,,kidney-disease,,,"protein 55-60 g; potassium at most 2.5 g; fluid at most 1200 mL; phosphorus at least 700 mg a day; energy 1800 to 2100 kcal; carbohydrate 45-60 g/meal; texture Soft; by Dr Ardal, Ternsund, 2026-01-31",`)
	if err != nil {
		t.Fatal(err)
	}
	want := []Order{
		{Of: OrderProtein, Low: 55, High: 60},
		{Of: OrderPotassium, High: 2500},
		{Of: OrderFluid, High: 1.2},
		{Of: OrderPhosphorus, Low: 700},
		{Of: OrderEnergy, Low: 1800, High: 2100},
		{Of: OrderCarbohydrate, Low: 45, High: 60},
		{Of: OrderTexture, Texture: TextureSoft},
	}
	if !slices.Equal(p.Orders.List, want) || p.Orders.By != "Dr Ardal, Ternsund" || p.Orders.On != "2026-01-31" {
		t.Errorf("orders %+v, want %+v by Dr Ardal, Ternsund on 2026-01-31", p.Orders, want)
	}
	if !p.Has(SoftFood) {
		t.Error("an ordered soft texture is not soft food")
	}
	again, _, err := ReadHouseholdRows("again", HouseholdRows([]Person{p}))
	if err != nil || !slices.Equal(again[0].Orders.List, want) || again[0].Orders.By != p.Orders.By || again[0].Orders.On != p.Orders.On {
		t.Errorf("written and read again: %+v, %v", again, err)
	}
}

func TestOrdersAreRefused(t *testing.T) {
	for _, c := range []struct {
		name, row, field, part string
		err                    error
	}{
		{"no origin", `Aud,60,f,,,,,,protein 55-60 g,`, "orders", "who gave", ErrOrigin},
		{"no date", `Aud,60,f,,,,,,"protein 55-60 g; by Dr Ardal",`, "orders", "not an order", ErrOrder},
		{"no such date", `Aud,60,f,,,,,,"protein 55-60 g; by Dr Ardal, 2026-02-30",`, "orders", "not a date", table.ErrDate},
		{"two origins", `Aud,60,f,,,,,,"protein 55-60 g; by A, 2026-01-31; by B, 2026-01-31",`, "orders", "written twice", nil},
		{"an origin alone", `Aud,60,f,,,,,,"by A, 2026-01-31",`, "orders", "without an order", nil},
		{"twice the same", `Aud,60,f,,,,,,"protein 55-60 g; protein at most 60 g; by A, 2026-01-31",`, "orders", "second order", nil},
		{"upside down", `Aud,60,f,,,,,,"protein 60-55 g; by A, 2026-01-31",`, "orders", "upside down", nil},
		{"another nutrient", `Aud,60,f,,,,,,"zinc at most 8 mg; by A, 2026-01-31",`, "orders", "no limit that orders set", table.ErrUnknownWord},
		{"another unit", `Aud,60,f,,,,,,"protein at most 60 kcal; by A, 2026-01-31",`, "orders", "unit does not fit", ErrUnit},
		{"a meal of protein", `Aud,60,f,,,,,,"protein at most 60 g a meal; by A, 2026-01-31",`, "orders", "a day", ErrUnit},
		{"carbohydrate of a day", `Aud,60,f,,,,,,"carbohydrate at most 200 g; by A, 2026-01-31",`, "orders", "a meal", ErrUnit},
		{"fluid by weight", `Aud,60,f,,,,,,"fluid at most 1200 g; by A, 2026-01-31",`, "orders", "for a drink", ErrUnit},
		{"a slip of the pen", `Aud,60,f,,,,,,"fluid at most 12 L; by A, 2026-01-31",`, "orders", "out of range", table.ErrRange},
		{"finer than soft", `Aud,60,f,,,,,,"texture puree; by A, 2026-01-31",`, "orders", "cannot be held", nil},
		// Upper level of phosphorus 4 g, over 70 years 3 g: IOM DRI (1997), data/dri.csv.
		{"over the upper level", `Aud,75,f,,,,,,"phosphorus at least 3100 mg; by A, 2026-01-31",`, "orders", "upper level of 3000 mg", nil},
		{"a rule beside it", `Aud,60,f,,,,,ceiling protein 90 g,"protein at most 60 g; by A, 2026-01-31",`, "rules", "the orders set protein", nil},
		{"a band beside it", `Aud,60,f,,,diabetes-1,,carbohydrate 50-60 g/meal,"carbohydrate 45-60 g a meal; by A, 2026-01-31",`, "rules", "the orders set carbohydrate", nil},
	} {
		_, err := readOne(t, c.row)
		var faults *table.Errors
		if !errors.As(err, &faults) || len(faults.List) != 1 {
			t.Errorf("%s: %v, want one fault", c.name, err)
			continue
		}
		if f := faults.List[0]; f.Field != c.field || f.Line != 2 || f.Column == 0 || f.Fix == "" || !strings.Contains(f.Error(), c.part) || c.err != nil && !errors.Is(err, c.err) {
			t.Errorf("%s: %v, want a fault of %s with %q", c.name, f, c.field, c.part)
		}
	}
	if _, err := readOne(t, `Aud,69,f,,,,,,"phosphorus at least 3100 mg; by A, 2026-01-31",`); err != nil {
		t.Errorf("3.1 g of phosphorus under 70 years, within 4 g: %v", err)
	}
	infant := "name,age_months,sex,feeding,orders\nEir,8,f,formula,\"sodium at most 500 mg; by A, 2026-01-31\"\n"
	if _, _, err := ReadHousehold("home.csv", strings.NewReader(infant)); err == nil || !strings.Contains(err.Error(), "feed is fixed") {
		t.Errorf("orders for an infant: %v", err)
	}
}

// What a clinician orders is the limit, in both directions, whatever the
// standard says.
func TestOrdersAreTheLimits(t *testing.T) {
	limits := func(row string, o Options) Needs {
		t.Helper()
		p, err := readOne(t, row)
		if err != nil {
			t.Fatal(err)
		}
		return mustFor(t, p, o)
	}
	for _, standard := range []Standard{StandardRDA, StandardEAR, StandardBasic} {
		needs := limits(`Aud,60,f,70,,kidney-disease,,,"protein 40-45 g; sodium at most 1500 mg; potassium at most 2000 mg; phosphorus at most 800 mg; energy at most 1500 kcal; fluid at most 1.2 L; by A, 2026-01-31",`, Options{Standard: standard})
		if needs.Refused != nil {
			t.Fatalf("%s: refused: %+v", standard, needs.Refused)
		}
		for _, want := range []struct {
			n         Nutrient
			low, high float64
		}{{Protein, 40, 45}, {Sodium, 0, 1500}, {Potassium, 0, 2000}, {Energy, 1350, 1500}} {
			low, high := floorOf(&needs, want.n), ceilingOf(&needs, want.n)
			if want.low == 0 && low > 0 && low == low {
				t.Errorf("%s: a floor of %g for %s under its ordered ceiling of %g", standard, low, want.n, want.high)
			}
			if want.low > 0 && math.Abs(low-want.low) > 1e-9 || high != want.high {
				t.Errorf("%s: %s %g to %g, want %g to %g", standard, want.n, low, high, want.low, want.high)
			}
		}
		// The RDA of phosphorus, 700 mg, fits under the ceiling ordered and stays.
		if low := floorOf(&needs, Phosphorus); standard == StandardRDA && low != 700 || ceilingOf(&needs, Phosphorus) != 800 {
			t.Errorf("%s: phosphorus from %g to %g, want 700 to 800", standard, low, ceilingOf(&needs, Phosphorus))
		}
		w := needs.Water
		if w.Most == nil || w.Most.Amount != 1.2 || w.Drinks.Amount > 1.2 || w.Total.Amount != 1.2 || !w.Most.Ordered() {
			t.Errorf("%s: water %+v with at most 1.2 L ordered", standard, w)
		}
		for _, need := range needs.List {
			if need.Nutrient == Protein && (!need.Floor.Ordered() || !need.Ceiling.Ordered() || !strings.Contains(need.Floor.Source, "ordered by A, 2026-01-31")) {
				t.Errorf("protein %+v does not say who ordered it", need)
			}
		}
		if low, _ := shareOf(&needs, Protein); low > 100*4*45/needs.EER.Amount {
			t.Errorf("%s: protein at least %g %% of energy against the order", standard, low)
		}
		if !strings.Contains(needs.Notes[0].Text, "By order of A, 2026-01-31: protein 40-45 g") {
			t.Errorf("the first line is %q", needs.Notes[0].Text)
		}
	}
	more := limits(`Aud,30,f,,,,,,"sodium at least 3000 mg; energy at least 3000 kcal; fluid at least 3 L; by A, 2026-01-31",`, Options{})
	if floorOf(&more, Sodium) != 3000 || !(ceilingOf(&more, Sodium) > 3000 || math.IsInf(ceilingOf(&more, Sodium), 1)) {
		t.Errorf("sodium %g to %g with at least 3000 ordered", floorOf(&more, Sodium), ceilingOf(&more, Sodium))
	}
	if floorOf(&more, Energy) != 3000 || ceilingOf(&more, Energy) <= 3000 || more.Water.Drinks.Amount != 3 || more.Water.Most != nil {
		t.Errorf("energy %g to %g, water %+v", floorOf(&more, Energy), ceilingOf(&more, Energy), more.Water)
	}
	// Three meals of 30 to 40 g and two snacks of 15 g.
	meals := limits(`Aud,30,f,,,diabetes-1,,,"carbohydrate 30-40 g a meal; by A, 2026-01-31",`, Options{})
	if m := meals.Meals; m == nil || !m.Enforced || m.Low.Amount != 30 || m.High.Amount != 40 || floorOf(&meals, Carbohydrate) != 120 || ceilingOf(&meals, Carbohydrate) != 150 {
		t.Errorf("meals %+v, %g to %g g a day", meals.Meals, floorOf(&meals, Carbohydrate), ceilingOf(&meals, Carbohydrate))
	}
}

// Kidney disease and heart failure are planned with orders that concern them,
// for a year, and the others never.
func TestOrdersLetThePersonBePlanned(t *testing.T) {
	const by = "; by A, 2026-01-31"
	for _, c := range []struct {
		condition, orders, start string
		refused                  string
	}{
		{"kidney-disease", "", "", "kidney disease"},
		{"kidney-disease", "texture soft" + by, "", "kidney disease"},
		{"kidney-disease", "protein 55-60 g" + by, "2026-02-01", ""},
		{"heart-failure", "protein 55-60 g" + by, "", "heart failure"},
		{"heart-failure", "sodium at most 2000 mg" + by, "2027-01-31", ""},
		{"heart-failure", "sodium at most 2000 mg" + by, "2027-02-01", "more than a year old"},
		{"heart-failure", "sodium at most 2000 mg" + by, "2026-01-30", "after the first day"},
		{"heart-failure; kidney-disease", "protein 55-60 g" + by, "", "heart failure"},
		{"", "protein 55-60 g" + by, "2027-02-01", "more than a year old"},
		{"dysphagia", "fluid at most 1.5 L; protein 60-70 g" + by, "", "dysphagia"},
		{"tube-feeding", "fluid at most 1.5 L; protein 60-70 g" + by, "", "tube feeding"},
		{"inborn-error", "fluid at most 1.5 L; protein 60-70 g" + by, "", "inborn error"},
	} {
		p, err := readOne(t, `Aud,60,f,70,,`+c.condition+`,,,"`+c.orders+`",`)
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		needs := mustFor(t, p, Options{Start: c.start})
		switch {
		case c.refused == "" && needs.Refused != nil:
			t.Errorf("%+v: refused: %s", c, needs.Refused.Reason)
		case c.refused != "" && (needs.Refused == nil || !strings.Contains(needs.Refused.Reason, c.refused)):
			t.Errorf("%+v: refused %+v, want %q", c, needs.Refused, c.refused)
		}
	}
}

// An ordered ceiling of sodium asks for no sodium: the AI of 1,500 mg (NASEM 2019) under
// it is no floor, so that nobody is given salt for it. Where a floor is ordered as well,
// that is one.
func TestOrderedSodiumLiftsTheAI(t *testing.T) {
	for _, c := range []struct {
		order string
		floor float64
	}{{"sodium at most 2500 mg", math.Inf(-1)}, {"sodium 1200-2500 mg", 1200}, {"potassium at most 3000 mg", 1500}} {
		p, err := readOne(t, `Aud,45,f,70,,kidney-disease,,,"`+c.order+`; protein 50-60 g; by A, 2026-01-31",`)
		if err != nil {
			t.Fatal(err)
		}
		needs := mustFor(t, p, Options{})
		if got := floorOf(&needs, Sodium); got != c.floor && !(math.IsInf(c.floor, -1) && !(got > 0)) {
			t.Errorf("%s: sodium at least %g, want %g", c.order, got, c.floor)
		}
	}
}

package nutrients

import (
	"errors"
	"math"
	"testing"
)

func TestToColumn(t *testing.T) {
	for _, c := range []struct {
		n      Nutrient
		amount float64
		unit   string
		want   float64
		source string
	}{
		{Iron, 30, "mg", 30, "the column's own unit"},
		{Iron, 30, "mg/day", 30, "the column's own unit"},
		{Iron, 0.03, "g", 30, "1 g = 1000 mg"},
		{Iron, 30000, "ug/d", 30, "1000 µg = 1 mg"},
		{Copper, 900, "µg", 0.9, "1000 µg = 1 mg; the column is in mg"},
		{Copper, 900, "μg a day", 0.9, "Greek letter for the sign"},
		{Sodium, 2, "g per day", 2000, "1 g = 1000 mg"},
		{Selenium, 0.055, "mg", 55, "1 mg = 1000 µg"},
		{Folate, 400, "µg DFE", 400, "the column's own unit"},
		{Folate, 400, "mcg dfe/day", 400, "the column's own unit"},
		{Folate, 0.4, "mg", 400, "taken as DFE"},
		{VitaminA, 700, "ug RAE", 700, "the column's own unit"},
		{VitaminD, 600, "IU", 15, "1 µg = 40 IU: IOM DRI, Calcium and Vitamin D (2011)"},
		{VitaminD, 800, "iu/day", 20, "1 µg = 40 IU: IOM DRI, Calcium and Vitamin D (2011)"},
		{VitaminD, 0.015, "mg", 15, "1 mg = 1000 µg"},
		{VitaminDIU, 15, "µg", 600, "1 µg = 40 IU: IOM DRI, Calcium and Vitamin D (2011)"},
		{VitaminDIU, 600, "IU per day", 600, "the column's own unit"},
		{Energy, 8368, "kJ", 2000, "1 kcal = 4.184 kJ by definition"},
		{Protein, 2, "oz", 56.69904625, "1 oz = 28.349523125 g by definition"},
		{Niacin, 16, "mg", 16, "the column's own unit"},
	} {
		got, err := ToColumn(c.n, c.amount, c.unit)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("ToColumn(%s, %g, %q) = %g, %v; want %g %s (%s)", c.n, c.amount, c.unit, got, err, c.want, c.n.Unit(), c.source)
		}
	}
	for _, c := range []struct {
		n    Nutrient
		unit string
	}{
		{VitaminA, "IU"}, {Retinol, "IU"}, {VitaminDIU, "mg"}, {Iron, "kJ"}, {Protein, "µg RAE"}, {Niacin, "mg NE"}, {Iron, "IU"}, {Energy, "g"}, {Iron, "kcal"}, {Iron, ""}, {Iron, "spoon"}, {Folate, "µg RAE"}, {Protein, "kg"},
	} {
		if got, err := ToColumn(c.n, 1, c.unit); !errors.Is(err, ErrUnit) {
			t.Errorf("ToColumn(%s, 1, %q) = %g, %v; want ErrUnit", c.n, c.unit, got, err)
		}
	}
}

// An amount in a note has three digits that count, a half rounded away from none.
func TestTrim(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 1: "1", 18: "18", 40.5: "40.5", 90.651: "90.7", 999.4: "999", 999.6: "1000", 1234: "1230", 1235: "1240", 12345: "12300", 0.0123449: "0.0123", 0.0125: "0.0125", -2.346: "-2.35",
	} {
		if got := trim(v); got != want {
			t.Errorf("trim(%g) = %q, want %q", v, got, want)
		}
	}
	if joinNotes("", "a") != "a" || joinNotes("a", "b") != "a; b" {
		t.Errorf("notes are joined as %q and %q", joinNotes("", "a"), joinNotes("a", "b"))
	}
}

// Every nutrient has a name, a column and a unit of its own, and its name leads
// back to it.
func TestNutrientNames(t *testing.T) {
	columns := map[string]bool{}
	for n := range Count {
		if got, ok := ByName(n.Name()); !ok || got != n {
			t.Errorf("ByName(%q) = %v, %v; want %d", n.Name(), got, ok, n)
		}
		if n.Unit() == "" || n.Column() == "" || columns[n.Column()] {
			t.Errorf("%s: column %q, unit %q", n, n.Column(), n.Unit())
		}
		columns[n.Column()] = true
	}
	if _, ok := ByName("vitamin_z"); ok {
		t.Error(`ByName("vitamin_z") finds something`)
	}
}

func TestAmounts(t *testing.T) {
	a := Unknown()
	if v, known := a.Get(Iron); known || !math.IsNaN(v) || a.Known(Iron) != 0 {
		t.Errorf("unknown iron: %g, %v, counted as %g", v, known, a.Known(Iron))
	}
	a[Iron] = 0
	if v, known := a.Get(Iron); !known || v != 0 {
		t.Errorf("no iron: %g, %v; want 0, true", v, known)
	}
	a[Iron] = 2.5
	if a.Known(Iron) != 2.5 {
		t.Errorf("Known = %g, want 2.5", a.Known(Iron))
	}
}

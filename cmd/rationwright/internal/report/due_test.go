package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

func laidOut(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var text strings.Builder
	if err := s.Text(&text); err != nil {
		t.Fatal(err)
	}
	return text.String()
}

// TestDueByMonth: with three months ahead of 25 November, what is due on 25 February is in
// the list, what is due the day after is said to be later.
func TestDueByMonth(t *testing.T) {
	for by, in := range map[string]bool{"2027-02-24": true, "2027-02-25": true, "2027-02-26": false} {
		text := laidOut(t, Rotate(&stockpile.Rotation{Start: "2026-11-25", TempC: 21, Factor: 1, Months: 3,
			Actions: []stores.Action{{Pack: "rice", Name: "rice in a bag", By: by, Do: "eat", Count: 2, Time: stores.Later}}}, sheet.Metric))
		if strings.Contains(text, "rice in a bag") != in || strings.Contains(text, "1 batch is due later") == in {
			t.Errorf("due by %s, to be listed %v:\n%s", by, in, text)
		}
	}
}

// TestDoseForItsWater: a dose for cloudy water says that it is doubled already, one for
// clear water does not.
func TestDoseForItsWater(t *testing.T) {
	for _, water := range []stores.Water{stores.ClearWater, stores.CloudyWater} {
		boil, err := stores.Boil(10, 0, water)
		if err != nil {
			t.Fatal(err)
		}
		text := laidOut(t, Treat(&Treatment{Boil: boil, Doses: []stores.Dose{{Name: "bleach", Strength: "6 %", Text: "16 drops", Water: water, VolumeL: 10, TreatL: 10, WaitMin: 30}}}, 10, water, sheet.Metric))
		if got := strings.Contains(text, "do not double it again"); got != (water == stores.CloudyWater) {
			t.Errorf("%s water: says that it is doubled already %v:\n%s", water, got, text)
		}
	}
}

// TestProvenTooMuch: what is too much for the shelves is told as a fact where it is
// proven, and as not found where it is not.
func TestProvenTooMuch(t *testing.T) {
	for _, proven := range []bool{true, false} {
		fit := &ration.ShelfFit{}
		fit.Much = []stores.TooMuch{{Text: "boxes", Unit: "L", Need: 200, Have: 150, Proven: proven}}
		text := ""
		for _, sec := range ShelfFit(fit, sheet.Metric) {
			text += strings.Join(sec.Lead, "\n")
		}
		if strings.Contains(text, "This is not proven") == proven || strings.Contains(text, "where there is room for") != proven {
			t.Errorf("proven %v: %s", proven, text)
		}
	}
}

// TestProtectedDrinks: what is kept first of all is told where there is any.
func TestProtectedDrinks(t *testing.T) {
	for litres, told := range map[float64]bool{0: false, 3: true} {
		notes := strings.Join(waterShort(&stores.Shortage{MissingL: 20, DaysAsUsed: 9, ProtectedL: litres}, sheet.Metric).Notes, "\n")
		if strings.Contains(notes, "First of all keep") != told {
			t.Errorf("%g L of protected drinks: %s", litres, notes)
		}
	}
}

// TestWaterThatLasts: whether what is given up is enough is told as it is, and where it is
// not, for how long it is.
func TestWaterThatLasts(t *testing.T) {
	for _, enough := range []bool{true, false} {
		notes := strings.Join(waterShort(&stores.Shortage{MissingL: 20, DaysAsUsed: 9, Days: 12, Enough: enough}, sheet.Metric).Notes, "\n")
		if strings.Contains(notes, "lasts to the last day") != enough || strings.Contains(notes, "lasts 12.0 days; find more water") == enough {
			t.Errorf("enough %v: %s", enough, notes)
		}
	}
}

// TestConditionOfASupply: what is kept only under a condition says so, what is kept by all
// does not, and a note follows.
func TestConditionOfASupply(t *testing.T) {
	rows := kit([]stores.KitLine{
		{KitItem: stores.KitItem{Item: "charcoal", Note: "outdoors only"}, If: "it is cold", Quantity: 3}, {KitItem: stores.KitItem{Item: "matches"}},
	}).Table.Rows()
	if got := rows[0][2]; got != "charcoal (if: it is cold); outdoors only" {
		t.Errorf("under a condition: %q", got)
	}
	if got := rows[1]; got[2] != "matches" || got[0] != "" {
		t.Errorf("kept by all, of no number: %q", got)
	}
}

// TestWhatDishesAdd: 5 % of 200 are 10; the value without dishes is 200, what is proven 190.
func TestWhatDishesAdd(t *testing.T) {
	bound, gap := 190.0, 0.05
	p := &ration.Plan{Least: ration.LeastWeight, Totals: &ration.Totals{}, Dishes: &ration.DishesCost{Value: 200, Price: 0.05, Bound: &bound, Gap: &gap}}
	text := strings.Join(byDishes(p, sheet.Metric), " ")
	for _, want := range []string{"that adds 10.0 kg (5.0 %) to the best found without dishes, 200.0 kg", "Nothing under 190.0 kg", "within 5.0 % of it"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said: %s", want, text)
		}
	}
}

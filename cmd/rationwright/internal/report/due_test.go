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

package foods

import (
	"math"
	"testing"
)

// Words of --cook: DESIGN of the command, "boil" is under 20 minutes of
// simmering; minutes from data/preparation.csv.
func TestCookClass(t *testing.T) {
	for _, test := range []struct {
		class string
		min   float64
		want  string
	}{
		{"ready to eat", 0, "none"},
		{"add cold water", 0, "none"},
		{"with milk", 0, "none"},
		{"heat through", 3, "warm"},
		{"add boiling water", 0, "boil"},
		{"add hot water", 0, "boil"},
		{"add water (label rule)", 0, "boil"},
		{"simmer", 18, "boil"},
		{"simmer", 20, "simmer"},
		{"simmer", 90, "simmer"},
		{"fry", 4, "simmer"},
		{"bake or fry", 10, "simmer"},
	} {
		if got, err := cookClass(test.class, test.min); got != test.want || err != nil {
			t.Errorf("cookClass(%q, %g) = %q, %v, want %q", test.class, test.min, got, err, test.want)
		}
	}
	if _, err := cookClass("grill", 1); err == nil {
		t.Error("cookClass of an unknown class gives no error")
	}
}

// The expected values are worked by hand from data/fuel_rules.csv.
func TestUsefulHeat(t *testing.T) {
	for _, test := range []struct {
		name               string
		class              string
		water, steam, mins float64
		want               float64 // MJ per 100 g
	}{
		{"nothing is heated", "ready to eat", 0, 0, 0, 0},
		{"cold water is not heated", "add cold water", 960, 0, 0, 0},
		// energy_to_boil_1_l_from_15c = 0.356 MJ, for 0.9 L and 0.1 kg of food.
		{"one litre to the boil", "add boiling water", 900, 0, 0, 0.356},
		// Rice: 0.35 kg × 0.35581 + 0.070 kg × 2.257 = 0.12453 + 0.15799; the
		// simmering power gives less: 200 W × 1080 s × 0.35/2 = 0.0378 MJ.
		{"rice, steam decides", "simmer", 250, 70, 18, 0.28252},
		// Beans: 0.42 × 0.35581 + max(200 × 5400 × 0.21 / 1e6 = 0.2268, 0.081 × 2.257 = 0.18282).
		{"beans, power decides", "simmer", 320, 81, 90, 0.37624},
		// Flatbread: 0.16 × 0.35581 + 500 × 600 × 0.08 / 1e6.
		{"open pan", "bake or fry", 60, 5, 10, 0.08093},
		{"open pan, fried", "fry", 60, 5, 10, 0.08093},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := usefulHeatMJ(test.class, test.water, test.steam, test.mins); math.Abs(got-test.want) > 0.0005 {
				t.Errorf("usefulHeatMJ = %.5f MJ, want %.5f", got, test.want)
			}
		})
	}
}

// Water balance of every preparation: what is taken is eaten, discarded or
// lost. Source: notes of data/preparation.csv; instant mixes give a few mL.
func TestWaterBalance(t *testing.T) {
	prep, err := readPreparation()
	if err != nil {
		t.Fatal(err)
	}
	if len(prep) < 90 {
		t.Fatalf("%d preparations, want at least the 90 published", len(prep))
	}
	for form, p := range prep {
		if out := p.EatenML + p.DiscardedML + p.SteamML; math.Abs(out-p.WaterML) > 1 {
			t.Errorf("%s takes %.0f mL, but %.0f mL are eaten, discarded or lost", form, p.WaterML, out)
		}
		if p.HeatMJ < 0 || p.Class == "none" && p.HeatMJ > 0 || p.Class != "none" && p.HeatMJ <= 0 {
			t.Errorf("%s: class %s with %.3f MJ", form, p.Class, p.HeatMJ)
		}
	}
}

// What may be eaten without heat: column cold_ok of data/preparation.csv.
func TestColdOK(t *testing.T) {
	prep, err := readPreparation()
	if err != nil {
		t.Fatal(err)
	}
	for form, want := range map[string]struct {
		class string
		cold  bool
	}{
		"canned_beans":               {"none", true},
		"rice_white":                 {"boil", false},
		"beans_dried":                {"simmer", false},
		"couscous":                   {"boil", true}, // soak 30 min
		"oats_rolled":                {"boil", true}, // soak 8 h
		"flour_white":                {"simmer", false},
		"soup_ready_to_serve_canned": {"warm", true},
		"infant_formula_powder":      {"boil", false},
	} {
		p := prep[form]
		if p == nil || p.Class != want.class || p.ColdOK != want.cold {
			t.Errorf("%s: %+v, want %+v", form, p, want)
		}
	}
}

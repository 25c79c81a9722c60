package stores

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// Two adults who drink 2 L, one of 2 L who is ill (4 quarts, 3.785 L, CDC), an
// infant whose feeds take 8 L, and a pet, for 10 days, reckoned by hand:
// drinks 60 + 17.85 = 77.85, cooking 20, formula 8, spills 10.585, washing 40
// (four heads), pet 37.854.
func shortNeed() (WaterNeed, []Pet) {
	pets := []Pet{{}}
	return ComputeWater(WaterInput{
		People: []WaterPerson{
			{Count: 2, DrinkLPerDay: 2}, {Count: 1, DrinkLPerDay: 2, Tags: []Tag{Ill}}, {Count: 1, Tags: []Tag{Infant, InfantUnder6}},
		},
		Days: 10, PreparationL: 20, FormulaL: 8, Pets: pets,
	}), pets
}

func TestShort(t *testing.T) {
	need, pets := shortNeed()
	all := 77.85 + 20 + 8 + 10.585 + 40 + 37.85411784
	if !near(need.Litres, all) || !near(need.ProtectedL, 37.85+8) {
		t.Fatalf("%g L, %g of them protected, want %g and 45.85", need.Litres, need.ProtectedL, all)
	}
	petL := 37.85411784 - 9.46 // down to a utility's quart a day
	for _, tt := range []struct {
		name    string
		have    float64
		giveUp  string
		days    float64
		enough  bool
		missing float64
	}{
		{"enough", all, "", 10, true, 0},
		{"more than enough", 2 * all, "", 10, true, 0},
		{"a little short", all - 30, washing, 10, true, 30},
		{"washing is just enough", all - 40, washing, 10, true, 40},
		{"shorter", all - 45, washing + "," + spills, 10, true, 45},
		{"and the pet", all - 55, washing + "," + spills + "," + petsLine, 10, true, 55},
		{"and cooking", all - 40 - 10.585 - petL - 15, washing + "," + spills + "," + petsLine + "," + cooking, 10, true, 40 + 10.585 + petL + 15},
		{"half of the drinks", (77.85 + 8 + 9.46) / 2, washing + "," + spills + "," + petsLine + "," + cooking, 5, false, all - (77.85+8+9.46)/2},
		{"nothing", 0, washing + "," + spills + "," + petsLine + "," + cooking, 0, false, all},
	} {
		s := Short(need, tt.have, pets)
		var what []string
		for _, g := range s.GiveUp {
			what = append(what, g.What)
			if g.How == "" || g.Source == "" {
				t.Errorf("%s: %q has no way or source", tt.name, g.What)
			}
		}
		if got := strings.Join(what, ","); got != tt.giveUp || !near(s.Days, tt.days) || s.Enough != tt.enough || !near(s.MissingL, tt.missing) || !near(s.ProtectedL, 45.85) {
			t.Errorf("%s: gives up %s, lasts %g days, %+v; want %s and %g days", tt.name, got, s.Days, s, tt.giveUp, tt.days)
		}
		if want := 10 * min(1, tt.have/all); !near(s.DaysAsUsed, want) {
			t.Errorf("%s: as used %g days, want %g", tt.name, s.DaysAsUsed, want)
		}
		if s.Source == "" || s.Rule == "" {
			t.Errorf("%s: rule %q, source %q", tt.name, s.Rule, s.Source)
		}
	}
}

// No amount of water, however little, takes anything from the drinks: what is
// given up leaves at least them, and less water never lasts longer.
func TestShortNeverCutsDrinks(t *testing.T) {
	need, pets := shortNeed()
	rng := rand.New(rand.NewPCG(3, 9))
	for range 500 {
		have := rng.Float64() * need.Litres
		s := Short(need, have, pets)
		left := need.Litres
		for _, g := range s.GiveUp {
			left -= g.Litres
		}
		if left < 77.85+8-1e-9 {
			t.Fatalf("%g L: what is given up leaves %g L, under the drinks", have, left)
		}
		if less := Short(need, have/2, pets); less.Days > s.Days+1e-9 {
			t.Fatalf("%g L lasts %g days, half of it %g", have, s.Days, less.Days)
		}
	}
}

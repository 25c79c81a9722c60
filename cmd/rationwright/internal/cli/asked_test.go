package cli

import (
	"bytes"
	"math"
	"reflect"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestFlagsAreAsked: each flag of batch stands in its own place of what is asked of every
// household; figures are each another one, and pounds and gallons are converted (1 lb is
// 0.45359237 kg, 1 US gal 3.785411784 L, both exactly).
func TestFlagsAreAsked(t *testing.T) {
	var said bytes.Buffer
	req, err := Asked(t.Context(), []string{
		"--each", "3s", "--slack", "7%", "--within", "4%", "--days", "5", "--least", "weight", "--standard", "ear", "--energy", "2005", "--lean-energy",
		"--cook", "simmer", "--hot", "--easy-open", "--pets", "2", "--budget", "51", "--max-weight", "100lb", "--max-litres", "71", "--max-water", "20gal",
		"--max-heat", "9", "--washing", "0.5", "--start", "2026-11-25", "--without", "salt", "--without", "rice",
	}, &said)
	if err != nil {
		t.Fatal(err)
	}
	some := func(v *float64, want float64) bool { return v != nil && math.Abs(*v-want) < 1e-9 }
	if req.Time != 3*time.Second || req.Slack != 0.07 || req.Within != 0.04 || req.Days != 5 || req.Start != "2026-11-25" || !reflect.DeepEqual(req.Without, []string{"salt", "rice"}) {
		t.Errorf("time %v, slack %g, within %g, %d days from %s, without %q", req.Time, req.Slack, req.Within, req.Days, req.Start, req.Without)
	}
	if req.Least != ration.LeastWeight || req.Standard != nutrients.StandardEAR || req.Energy != nutrients.Energy2005 || !req.LeanEnergy || req.Cook != ration.CookSimmer || !req.Hot || !req.EasyOpen || req.Pets != 2 || req.BoilWater || req.Allowance {
		t.Errorf("%+v", req)
	}
	if l := req.Limits; !some(l.Budget, 51) || !some(l.WeightKg, 45.359237) || !some(l.VolumeL, 71) || !some(l.WaterL, 75.70823568) || !some(l.HeatMJ, 9) || !some(req.WashingL, 0.5) {
		t.Errorf("limits %+v, washing %v", l, req.WashingL)
	}
	if !req.Demo.Prices || req.Demo.Household {
		t.Errorf("demo %+v: prices are the program's, people are not", req.Demo)
	}
	if plain, err := Asked(t.Context(), []string{"--start", "2026-11-25"}, &said); err != nil || plain.Slack != 0 || plain.Limits != (ration.Limits{}) || plain.WashingL != nil || plain.Days != 14 {
		t.Errorf("without flags: %v, %+v", err, plain)
	}
}

// TestMostWashing: up to 100 litres a head and day (own planning rule), not a drop more.
func TestMostWashing(t *testing.T) {
	for litres, fits := range map[string]bool{"0": true, "100": true, "100.1": false, "26gal": true, "27gal": false} { // 98.4 and 102.2 L
		if _, err := Asked(t.Context(), []string{"--start", "2026-11-25", "--washing", litres}, &bytes.Buffer{}); (err == nil) != fits {
			t.Errorf("--washing %s: %v", litres, err)
		}
	}
}

package verify

import (
	"math"
	"testing"
)

// TestHeatByHand: 0.1 kg of food in 0.2 kg of water from 15 °C to the boil takes
// 0.3 · 4.186 · 85 kJ; then the larger of what the pot loses, 200 W with its lid on and 500 W
// without, for 2 kg, and 2.257 MJ for each kg of steam (foods/stores/data/fuel_rules.csv).
func TestHeatByHand(t *testing.T) {
	const boil = 0.3 * 4.186 * 85 / 1000
	for _, c := range []struct {
		class, minutes, water, steam, soak, thrown string
		heat, litres                               float64
	}{
		{"boil", "20", "200", "", "", "", boil + 200*60*20/1e6*0.3/2, 0.2},
		{"boil", "20", "200", "5", "", "", boil + 200*60*20/1e6*0.3/2, 0.2}, // 0.0113 MJ of steam, 0.036 of the pot
		{"boil", "20", "200", "50", "", "", boil + 0.050*2.257, 0.2},
		{"boil", "", "200", "10", "", "", boil + 0.010*2.257, 0.2},
		{"bake or fry", "20", "200", "50", "", "", boil + 0.050*2.257, 0.2},
		{"fry", "30", "200", "50", "", "", boil + 500*60*30/1e6*0.3/2, 0.2},
		{"ready to eat", "20", "200", "50", "", "", 0, 0.2},
		{"add cold water", "", "200", "", "", "", 0, 0.2},
		{"with milk", "", "", "", "", "", 0, 0},
		{"boil", "20", "200", "50", "300", "yes", boil + 0.050*2.257, 0.5},
		{"boil", "20", "200", "50", "300", "no", boil + 0.050*2.257, 0.2},
	} {
		r := &row{text: map[string]string{"prep_class": c.class, "simmer_min": c.minutes, "water_ml_per_100g": c.water, "water_lost_steam_ml_per_100g": c.steam,
			"soak_water_ml_per_100g": c.soak, "soak_water_discarded": c.thrown}}
		if m := makingOf(r); r.err != nil || math.Abs(m.usefulMJ-c.heat) > 1e-9 || math.Abs(m.waterL-c.litres) > 1e-9 {
			t.Errorf("%+v: %g MJ and %g L, %v", c, m.usefulMJ, m.waterL, r.err)
		}
	}
}

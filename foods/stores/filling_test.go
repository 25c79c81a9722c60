package stores

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// One container less does not hold it, and what they hold, weigh and take is that of each
// of them.
func TestFillIsExact(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for _, c := range WaterContainers() {
		for range 40 * *campaign {
			need := 0.1 + 120*random.Float64()
			f, err := c.Fill(need)
			if err != nil {
				t.Fatal(err)
			}
			n, holds := float64(f.Count), (c.NetML+0.5)/1000 // the table's half mL
			if n*holds < need-1e-9 || (n-1)*holds >= need+1e-9 {
				t.Fatalf("%s: %d for %g L", c.Key, f.Count, need)
			}
			kg, shelf := n*(c.NetG+c.TareG)/1000, n*c.LengthMM*c.WidthMM*c.HeightMM/1e6
			if math.Abs(n*c.NetML/1000-f.Litres)+math.Abs(kg-f.WeightKg)+math.Abs(shelf-f.ShelfL) > 1e-9 || f.Renewal == "" || f.Container != c {
				t.Fatalf("%s: %+v, reckoned %g L, %g kg, %g L", c.Key, f, n*c.NetML/1000, kg, shelf)
			}
		}
	}
}

// packages.csv: a jug of 1 US gal weighs 3,850 g full, a 20 L can 21.2 kg, a
// drum of 55 US gal 217.698 kg.
func TestFillByHand(t *testing.T) {
	fill := func(key string, need float64) (FilledContainer, error) {
		c, ok := ContainerByKey(key)
		if !ok {
			t.Fatalf("no container %s", key)
		}
		return c.Fill(need)
	}
	if f, err := fill("drum_55", 208); err != nil || f.Count != 1 || !near(f.WeightKg, 217.698) {
		t.Errorf("208 L: %+v, %v; want one drum", f, err)
	}
	if f, err := fill("can_water_20", 40); err != nil || f.Count != 2 || !near(f.WeightKg, 42.4) {
		t.Errorf("40 L: %+v, %v; want two cans of 20 L", f, err)
	}
	f, err := fill("jug_water_gal", 7*LPerGallon)
	if err != nil || f.Count != 7 || !near(f.WeightKg, 7*3.85) {
		t.Errorf("seven gallons in jugs: %+v, %v", f, err)
	}
	if f.Renewal != "empty and refill every 6 months" { // CDC
		t.Errorf("renewal %q", f.Renewal)
	}
	for _, nothing := range []float64{0, -1} {
		if f, err := fill("drum_55", nothing); err != nil || f.Count != 0 || f.Litres != 0 {
			t.Errorf("%g L: %+v, %v", nothing, f, err)
		}
	}
	for _, need := range []float64{math.NaN(), math.Inf(1), 2.1e5} {
		if _, err := fill("drum_55", need); !errors.Is(err, ErrVolume) {
			t.Errorf("%g L: %v, want %v", need, err, ErrVolume)
		}
	}
	if f, err := fill("drum_55", 50_000); err != nil || f.Litres < 50_000-1 {
		t.Errorf("a village: %+v, %v", f, err)
	}
}

func TestWaterContainersAreTheTables(t *testing.T) {
	want := map[string][3]float64{ // capacity mL, tare g, gross g of packages.csv, trade sizes
		"bottle_water_05": {500, 11, 511}, "bottle_water_2": {2000, 48, 2048}, "jug_water_gal": {3785, 65, 3850},
		"case_water_24": {12000, 320, 12320}, "can_water_5gal": {18927, 800, 19727}, "can_water_20": {20000, 1200, 21200},
		"drum_55": {208198, 9500, 217698},
	}
	all := WaterContainers()
	if len(all) != len(want) {
		t.Errorf("%d water containers, want %d", len(all), len(want))
	}
	for _, c := range all {
		w := want[c.Key]
		if c.NetML != w[0] || c.TareG != w[1] || c.GrossG() != w[2] {
			t.Errorf("%s: %g mL, %g g, %g g full; want %v", c.Key, c.NetML, c.TareG, c.GrossG(), w)
		}
	}
	for _, r := range packages() {
		c, ok := ContainerByKey(r.Text("id"))
		if !ok || math.Abs(c.GrossG()-r.must("gross_g")) > 0.5 {
			t.Errorf("%s: gross %v", r.Text("id"), c)
		}
		if _, changed := map[string]bool{"can_sardine": true, "can_luncheon_12": true}[c.Key]; !changed && math.Abs(c.BoxL*1000-r.must("shelf_box_ml")) > 0.5+0.002*c.BoxL*1000 {
			t.Errorf("%s: box %g mL, want %g", c.Key, c.BoxL*1000, r.must("shelf_box_ml"))
		}
	}
}

package stores

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// weigh returns what an aim minimises.
func weigh(aim Aim, f Filling) float64 {
	switch aim {
	case Lightest:
		return f.WeightKg
	case Smallest:
		return f.ShelfL
	case Cheapest:
		return f.Cost
	}
	return float64(f.Count)
}

var demoPrices = map[string]float64{"jug_water_gal": 1.5, "case_water_24": 5, "can_water_20": 12, "bottle_water_2": 0.1}

// Against every filling with at most two kinds of container, tried one by one.
func TestFillIsExact(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for _, aim := range []Aim{Fewest, Lightest, Smallest, Cheapest} {
		for range 40 * *campaign {
			need := 0.1 + 120*random.Float64()
			opt := FillOptions{Aim: aim, MaxFullKg: LiftKg, Prices: demoPrices}
			f, err := Fill(need, opt)
			if err != nil {
				t.Fatal(err)
			}
			if f.Litres < need-0.0005*float64(f.Count) { // the table's half mL
				t.Fatalf("%s: %g L for %g", aim, f.Litres, need)
			}
			var litres, kg, shelf, cost float64
			for _, l := range f.Lines {
				n := float64(l.Count)
				litres += n * l.Container.NetML / 1000
				kg += n * (l.Container.NetG + l.Container.TareG) / 1000
				shelf += n * l.Container.LengthMM * l.Container.WidthMM * l.Container.HeightMM / 1e6
				cost += n * demoPrices[l.Container.Key]
				if l.Container.GrossG() > LiftKg*1000 || l.Renewal == "" {
					t.Fatalf("%s: %+v", aim, l)
				}
			}
			if math.Abs(litres-f.Litres)+math.Abs(kg-f.WeightKg)+math.Abs(shelf-f.ShelfL) > 1e-9 || f.Priced && math.Abs(cost-f.Cost) > 1e-9 {
				t.Fatalf("%s: totals %+v, reckoned %g L, %g kg, %g L, %g", aim, f, litres, kg, shelf, cost)
			}
			best := math.Inf(1)
			kinds, _ := opt.kinds()
			for _, a := range kinds {
				for _, b := range kinds {
					for n := 0; n <= int(need*1000/a.NetML)+1; n++ {
						for m := 0; m <= int(need*1000/b.NetML)+1; m++ {
							if float64(n)*(a.NetML+0.5)+float64(m)*(b.NetML+0.5) < need*1000 {
								continue
							}
							best = min(best, weigh(aim, opt.filling(need, a, n, b, m)))
							break // more of b only costs more
						}
					}
				}
			}
			if got := weigh(aim, f); got > best+1e-9 {
				t.Fatalf("%s of %g L: %g, but %g is possible", aim, need, got, best)
			}
		}
	}
}

// packages.csv: a jug of 1 US gal weighs 3,850 g full, a 20 L can 21.2 kg, a
// drum of 55 US gal 217.698 kg.
func TestFillByHand(t *testing.T) {
	f, err := Fill(208, FillOptions{})
	if err != nil || f.Count != 1 || f.Lines[0].Container.Key != "drum_55" || !near(f.WeightKg, 217.698) {
		t.Errorf("208 L: %+v, %v; want one drum", f, err)
	}
	f, err = Fill(40, FillOptions{MaxFullKg: LiftKg})
	if err != nil || f.Count != 2 || f.Lines[0].Container.Key != "can_water_20" || !near(f.WeightKg, 42.4) {
		t.Errorf("40 L by hand: %+v, %v; want two cans of 20 L", f, err)
	}
	f, err = Fill(7*LPerGallon, FillOptions{Keys: []string{"jug_water_gal"}})
	if err != nil || f.Count != 7 || !near(f.WeightKg, 7*3.85) {
		t.Errorf("seven gallons in jugs: %+v, %v", f, err)
	}
	if f.Lines[0].Renewal != "empty and refill every 6 months" { // CDC
		t.Errorf("renewal %q", f.Lines[0].Renewal)
	}
	if f, err := Fill(0, FillOptions{}); err != nil || f.Count != 0 {
		t.Errorf("nothing: %+v, %v", f, err)
	}
	for _, tt := range []struct {
		need float64
		opt  FillOptions
		want error
	}{
		{math.NaN(), FillOptions{}, ErrVolume}, {math.Inf(1), FillOptions{}, ErrVolume}, {2.1e5, FillOptions{}, ErrVolume},
		{1, FillOptions{Aim: Cheapest}, ErrNoContainer}, {1, FillOptions{MaxFullKg: 0.1}, ErrNoContainer}, {1, FillOptions{Keys: []string{"bath"}}, ErrNoContainer},
	} {
		if _, err := Fill(tt.need, tt.opt); !errors.Is(err, tt.want) {
			t.Errorf("Fill(%g, %+v): %v, want %v", tt.need, tt.opt, err, tt.want)
		}
	}
	if f, err := Fill(50_000, FillOptions{}); err != nil || f.Litres < 50_000-1 {
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

// A container may be filled that weighs no more full than may be lifted: its own weight
// counts with the water's, by 10 g on both sides.
func TestFullContainersThatAreLifted(t *testing.T) {
	tried := 0
	for _, c := range WaterContainers() {
		tried++
		full := c.GrossG() / 1000
		if f, err := Fill(20, FillOptions{Keys: []string{c.Key}, MaxFullKg: full + 0.01}); err != nil || len(f.Lines) == 0 {
			t.Errorf("%s of %.2f kg full is not taken at %.2f kg: %v", c.Key, full, full+0.01, err)
		}
		if f, err := Fill(20, FillOptions{Keys: []string{c.Key}, MaxFullKg: full - 0.01}); err == nil && len(f.Lines) > 0 {
			t.Errorf("%s of %.2f kg full is taken at %.2f kg", c.Key, full, full-0.01)
		}
	}
	if tried < 3 {
		t.Errorf("%d containers", tried)
	}
}

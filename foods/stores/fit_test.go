package stores

import (
	"cmp"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
)

var campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

// The arithmetic of each case is in its comment.
func TestFitShelves(t *testing.T) {
	can := Load{Key: "can", Name: "can", Count: 24, LengthMM: 80, WidthMM: 80, HeightMM: 110, Kg: 0.5}
	one := []Shelf{{Name: "one", WidthCm: 32, DepthCm: 24, HeightCm: 23, LoadKg: 100}}
	tests := []struct {
		name    string
		shelves []Shelf
		loads   []Load
		left    map[string]int
		much    []string // what is too much, proven
	}{
		// 4 × 3 cans on the board, 2 high: 24. 25 would be 17.6 L in 17.7 L.
		{"full to the last can", one, []Load{can}, nil, nil},
		{"one can more", one, []Load{with(can, func(l *Load) { l.Count = 25 })}, map[string]int{"can": 1}, []string{}},
		// 2 × 110 = 220 mm of 219: one tier, 12 of 24 cans; volume 24 × 0.704 = 16.9 L of 16.8.
		{"one tier", []Shelf{{"low", 32, 24, 21.9, 100, 0}}, []Load{can}, map[string]int{"can": 12}, []string{"volume"}},
		// 24 × 0.5 kg = 12 kg on 10 kg: 20 cans.
		{"load", []Shelf{{"weak", 32, 24, 23, 10, 0}}, []Load{can}, map[string]int{"can": 4}, []string{"load"}},
		{"too high", one, []Load{{Key: "drum", Count: 1, LengthMM: 100, WidthMM: 100, HeightMM: 231, Kg: 1}}, map[string]int{"drum": 1}, []string{"height"}},
		{"too wide", one, []Load{{Key: "tray", Count: 2, LengthMM: 330, WidthMM: 100, HeightMM: 50, Kg: 1}}, map[string]int{"tray": 2}, []string{"footprint"}},
		{"turned on its foot", one, []Load{{Key: "tray", Count: 1, LengthMM: 240, WidthMM: 320, HeightMM: 50, Kg: 1}}, nil, nil},
		{"no shelves", nil, []Load{can}, map[string]int{"can": 24}, []string{"volume", "load", "height", "footprint"}},
		// Nine places of 100 × 100 mm on 300 × 300, one tier: 10 L in 17.1 L.
		{"no room but the volume allows", []Shelf{{"s", 30, 30, 19, 100, 0}}, []Load{{Key: "box", Count: 10, LengthMM: 100, WidthMM: 100, HeightMM: 100, Kg: 1}},
			map[string]int{"box": 1}, []string{}},
		{"glass not above 1.2 m", []Shelf{{"high", 80, 40, 40, 50, 110}}, []Load{{Key: "jar", Count: 1, LengthMM: 80, WidthMM: 80, HeightMM: 120, Kg: 1, Glass: true, Tiers: 2}},
			map[string]int{"jar": 1}, []string{}},
		{"bottles are not stacked", []Shelf{{"s", 22, 11, 70, 50, 0}}, []Load{{Key: "bottle", Count: 3, LengthMM: 110, WidthMM: 110, HeightMM: 310, Kg: 2, Liquid: true, Tiers: 1}},
			map[string]int{"bottle": 1}, []string{}},
		{"stacks end at 1 m", []Shelf{{"tall", 8, 8, 200, 50, 0}}, []Load{{Key: "can", Count: 12, LengthMM: 80, WidthMM: 80, HeightMM: 110, Kg: 0.5}},
			map[string]int{"can": 3}, []string{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := FitShelves(tt.shelves, tt.loads)
			if faults := CheckFit(tt.shelves, tt.loads, f); len(faults) > 0 {
				t.Errorf("faults: %v", faults)
			}
			left := map[string]int{}
			for _, l := range f.Left {
				left[l.Pack] = l.Count
				if l.Reason == "" {
					t.Errorf("%s is left over without a reason", l.Pack)
				}
			}
			for _, l := range tt.loads {
				if left[l.Key] != tt.left[l.Key] {
					t.Errorf("%d of %s left over, want %d", left[l.Key], l.Key, tt.left[l.Key])
				}
			}
			var much []string
			for _, m := range f.Much {
				if m.Proven {
					much = append(much, m.What)
				}
			}
			if tt.left == nil && f.Much != nil || tt.left != nil && (f.Much == nil || !slices.Equal(much, tt.much)) {
				t.Errorf("too much: %v, want proven %v", f.Much, tt.much)
			}
		})
	}
}

func with(l Load, change func(*Load)) Load { change(&l); return l }

// Water and glass stand low, cereal on top, when each could stand anywhere.
func TestHeavyBelow(t *testing.T) {
	shelves := []Shelf{
		{"bottom", 100, 40, 50, 200, 0}, {"middle", 100, 40, 40, 200, 50}, {"top", 100, 40, 40, 200, 90},
	}
	var loads []Load
	for key, count := range map[string]int{"box_cereal_12": 20, "can_water_20": 6, "can_303": 60, "jar_32": 20} {
		c, ok := ContainerByKey(key)
		if !ok {
			t.Fatal(key)
		}
		loads = append(loads, LoadOfContainer(c, count))
	}
	slices.SortFunc(loads, func(a, b Load) int { return len(a.Key) - len(b.Key) })
	f := FitShelves(shelves, loads)
	if faults := CheckFit(shelves, loads, f); len(faults) > 0 || len(f.Left) > 0 {
		t.Fatalf("faults %v, left %v", faults, f.Left)
	}
	lowest, highest := map[string]string{}, map[string]string{}
	for _, p := range f.Places {
		if lowest[p.Pack] == "" {
			lowest[p.Pack] = p.Shelf
		}
		highest[p.Pack] = p.Shelf
	}
	if highest["can_water_20"] != "bottom" || highest["jar_32"] == "top" || highest["box_cereal_12"] != "top" || lowest["can_303"] == "top" {
		t.Errorf("from %v to %v, want water at the bottom, glass below the top and cereal on top", lowest, highest)
	}
}

// Generated shelves and loads, many of them too much: every arrangement
// passes the independent check, and what is called proven is so by a sum that
// is made here again.
func TestFitShelvesGenerated(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 3))
	all := containers()
	fits, partly := 0, 0
	for n := range 300 * *campaign {
		var shelves []Shelf
		floor := 0.0
		for range 1 + random.IntN(5) {
			s := Shelf{
				Name: string(rune('a' + len(shelves))), WidthCm: 20 + 10*random.Float64()*float64(1+random.IntN(10)),
				DepthCm: 15 + 45*random.Float64(), HeightCm: 10 + 50*random.Float64(), LoadKg: 5 + 100*random.Float64(), AboveFloorCm: floor,
			}
			floor += s.HeightCm
			shelves = append(shelves, s)
		}
		var loads []Load
		for range 1 + random.IntN(12) {
			l := LoadOfContainer(&all[random.IntN(len(all))], random.IntN(30))
			if !slices.ContainsFunc(loads, func(o Load) bool { return o.Key == l.Key }) {
				loads = append(loads, l)
			}
		}
		f := FitShelves(shelves, loads)
		if faults := CheckFit(shelves, loads, f); len(faults) > 0 {
			t.Fatalf("case %d: %v\nshelves %+v\nloads %+v", n, faults, shelves, loads)
		}
		if !slices.IsSortedFunc(f.Stacks, func(x, y Stack) int { return cmp.Compare(x.Shelf, y.Shelf) }) {
			t.Fatalf("case %d: the stacks are not listed from the lowest shelf up", n)
		}
		// No other of the fixed orders leaves less over, nor as little with its weight lower.
		chosenMM3, chosenLift := 0, 0.0
		for _, l := range f.Left {
			i := slices.IndexFunc(loads, func(o Load) bool { return o.Key == l.Pack })
			chosenMM3 += l.Count * loads[i].LengthMM * loads[i].WidthMM * loads[i].HeightMM
		}
		for _, p := range f.Places {
			i := slices.IndexFunc(shelves, func(s Shelf) bool { return s.Name == p.Shelf })
			chosenLift += p.Kg * shelves[i].AboveFloorCm
		}
		for _, p := range policies {
			a := newArrangement(shelves, loads, p)
			a.place()
			mm3, lift := 0, 0.0
			for i, n := range a.left {
				mm3 += n * loads[i].LengthMM * loads[i].WidthMM * loads[i].HeightMM
			}
			for _, st := range a.stacks {
				lift += float64(st.Count) * loads[st.Load].Kg * shelves[st.Shelf].AboveFloorCm
			}
			if mm3 < chosenMM3 || mm3 == chosenMM3 && lift < chosenLift-1e-6 {
				t.Fatalf("case %d: %+v leaves %d mm³ and lifts %g kg·cm, what was chosen %d and %g", n, p, mm3, lift, chosenMM3, chosenLift)
			}
		}
		placed := map[string]int{}
		for _, p := range f.Places {
			placed[p.Pack] += p.Count
		}
		for _, l := range f.Left {
			placed[l.Pack] += l.Count
		}
		var box, shelf, kg, bears float64
		for _, l := range loads {
			if placed[l.Key] != l.Count {
				t.Fatalf("case %d: %s: %d placed or left of %d", n, l.Key, placed[l.Key], l.Count)
			}
			box += float64(l.Count*l.LengthMM*l.WidthMM*l.HeightMM) / 1e6
			kg += float64(l.Count) * l.Kg
		}
		for _, s := range shelves {
			shelf += s.WidthCm * s.DepthCm * s.HeightCm / 1000
			bears += s.LoadKg
		}
		for _, m := range f.Much {
			if m.What == "volume" && box <= shelf || m.What == "load" && kg <= bears {
				t.Fatalf("case %d: %+v is not so: %g of %g L, %g of %g kg", n, m, box, shelf, kg, bears)
			}
		}
		if len(f.Left) == 0 {
			fits++
			if len(f.Much) > 0 || box > shelf || kg > bears+1e-6 {
				t.Fatalf("case %d: all placed, yet %v", n, f.Much)
			}
		} else {
			partly++
			if len(f.Much) == 0 {
				t.Fatalf("case %d: left over without saying what is too much", n)
			}
		}
	}
	if fits < 20 || partly < 20 {
		t.Errorf("%d fits and %d partly: the cases do not try both", fits, partly)
	}
}

// Of two arrangements the one that leaves less volume over is better, and of equals the one whose
// packs' weight stands lower; the sums are in the comments, in kg × mm above the floor.
func TestLowerIsBetter(t *testing.T) {
	shelves := []Shelf{{Name: "floor"}, {Name: "knee", AboveFloorCm: 50}, {Name: "head", AboveFloorCm: 150}}
	loads := []Load{{Key: "can", Kg: 0.5, LengthMM: 80, WidthMM: 80, HeightMM: 110}, {Key: "drum", Kg: 6, LengthMM: 200, WidthMM: 200, HeightMM: 300}}
	on := func(load, shelf, count int) Stack { return Stack{Load: load, Shelf: shelf, Count: count} }
	of := func(left []int, stacks ...Stack) *arrangement {
		return &arrangement{shelves: shelves, loads: loads, left: left, stacks: stacks}
	}
	none := []int{0, 0}
	for _, c := range []struct {
		name string
		a, b *arrangement // a is the better
	}{
		// 1 × 6 × 500 = 3000 beside 9 × 0.5 × 1500 = 6750, though one can is lighter than a drum.
		{"a tall stack high up weighs what its packs weigh", of(none, on(1, 1, 1), on(0, 0, 9)), of(none, on(1, 0, 1), on(0, 2, 9))},
		// 4 × 0.5 × 1500 = 3000 beside 1 × 6 × 1500 = 9000.
		{"a heavy pack weighs more than several light ones", of(none, on(1, 0, 1), on(0, 2, 4)), of(none, on(1, 2, 1), on(0, 0, 4))},
		// 11 × 0.5 × 500 = 2750 beside 6 × 500 = 3000; 13 would be 3250.
		{"just lighter", of(none, on(0, 1, 11), on(1, 0, 1)), of(none, on(0, 0, 11), on(1, 1, 1))},
		{"just heavier", of(none, on(0, 0, 13), on(1, 1, 1)), of(none, on(0, 1, 13), on(1, 0, 1))},
		// 6 × 500 beside 6 × 1500.
		{"a lower shelf", of(none, on(1, 1, 1)), of(none, on(1, 2, 1))},
		{"a lower shelf of no height", of(none, on(1, 0, 1)), of(none, on(1, 1, 1))},
		// A drum left over is 12 L, 17 cans are 17 × 0.704 = 11.97 L, 18 are 12.67 L.
		{"less volume left, more packs and all high", of([]int{17, 0}, on(1, 2, 1)), of([]int{0, 1}, on(0, 0, 17))},
		{"less volume left, one pack", of([]int{0, 1}, on(0, 2, 18)), of([]int{18, 0}, on(1, 0, 1))},
	} {
		if !c.a.better(c.b) || c.b.better(c.a) {
			t.Errorf("%s: better %v, and the other way round %v", c.name, c.a.better(c.b), c.b.better(c.a))
		}
	}
	// 12 × 0.5 × 500 = 3000 = 6 × 500.
	if a, b := of(none, on(0, 1, 12), on(1, 0, 1)), of(none, on(0, 0, 12), on(1, 1, 1)); a.better(b) || b.better(a) {
		t.Error("of two that are alike one is better")
	}
}

// The check finds each fault that is put into a sound arrangement.
func TestCheckFitFindsFaults(t *testing.T) {
	shelves := []Shelf{{"a", 32, 24, 23, 12, 0}, {"b", 32, 24, 23, 12, 110}}
	loads := []Load{
		{Key: "can", Count: 24, LengthMM: 80, WidthMM: 80, HeightMM: 110, Kg: 0.5},
		{Key: "jar", Count: 1, LengthMM: 80, WidthMM: 60, HeightMM: 110, Kg: 0.1, Glass: true, Tiers: 1},
	}
	sound := FitShelves(shelves, loads)
	if faults := CheckFit(shelves, loads, sound); len(faults) > 0 {
		t.Fatalf("the sound arrangement: %v", faults)
	}
	breaks := map[string]func(f *Fit){
		"a lost stack":     func(f *Fit) { f.Stacks = f.Stacks[1:] },
		"one too many":     func(f *Fit) { f.Stacks[0].Count++ },
		"over the edge":    func(f *Fit) { f.Stacks[0].X = 250 },
		"behind the board": func(f *Fit) { f.Stacks[0].Y = -1 },
		"on another":       func(f *Fit) { f.Stacks[1].X, f.Stacks[1].Y = f.Stacks[0].X, f.Stacks[0].Y },
		"squeezed":         func(f *Fit) { f.Stacks[0].Width-- },
		"no such shelf":    func(f *Fit) { f.Stacks[0].Shelf = 9 },
		"overloaded": func(f *Fit) {
			for i := range f.Stacks {
				f.Stacks[i].Shelf = 0
			}
		},
		"glass up high": func(f *Fit) {
			for i := range f.Stacks {
				if f.Stacks[i].Load == 1 {
					f.Stacks[i].Shelf = 1
				}
			}
		},
	}
	for name, change := range breaks {
		f := sound
		f.Stacks = slices.Clone(sound.Stacks)
		change(&f)
		if len(CheckFit(shelves, loads, f)) == 0 {
			t.Errorf("%s: the check finds no fault", name)
		}
	}
}

func TestLoads(t *testing.T) {
	// packages.csv, can_303 (can-makers' dimension manual): 81.0 × 111.1 mm, 496 g gross.
	pack := &foods.Pack{Key: "peas 303", Food: &foods.Food{Name: "peas"}, Container: "can_303", GrossG: 490}
	l := LoadOfPack(pack, 3)
	if l.LengthMM != 81 || l.WidthMM != 81 || l.HeightMM != 112 || l.Kg != 0.49 || l.Guessed || l.Liquid || l.Glass || l.Count != 3 || l.Name != "peas" {
		t.Errorf("load of a can = %+v", l)
	}
	// Twice the box of 0.729 L: each side by the cube root of 2, 102.05 × 139.98 mm.
	big := LoadOfPack(&foods.Pack{Key: "big", Container: "can_303", GrossG: 900, VolumeL: 2 * 0.0810 * 0.0810 * 0.1111 * 1000}, 1)
	if big.LengthMM != 103 || big.HeightMM != 140 || !big.Guessed || big.Kg != 0.9 {
		t.Errorf("load of a pack twice its container = %+v", big)
	}
	own := LoadOfPack(&foods.Pack{Key: "own", GrossG: 1000, VolumeL: 8}, 1)
	if own.LengthMM != 200 || !own.Guessed { // 8 L is a cube of 20 cm
		t.Errorf("load from litres = %+v", own)
	}
	// The note of packages.csv: a sardine can is a box of 104 × 60 × 22 mm.
	if c, _ := ContainerByKey("can_sardine"); c.LengthMM != 104 || c.WidthMM != 60 || c.HeightMM != 22 || c.Round {
		t.Errorf("sardine can = %+v", c)
	}
	for _, c := range containers() {
		if c.BoxL <= 0 || c.NetG <= 0 || c.TareG <= 0 {
			t.Errorf("%s: %+v", c.Key, c)
		}
		if _, ok := stackTiers()[c.Kind]; !ok {
			t.Errorf("%s: stacking.csv does not know %q", c.Key, c.Kind)
		}
	}
	if math.Abs(ShelfSpaceL(85)-100) > 1e-9 { // packing.csv: shelf_use_factor 0.85
		t.Errorf("85 L of boxes need %g L of shelf, want 100", ShelfSpaceL(85))
	}
}

// How a container stands: jars and plastic that may be glass are glass, bottles, cartons
// and water are liquid, the can made to be stacked bears one on it (stacking.csv).
func TestKindsOfLoads(t *testing.T) {
	for key, want := range map[string]struct {
		liquid, glass bool
		tiers         int
	}{
		"jar_16": {false, true, 2}, "formula_rtf_2": {false, true, 2}, "bottle_oil_48": {true, false, 1}, "carton_1l": {true, false, 0},
		"case_water_24": {true, false, 0}, "can_water_20": {true, false, 1}, "can_water_5gal": {true, false, 2}, "can_303": {false, false, 0},
	} {
		c, ok := ContainerByKey(key)
		if !ok {
			t.Fatal(key)
		}
		if key == "carton_1l" || key == "case_water_24" {
			want.tiers = stackTiers()[c.Kind]
		}
		if l := LoadOfContainer(c, 2); l.Liquid != want.liquid || l.Glass != want.glass || l.Tiers != want.tiers || l.Count != 2 {
			t.Errorf("%s: %+v, want %+v", key, l, want)
		}
	}
	for _, r := range packages() {
		if c, _ := ContainerByKey(r.Text("id")); c.Memory != strings.HasPrefix(r.Text("verified"), "from memory") {
			t.Errorf("%s: from memory %v, its row says %q", c.Key, c.Memory, r.Text("verified"))
		}
	}
}

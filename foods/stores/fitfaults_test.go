package stores

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// Each rule of an arrangement broken by itself, beside the case that just keeps it: the
// check names that fault and no other. A pack is 80 × 60 × 110 mm, 0.5 kg, the shelf
// 30 × 20 × 50 cm for 10 kg.
func TestEachFaultOfAnArrangement(t *testing.T) {
	shelf := Shelf{Name: "a", WidthCm: 30, DepthCm: 20, HeightCm: 50, LoadKg: 10}
	box := Load{Key: "box", LengthMM: 80, WidthMM: 60, HeightMM: 110, Kg: 0.5}
	stack := Stack{Width: 80, Depth: 60, Count: 1}
	type set struct {
		shelves []Shelf
		loads   []Load
		fit     Fit
	}
	one := func(change func(*Shelf, *Load, *Stack)) set {
		s, l, st := shelf, box, stack
		change(&s, &l, &st)
		l.Count = st.Count
		return set{[]Shelf{s}, []Load{l}, Fit{Stacks: []Stack{st}}}
	}
	// A second stack, of a load of its own, in the same place on top of the first.
	onTop := func(change func(lower, upper *Load, st *Stack)) set {
		lower, upper, st := box, box, stack
		lower.Count, upper.Count, upper.Key = 1, 1, "upper"
		st.Load, st.Z = 1, 110
		change(&lower, &upper, &st)
		return set{[]Shelf{shelf, shelf}, []Load{lower, upper}, Fit{Stacks: []Stack{stack, st}}}
	}
	beside := func(x, y, shelfAt int) set {
		l, st := box, stack
		l.Count, st.X, st.Y, st.Shelf = 2, x, y, shelfAt
		return set{[]Shelf{shelf, shelf}, []Load{l}, Fit{Stacks: []Stack{stack, st}}}
	}
	lost := func(load, shelfAt int) set {
		l, st := box, stack
		l.Count, st.Load, st.Shelf = 1, load, shelfAt
		return set{[]Shelf{shelf}, []Load{l}, Fit{Stacks: []Stack{st, stack}}}
	}
	upsideDown := func(s set) set { slices.Reverse(s.fit.Stacks); return s }
	counted := func(asked, left int, more ...Load) set {
		l := box
		l.Count = asked
		return set{[]Shelf{shelf}, append([]Load{l}, more...), Fit{Stacks: []Stack{stack}, Left: []LeftOver{{Pack: "box", Count: left}}}}
	}
	for _, tt := range []struct {
		name string
		set  set
		want string // part of the one fault, "" sound
	}{
		{"sound", one(func(*Shelf, *Load, *Stack) {}), ""},
		{"turned", one(func(_ *Shelf, _ *Load, st *Stack) { st.Width, st.Depth = 60, 80 }), ""},
		{"squeezed", one(func(_ *Shelf, _ *Load, st *Stack) { st.Depth = 59 }), "stack 0: its foot is 80 × 59 mm, the pack's 80 × 60"},
		{"a cube of no foot of it", one(func(_ *Shelf, _ *Load, st *Stack) { st.Depth = 80 }), "its foot is 80 × 80 mm"},
		{"no packs", one(func(_ *Shelf, _ *Load, st *Stack) { st.Count = 0 }), "stack 0: 0 packs"},
		{"at the right edge", one(func(_ *Shelf, _ *Load, st *Stack) { st.X = 220 }), ""},
		{"over the right edge", one(func(_ *Shelf, _ *Load, st *Stack) { st.X = 221 }), "stack 0: stands over the edge of a"},
		{"over the left edge", one(func(_ *Shelf, _ *Load, st *Stack) { st.X = -1 }), "stands over the edge of a"},
		{"at the back", one(func(_ *Shelf, _ *Load, st *Stack) { st.Y = 140 }), ""},
		{"over the back", one(func(_ *Shelf, _ *Load, st *Stack) { st.Y = 141 }), "stands over the edge of a"},
		{"over the front", one(func(_ *Shelf, _ *Load, st *Stack) { st.Y = -1 }), "stands over the edge of a"},
		{"just under the next board", one(func(s *Shelf, _ *Load, st *Stack) { st.Count, s.HeightCm = 2, 22 }), ""},
		{"into the next board", one(func(s *Shelf, _ *Load, st *Stack) { st.Count, s.HeightCm = 2, 21.9 }), "stack 0: 22.0 cm high under 21.9 cm on a"},
		{"9 on one another, 99 cm", one(func(s *Shelf, _ *Load, st *Stack) { st.Count, s.HeightCm = 9, 200 }), ""},
		{"10 on one another, 110 cm", one(func(s *Shelf, _ *Load, st *Stack) { st.Count, s.HeightCm = 10, 200 }), "stack 0: 110.0 cm high, over the highest stack"},
		{"one pack of 110 cm", one(func(s *Shelf, l *Load, _ *Stack) { l.HeightMM, s.HeightCm = 1100, 200 }), ""},
		{"as many tiers as it bears", one(func(_ *Shelf, l *Load, st *Stack) { st.Count, l.Tiers = 2, 2 }), ""},
		{"a tier more", one(func(_ *Shelf, l *Load, st *Stack) { st.Count, l.Tiers = 3, 2 }), "stack 0: 3 of box on one another, which bears 2"},
		{"glass to 1.2 m", one(func(s *Shelf, l *Load, _ *Stack) { s.AboveFloorCm, l.Glass = 109, true }), ""},
		{"glass above it", one(func(s *Shelf, l *Load, _ *Stack) { s.AboveFloorCm, l.Glass = 109.1, true }), "stack 0: glass at 120.1 cm above the floor"},
		{"tin above it", one(func(s *Shelf, l *Load, _ *Stack) { s.AboveFloorCm, l.Guessed = 150, true }), ""},
		{"all that the board bears", one(func(s *Shelf, _ *Load, st *Stack) { st.Count, s.LoadKg = 3, 1.5 }), ""},
		{"more than it bears", one(func(s *Shelf, _ *Load, st *Stack) { st.Count, s.LoadKg = 3, 1.49 }), "a bears 1.49 kg and holds 1.5"},

		{"beside", beside(80, 0, 0), ""},
		{"behind", beside(0, 60, 0), ""},
		{"on the next shelf", beside(0, 0, 1), ""},
		{"a millimetre into the other", beside(79, 0, 0), "stacks 0 and 1 stand in the same space of a"},
		{"a millimetre into the other from behind", beside(0, 59, 0), "stacks 0 and 1 stand in the same space of a"},

		{"on another", onTop(func(_, _ *Load, _ *Stack) {}), ""},
		{"on another, lighter", onTop(func(_, u *Load, _ *Stack) { u.Kg = 0.4 }), ""},
		{"on another, smaller and not at its corner", onTop(func(_, u *Load, st *Stack) {
			u.LengthMM, u.WidthMM, st.Width, st.Depth, st.X, st.Y = 70, 50, 70, 50, 10, 10
		}), ""},
		{"on another, heavier", onTop(func(_, u *Load, _ *Stack) { u.Kg = 0.6 }), "stack 1: nothing bears it"},
		{"above another", onTop(func(_, _ *Load, st *Stack) { st.Z = 111 }), "stack 1: nothing bears it"},
		{"in another", onTop(func(_, _ *Load, st *Stack) { st.Z, st.X = 109, 80 }), "stack 1: nothing bears it"},
		{"over its side", onTop(func(_, _ *Load, st *Stack) { st.X = 1 }), "stack 1: nothing bears it"},
		{"over its back", onTop(func(_, _ *Load, st *Stack) { st.Y = 1 }), "stack 1: nothing bears it"},
		{"over its left", onTop(func(l, u *Load, st *Stack) { u.LengthMM, st.Width = 70, 70; st.X = 20 }), "stack 1: nothing bears it"},
		{"on one of another shelf", onTop(func(_, _ *Load, st *Stack) { st.Shelf = 1 }), "stack 1: nothing bears it"},
		{"on glass", onTop(func(l, _ *Load, _ *Stack) { l.Glass = true }), "stack 1: nothing bears it"},
		{"on liquid", onTop(func(l, _ *Load, _ *Stack) { l.Liquid = true }), "stack 1: nothing bears it"},
		{"on what bears few", onTop(func(l, _ *Load, _ *Stack) { l.Tiers = 3 }), "stack 1: nothing bears it"},
		{"glass on it", onTop(func(_, u *Load, _ *Stack) { u.Glass = true }), "stack 1: nothing bears it"},
		{"liquid on it", onTop(func(_, u *Load, _ *Stack) { u.Liquid = true }), "stack 1: nothing bears it"},
		{"what bears few on it", onTop(func(_, u *Load, _ *Stack) { u.Tiers = 3 }), "stack 1: nothing bears it"},

		{"on another, listed first", upsideDown(onTop(func(_, _ *Load, _ *Stack) {})), ""},
		{"load 1 of one", lost(1, 0), "stack 0: no such load or shelf"},
		{"load -1", lost(-1, 0), "stack 0: no such load or shelf"},
		{"shelf 1 of one", lost(0, 1), "stack 0: no such load or shelf"},
		{"shelf -1", lost(0, -1), "stack 0: no such load or shelf"},

		{"one placed and two left of three", counted(3, 2), ""},
		{"one is lost", counted(3, 1), "box: 3 packs, of which 2 are placed or left over"},
		{"one too many", counted(1, 1), "box: 1 packs, of which 2 are placed or left over"},
		{"two loads of a key", counted(2, 2, Load{Key: "box", Count: 1}), ""},
		{"two loads of a key, one lost", counted(2, 1, Load{Key: "box", Count: 1}), "box: 3 packs, of which 2 are placed or left over"},
	} {
		got := CheckFit(tt.set.shelves, tt.set.loads, tt.set.fit)
		if tt.want == "" && len(got) > 0 || tt.want != "" && (len(got) != 1 || !strings.Contains(got[0], tt.want)) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// What is said of a pack without a place: 200 × 100 × 300 mm and 5 kg, on shelves that
// take it just or just not, whichever stands first.
func TestReasonsOfWhatIsLeft(t *testing.T) {
	box := Load{Key: "box", Count: 1, LengthMM: 200, WidthMM: 100, HeightMM: 300, Kg: 5}
	jar := with(box, func(l *Load) { l.Glass = true })
	good := Shelf{Name: "good", WidthCm: 20, DepthCm: 10, HeightCm: 30, LoadKg: 5, AboveFloorCm: 90}
	but := func(change func(*Shelf)) Shelf { s := good; change(&s); return s }
	turned := but(func(s *Shelf) { s.WidthCm, s.DepthCm = 10, 20 })
	low := but(func(s *Shelf) { s.HeightCm = 29.9 })
	narrow := but(func(s *Shelf) { s.WidthCm = 19.9 })
	shallow := but(func(s *Shelf) { s.DepthCm = 9.9 })
	weak := but(func(s *Shelf) { s.LoadKg = 4.99 })
	high := but(func(s *Shelf) { s.AboveFloorCm = 90.1 })
	const (
		room  = "no room or load left on the shelves that would take it"
		tall  = "300 mm high, more than the clear height of every shelf"
		broad = "200 by 100 mm, more than the board of every shelf"
		heavy = "5 kg each, more than every shelf bears"
		glass = "glass, and every shelf that would take it is above 1.2 m"
	)
	for _, tt := range []struct {
		load    Load
		shelves []Shelf
		want    string
	}{
		{box, nil, "no shelves are given"},
		{box, []Shelf{good}, room}, {box, []Shelf{turned}, room}, {box, []Shelf{high}, room}, {jar, []Shelf{good}, room},
		{box, []Shelf{low}, tall}, {box, []Shelf{narrow}, broad}, {box, []Shelf{shallow}, broad}, {box, []Shelf{weak}, heavy}, {jar, []Shelf{high}, glass},
		{box, []Shelf{low, good}, room}, {box, []Shelf{narrow, good}, room}, {box, []Shelf{weak, good}, room}, {jar, []Shelf{high, good}, room},
		// The jar could stand low where the board is too narrow, or on the board too high up.
		{jar, []Shelf{narrow, high}, glass},
		// No one shelf is both high and broad enough, which has nothing to do with glass.
		{box, []Shelf{narrow, low}, room},
	} {
		for range 2 {
			if got := reason(&tt.load, tt.shelves); got != tt.want {
				t.Errorf("glass %v on %v: %q, want %q", tt.load.Glass, tt.shelves, got, tt.want)
			}
			slices.Reverse(tt.shelves)
		}
	}
}

// The sums against the shelves, by hand: 20 × 10 × 30 cm and 30 × 20 × 10 cm are 6 L each,
// for 5 and 7 kg.
func TestSumsOfTooMuch(t *testing.T) {
	shelves := []Shelf{{Name: "a", WidthCm: 20, DepthCm: 10, HeightCm: 30, LoadKg: 5}, {Name: "b", WidthCm: 30, DepthCm: 20, HeightCm: 10, LoadKg: 7}}
	cubes := func(n int, kg float64) Load {
		return Load{Key: "cube", Count: n, LengthMM: 100, WidthMM: 100, HeightMM: 100, Kg: kg}
	}
	for _, tt := range []struct {
		name  string
		loads []Load
		want  []TooMuch // without their words
	}{
		{"12 L, 12 kg", []Load{cubes(12, 1)}, []TooMuch{{What: "arrangement", Need: 12, Have: 12 * 0.85, Unit: "L"}}},
		{"13 L, 12 kg", []Load{cubes(6, 1), cubes(7, 6.0/7)}, []TooMuch{{What: "volume", Need: 13, Have: 12, Unit: "L", Proven: true}}},
		{"12 L, 13 kg", []Load{cubes(6, 1), cubes(6, 7.0/6)}, []TooMuch{{What: "load", Need: 13, Have: 12, Unit: "kg", Proven: true}}},
		// 2 × 3.1 L and 3 × 0.775 L, 7 kg; 310 mm are higher than 300 and longer than 300.
		{"too high and too long", []Load{
			{Key: "drum", Count: 2, LengthMM: 100, WidthMM: 100, HeightMM: 310, Kg: 2},
			{Key: "tray", Count: 3, LengthMM: 310, WidthMM: 50, HeightMM: 50, Kg: 1},
			{Key: "as high as can be", Count: 1, LengthMM: 100, WidthMM: 50, HeightMM: 300},
			{Key: "as long as can be", Count: 1, LengthMM: 200, WidthMM: 300, HeightMM: 20},
		}, []TooMuch{{What: "height", Need: 2, Unit: "packs", Proven: true}, {What: "footprint", Need: 3, Unit: "packs", Proven: true}}},
	} {
		got := tooMuch(shelves, tt.loads)
		if tt.want[0].What == "arrangement" && !strings.Contains(got[0].Text, "about 85 %") {
			t.Errorf("%s: %q", tt.name, got[0].Text)
		}
		same := func(a, b TooMuch) bool {
			return a.What == b.What && a.Unit == b.Unit && a.Proven == b.Proven && math.Abs(a.Need-b.Need) < 1e-9 && math.Abs(a.Have-b.Have) < 1e-9 && a.Text != ""
		}
		if !slices.EqualFunc(got, tt.want, same) {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

// What stands where, added up by hand: 24 cans of 0.704 L and 0.5 kg fill the lower board
// of 32 × 24 × 23 cm, 17.664 L; of the next 3 two go on top of one another.
func TestWhatStandsOnAShelf(t *testing.T) {
	can := Load{Key: "can", Name: "peas", Count: 27, LengthMM: 80, WidthMM: 80, HeightMM: 110, Kg: 0.5}
	shelves := []Shelf{{"low", 32, 24, 23, 100, 0}, {"high", 32, 24, 23, 50, 30}}
	f := FitShelves(shelves, []Load{can})
	places := []Place{{"low", "can", "peas", 24, 12}, {"high", "can", "peas", 3, 1.5}}
	if !slices.Equal(f.Places, places) {
		t.Errorf("places %+v, want %+v", f.Places, places)
	}
	uses := []ShelfUse{{"low", 12, 100, 24 * 0.704, 17.664}, {"high", 1.5, 50, 3 * 0.704, 17.664}}
	if !slices.EqualFunc(f.Use, uses, func(a, b ShelfUse) bool {
		return a.Shelf == b.Shelf && a.Kg == b.Kg && a.LoadKg == b.LoadKg && math.Abs(a.BoxL-b.BoxL) < 1e-9 && math.Abs(a.VolumeL-b.VolumeL) < 1e-9
	}) {
		t.Errorf("used %+v, want %+v", f.Use, uses)
	}
}

// A board takes as many of a stack as it bears: 3 of 0.5 kg on 1.5 kg, 2 on a little less.
func TestStackToTheLoad(t *testing.T) {
	for load, left := range map[float64]int{1.5: 1, 1.49: 2, 2: 0, 0.5: 3} {
		f := FitShelves([]Shelf{{"s", 8, 6, 50, load, 0}}, []Load{{Key: "box", Count: 4, LengthMM: 80, WidthMM: 60, HeightMM: 110, Kg: 0.5}})
		if n := 4 - f.Places[0].Count; n != left {
			t.Errorf("a board that bears %g kg leaves %d of 4 packs, want %d", load, n, left)
		}
	}
}

// On a board of one foot the lighter pack stands on the heavier; what is liquid, glass,
// limited in tiers, larger or too high for it does not.
func TestOneOnAnother(t *testing.T) {
	base := Load{Key: "base", Count: 1, LengthMM: 80, WidthMM: 60, HeightMM: 110, Kg: 0.5}
	for _, tt := range []struct {
		name   string
		change func(base, top *Load, s *Shelf)
		left   int
	}{
		{"lighter", func(_, _ *Load, _ *Shelf) {}, 0},
		{"turned", func(_, top *Load, _ *Shelf) { top.LengthMM, top.WidthMM = 60, 80 }, 0},
		{"liquid", func(_, top *Load, _ *Shelf) { top.Liquid, top.Tiers = true, 1 }, 1},
		{"glass", func(_, top *Load, _ *Shelf) { top.Glass, top.Tiers = true, 1 }, 1},
		{"of few tiers", func(_, top *Load, _ *Shelf) { top.Tiers = 3 }, 1},
		{"on few tiers", func(base, _ *Load, _ *Shelf) { base.Tiers = 3 }, 1},
		{"larger", func(_, top *Load, s *Shelf) { top.LengthMM = 81 }, 1},
		{"to the board above", func(_, _ *Load, s *Shelf) { s.HeightCm = 22 }, 0},
		{"through it", func(_, _ *Load, s *Shelf) { s.HeightCm = 21.9 }, 1},
		{"to a metre", func(base, top *Load, s *Shelf) { base.HeightMM, top.HeightMM, s.HeightCm = 600, 400, 200 }, 0},
		{"over a metre", func(base, top *Load, s *Shelf) { base.HeightMM, top.HeightMM, s.HeightCm = 600, 401, 200 }, 1},
		{"more than the board bears", func(_, _ *Load, s *Shelf) { s.LoadKg = 0.8 }, 1},
	} {
		lower, top, shelf := base, base, Shelf{"s", 8, 6, 50, 10, 0}
		top.Key, top.Kg = "top", 0.4
		tt.change(&lower, &top, &shelf)
		shelves, loads := []Shelf{shelf}, []Load{top, lower}
		f := FitShelves(shelves, loads)
		left := 0
		for _, l := range f.Left {
			left += l.Count
		}
		if faults := CheckFit(shelves, loads, f); left != tt.left || len(faults) > 0 {
			t.Errorf("%s: %d left over, want %d; %v", tt.name, left, tt.left, faults)
		}
	}
}

// The order in which loads take their places: liquid, glass, the rest; within a class by
// the measure of the policy, then the higher, then by key. Strips run from front to back
// or across, as the policy says.
func TestOrderAndDirection(t *testing.T) {
	// The bar is heavier and has the larger foot, 300 × 50 of 100 × 100 mm²; the cube is broader.
	bar := Load{Key: "bar", Count: 1, LengthMM: 300, WidthMM: 50, HeightMM: 60, Kg: 2}
	cube := Load{Key: "cube", Count: 1, LengthMM: 100, WidthMM: 100, HeightMM: 250, Kg: 1}
	tin := Load{Key: "tin", Count: 1, LengthMM: 100, WidthMM: 100, HeightMM: 60, Kg: 1}
	wide := []Shelf{{"s", 100, 40, 30, 100, 0}}
	for _, tt := range []struct {
		name  string
		order order
		loads []Load
		want  []string
	}{
		{"by weight", byWeight, []Load{cube, bar}, []string{"bar", "cube"}},
		{"by foot", byFoot, []Load{cube, bar}, []string{"bar", "cube"}},
		{"by foot, lighter", byFoot, []Load{cube, with(bar, func(l *Load) { l.Kg = 0.5 })}, []string{"bar", "cube"}},
		{"by breadth", byBreadth, []Load{bar, cube}, []string{"cube", "bar"}},
		{"by breadth, the other way round", byBreadth, []Load{cube, bar}, []string{"cube", "bar"}},
		{"the higher", byWeight, []Load{tin, cube}, []string{"cube", "tin"}},
		{"by key", byWeight, []Load{with(tin, func(l *Load) { l.Key = "z" }), tin}, []string{"tin", "z"}},
		{"classes", byWeight, []Load{bar, with(tin, func(l *Load) { l.Glass = true }), with(cube, func(l *Load) { l.Liquid, l.Kg = true, 0.1 })}, []string{"cube", "tin", "bar"}},
	} {
		a := newArrangement(wide, tt.loads, policy{lanes: true, order: tt.order})
		for i := range a.loads {
			a.loads[i].Tiers = 1 // side by side
		}
		a.place()
		var got []string
		for _, st := range a.stacks {
			got = append(got, a.loads[st.Load].Key)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
	// Boxes of 200 × 100 mm on 60 × 30 cm: three of them 100 mm broad behind one another, or
	// three across; two by their long side.
	box := Load{Key: "box", Count: 4, LengthMM: 200, WidthMM: 100, HeightMM: 100, Kg: 1, Tiers: 1}
	for _, tt := range []struct {
		policy policy
		want   [][2]int // X and Y
	}{
		{policy{lanes: true}, [][2]int{{0, 0}, {100, 0}, {200, 0}, {300, 0}}},
		{policy{lanes: true, longSide: true}, [][2]int{{0, 0}, {0, 100}, {0, 200}, {200, 0}}},
		{policy{}, [][2]int{{0, 0}, {200, 0}, {400, 0}, {0, 100}}},
		{policy{longSide: true}, [][2]int{{0, 0}, {100, 0}, {200, 0}, {300, 0}}},
	} {
		a := newArrangement([]Shelf{{"s", 60, 30, 10, 100, 0}}, []Load{box}, tt.policy)
		a.place()
		var got [][2]int
		for _, st := range a.stacks {
			got = append(got, [2]int{st.X, st.Y})
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%+v: %v, want %v", tt.policy, got, tt.want)
		}
	}
	// Without a size nothing stands.
	for _, l := range []Load{{LengthMM: 1, WidthMM: 1}, {LengthMM: 1, HeightMM: 1}, {WidthMM: 1, HeightMM: 1}} {
		if got := tiersOn(&l, &wide[0]); got != 0 {
			t.Errorf("%+v stands %d high", l, got)
		}
	}
}

package stores

import (
	"cmp"
	"slices"
	"sync"
)

// Stack is packs of one load standing on one another on a shelf. X runs along
// the shelf's width, Y from front to back.
type Stack struct {
	Load  int `json:"load"`  // index of the load
	Shelf int `json:"shelf"` // index of the shelf
	X     int `json:"x_mm"`
	Y     int `json:"y_mm"`
	Z     int `json:"z_mm"`     // foot above the board: 0, or the top of the stack that bears this one
	Width int `json:"width_mm"` // along X
	Depth int `json:"depth_mm"` // along Y
	Count int `json:"count"`    // packs in the stack
}

// Fit is an arrangement of loads on shelves, and what does not go on them.
type Fit struct {
	Stacks []Stack    `json:"stacks"`
	Places []Place    `json:"places"`   // which pack on which shelf, from the lowest shelf up
	Use    []ShelfUse `json:"shelves"`  // of each shelf
	Left   []LeftOver `json:"left"`     // what found no place
	Much   []TooMuch  `json:"too_much"` // why, as far as it is proven
}

// Place is how many packs of a load stand on a shelf.
type Place struct {
	Shelf string  `json:"shelf"`
	Pack  string  `json:"pack"`
	Name  string  `json:"name"`
	Count int     `json:"count"`
	Kg    float64 `json:"kg"`
}

// ShelfUse is what stands on one shelf.
type ShelfUse struct {
	Shelf   string  `json:"shelf"`
	Kg      float64 `json:"kg"`
	LoadKg  float64 `json:"load_kg"`
	BoxL    float64 `json:"box_l"`
	VolumeL float64 `json:"volume_l"`
}

// strip is a band of a board, across it or from front to back, in which stacks
// stand in a line.
type strip struct{ at, breadth, used int }

// policy is one way to build strips and to order loads; [FitShelves] tries all
// and keeps the best.
type policy struct {
	lanes    bool // strips run from front to back, so that the oldest pack can stand in front
	longSide bool // a new strip is as broad as the stack's long side
	order    order
}

// order is by what the loads of a class are sorted, the largest first.
type order int

const (
	byWeight  order = iota // of one pack
	byFoot                 // area on the board
	byBreadth              // shorter side
)

var policies = func() []policy {
	var all []policy
	for _, lanes := range []bool{true, false} {
		for _, o := range []order{byWeight, byFoot, byBreadth} {
			all = append(all, policy{lanes, false, o}, policy{lanes, true, o})
		}
	}
	return all
}()

// Limits of stacks, from packing.csv: common practice, no source.
var (
	stackMaxMM = sync.OnceValue(func() int { return int(packingFactor("can_stack_height_max_m").Value * mmPerM) })
	glassMaxMM = sync.OnceValue(func() int { return int(packingFactor("glass_height_max_m").Value * mmPerM) })
)

const mmPerM = 1000

// FitShelves puts the loads on the shelves, which are listed from the floor
// up: liquids first and lowest, then glass, then the rest, heavy packs before
// light ones, each on the lowest shelf with room. Boxes stay upright and may
// turn on their foot; a stack is at most 1 m high and holds as many tiers as
// the pack bears; what is left of a load when its full stacks stand may stand
// on a stack of heavier packs with a larger foot; no glass stands above 1.2 m.
//
// It is first-fit by strips (the level packing of E. G. Coffman et al., 1980,
// here on every board), tried in twelve fixed orders, the one that leaves the
// least volume over being kept. It may miss an arrangement that exists (with
// many unlike packs it fills some three fifths of the volume, where a patient
// person reaches more): what is left over is proven to be too much only where
// [TooMuch] says so. Every answer passes [CheckFit].
func FitShelves(shelves []Shelf, loads []Load) Fit {
	var best *arrangement
	for _, p := range policies {
		a := newArrangement(shelves, loads, p)
		a.place()
		if best == nil || a.better(best) {
			best = a
		}
	}
	return best.fit()
}

// arrangement is a fit in the making.
type arrangement struct {
	shelves []Shelf
	loads   []Load
	policy  policy
	strips  [][]strip // by shelf
	freeKg  []float64 // by shelf
	left    []int     // by load
	stacks  []Stack
	topped  []bool // by stack: another stands on it
}

func newArrangement(shelves []Shelf, loads []Load, p policy) *arrangement {
	a := &arrangement{shelves: shelves, loads: loads, policy: p}
	a.strips = make([][]strip, len(shelves))
	for _, s := range shelves {
		a.freeKg = append(a.freeKg, s.LoadKg)
	}
	for _, l := range loads {
		a.left = append(a.left, max(0, l.Count))
	}
	return a
}

// class orders loads from the floor up.
func (l *Load) class() int {
	switch {
	case l.Liquid:
		return 0
	case l.Glass:
		return 1
	}
	return 2
}

func (a *arrangement) place() {
	order := make([]int, len(a.loads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		x, y := &a.loads[i], &a.loads[j]
		size := cmp.Compare(y.Kg, x.Kg)
		switch a.policy.order {
		case byFoot:
			size = cmp.Compare(y.LengthMM*y.WidthMM, x.LengthMM*x.WidthMM)
		case byBreadth:
			size = cmp.Compare(min(y.LengthMM, y.WidthMM), min(x.LengthMM, x.WidthMM))
		}
		return cmp.Or(cmp.Compare(x.class(), y.class()), size, cmp.Compare(y.HeightMM, x.HeightMM), cmp.Compare(x.Key, y.Key))
	})
	for _, i := range order {
		for s := range a.shelves {
			for a.left[i] > 0 && a.putStack(i, s) {
			}
		}
	}
}

// tiersOn returns how many packs of a load one stack on a shelf may hold for
// its height and kind, load apart; 0 when not one.
func tiersOn(l *Load, s *Shelf) int {
	if l.HeightMM <= 0 || l.LengthMM <= 0 || l.WidthMM <= 0 {
		return 0
	}
	high := floorMM(s.HeightCm)
	if l.Glass {
		high = min(high, glassMaxMM()-ceilMM(s.AboveFloorCm*mmPerCm))
	}
	tiers := max(0, high) / l.HeightMM
	if tiers > 1 {
		tiers = max(1, min(tiers, stackMaxMM()/l.HeightMM))
	}
	if l.Tiers > 0 {
		tiers = min(tiers, l.Tiers)
	}
	return tiers
}

// putStack puts one stack of load i on shelf s and reports whether there was
// room.
func (a *arrangement) putStack(i, s int) bool {
	l, shelf := &a.loads[i], &a.shelves[s]
	tiers := tiersOn(l, shelf)
	count := min(a.left[i], tiers)
	if l.Kg > 0 && float64(count)*l.Kg > a.freeKg[s]+sameFigure {
		count = int((a.freeKg[s] + sameFigure) / l.Kg)
	}
	if count <= 0 {
		return false
	}
	if count < tiers && a.putOnTop(i, s, count) {
		return true
	}
	along, across := floorMM(shelf.DepthCm), floorMM(shelf.WidthCm) // a strip's length, and where strips lie
	if !a.policy.lanes {
		along, across = across, along
	}
	long, short := max(l.LengthMM, l.WidthMM), min(l.LengthMM, l.WidthMM)
	strips := a.strips[s]
	for k := range strips {
		for _, turn := range [][2]int{{long, short}, {short, long}} { // breadth in the strip, length along it
			if turn[0] <= strips[k].breadth && strips[k].used+turn[1] <= along {
				a.put(i, s, strips[k].at, strips[k].used, turn[0], turn[1], count)
				strips[k].used += turn[1]
				return true
			}
		}
	}
	at := 0
	if n := len(strips); n > 0 {
		at = strips[n-1].at + strips[n-1].breadth
	}
	turns := [][2]int{{short, long}, {long, short}}
	if a.policy.longSide {
		turns[0], turns[1] = turns[1], turns[0]
	}
	for _, turn := range turns {
		if at+turn[0] <= across && turn[1] <= along {
			a.put(i, s, at, 0, turn[0], turn[1], count)
			a.strips[s] = append(strips, strip{at: at, breadth: turn[0], used: turn[1]})
			return true
		}
	}
	return false
}

// bears reports whether packs of upper may stand on a stack of l: neither is
// liquid or glass or limited in tiers, and upper is no heavier.
func (l *Load) bears(upper *Load) bool {
	plain := func(l *Load) bool { return l.class() == 2 && l.Tiers == 0 }
	return plain(l) && plain(upper) && upper.Kg <= l.Kg
}

// putOnTop puts count packs of load i on the first stack of shelf s that bears
// them and has the height left, and reports whether there was one.
func (a *arrangement) putOnTop(i, s, count int) bool {
	l := &a.loads[i]
	high := min(floorMM(a.shelves[s].HeightCm), stackMaxMM())
	for k := range a.stacks {
		base := &a.stacks[k]
		top := base.Z + base.Count*a.loads[base.Load].HeightMM
		if base.Shelf != s || a.topped[k] || !a.loads[base.Load].bears(l) || top+count*l.HeightMM > high {
			continue
		}
		for _, turn := range [][2]int{{l.LengthMM, l.WidthMM}, {l.WidthMM, l.LengthMM}} {
			if turn[0] > base.Width || turn[1] > base.Depth {
				continue
			}
			a.topped[k] = true
			a.add(Stack{Load: i, Shelf: s, X: base.X, Y: base.Y, Z: top, Width: turn[0], Depth: turn[1], Count: count})
			return true
		}
	}
	return false
}

// put records a stack; at and breadth lie across the strips, from and length
// along them.
func (a *arrangement) put(i, s, at, from, breadth, length, count int) {
	st := Stack{Load: i, Shelf: s, X: at, Y: from, Width: breadth, Depth: length, Count: count}
	if !a.policy.lanes {
		st.X, st.Y, st.Width, st.Depth = from, at, length, breadth
	}
	a.add(st)
}

func (a *arrangement) add(st Stack) {
	a.stacks = append(a.stacks, st)
	a.topped = append(a.topped, false)
	a.left[st.Load] -= st.Count
	a.freeKg[st.Shelf] -= float64(st.Count) * a.loads[st.Load].Kg
}

// leftMM3 is the volume of what found no place, in mm³.
func (a *arrangement) leftMM3() int {
	sum := 0
	for i, n := range a.left {
		l := &a.loads[i]
		sum += n * l.LengthMM * l.WidthMM * l.HeightMM
	}
	return sum
}

// lift is the mass raised above the floor, in kg·mm: lower is safer.
func (a *arrangement) lift() float64 {
	sum := 0.0
	for _, st := range a.stacks {
		sum += float64(st.Count) * a.loads[st.Load].Kg * a.shelves[st.Shelf].AboveFloorCm * mmPerCm
	}
	return sum
}

func (a *arrangement) better(b *arrangement) bool {
	if x, y := a.leftMM3(), b.leftMM3(); x != y {
		return x < y
	}
	return a.lift() < b.lift()-sameFigure
}

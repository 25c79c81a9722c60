package stores

import "fmt"

// CheckFit recomputes an arrangement from the shelves, the loads and the
// positions of the stacks alone and returns every fault in plain words, none
// when it holds: each stack inside its board and under the clear height, on
// the board or wholly on a stack that bears it, no two in the same space, no
// more tiers than the pack bears, no glass too high, the load of every board,
// and every pack either placed or left over.
func CheckFit(shelves []Shelf, loads []Load, f Fit) []string {
	var faults []string
	fault := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }

	placed := make([]int, len(loads))
	for n, st := range f.Stacks {
		if st.Load < 0 || st.Load >= len(loads) || st.Shelf < 0 || st.Shelf >= len(shelves) {
			fault("stack %d: no such load or shelf", n)
			continue
		}
		l, s := loads[st.Load], shelves[st.Shelf]
		placed[st.Load] += st.Count
		if st.Count < 1 {
			fault("stack %d: %d packs", n, st.Count)
		}
		foot := st.Width == l.LengthMM && st.Depth == l.WidthMM || st.Width == l.WidthMM && st.Depth == l.LengthMM
		if !foot {
			fault("stack %d: its foot is %d × %d mm, the pack's %d × %d", n, st.Width, st.Depth, l.LengthMM, l.WidthMM)
		}
		right, back := float64(st.X+st.Width)/mmPerCm, float64(st.Y+st.Depth)/mmPerCm
		if st.X < 0 || st.Y < 0 || right > s.WidthCm+sameFigure || back > s.DepthCm+sameFigure {
			fault("stack %d: stands over the edge of %s", n, s.Name)
		}
		height := float64(st.Z+st.Count*l.HeightMM) / mmPerCm
		if st.Z != 0 && !supported(n, loads, f) {
			fault("stack %d: nothing bears it", n)
		}
		if height > s.HeightCm+sameFigure {
			fault("stack %d: %.1f cm high under %.1f cm on %s", n, height, s.HeightCm, s.Name)
		}
		if (st.Count > 1 || st.Z > 0) && height > packingFactor("can_stack_height_max_m").Value*100+sameFigure {
			fault("stack %d: %.1f cm high, over the highest stack", n, height)
		}
		if l.Tiers > 0 && st.Count > l.Tiers {
			fault("stack %d: %d of %s on one another, which bears %d", n, st.Count, l.Key, l.Tiers)
		}
		if l.Glass && s.AboveFloorCm+height > packingFactor("glass_height_max_m").Value*100+sameFigure {
			fault("stack %d: glass at %.1f cm above the floor", n, s.AboveFloorCm+height)
		}
		for m, other := range f.Stacks[:n] {
			apart := other.Shelf != st.Shelf ||
				other.X+other.Width <= st.X || st.X+st.Width <= other.X ||
				other.Y+other.Depth <= st.Y || st.Y+st.Depth <= other.Y ||
				topOf(other, loads) <= st.Z || topOf(st, loads) <= other.Z
			if !apart {
				fault("stacks %d and %d stand in the same space of %s", m, n, s.Name)
			}
		}
	}
	for i, s := range shelves {
		kg := 0.0
		for _, st := range f.Stacks {
			if st.Shelf == i && st.Load >= 0 && st.Load < len(loads) {
				kg += float64(st.Count) * loads[st.Load].Kg
			}
		}
		if kg > s.LoadKg+loadSlackKg {
			fault("%s bears %g kg and holds %g", s.Name, s.LoadKg, kg)
		}
	}
	left := map[string]int{}
	for _, l := range f.Left {
		left[l.Pack] += l.Count
	}
	asked := map[string]int{}
	for i, l := range loads {
		asked[l.Key] += l.Count
		left[l.Key] += placed[i]
	}
	for _, l := range loads {
		if asked[l.Key] != left[l.Key] {
			fault("%s: %d packs, of which %d are placed or left over", l.Key, asked[l.Key], left[l.Key])
			delete(asked, l.Key)
			delete(left, l.Key)
		}
	}
	return faults
}

// topOf is the height of a stack's top above the board in mm.
func topOf(st Stack, loads []Load) int {
	if st.Load < 0 || st.Load >= len(loads) {
		return st.Z
	}
	return st.Z + st.Count*loads[st.Load].HeightMM
}

// supported reports whether stack n stands wholly on another that ends where
// it begins, is neither glass nor liquid nor limited in tiers, as it is not
// itself, and holds packs at least as heavy.
func supported(n int, loads []Load, f Fit) bool {
	up := f.Stacks[n]
	upper := loads[up.Load]
	for _, base := range f.Stacks {
		if base.Shelf != up.Shelf || base.Load < 0 || base.Load >= len(loads) || topOf(base, loads) != up.Z {
			continue
		}
		lower := loads[base.Load]
		inside := base.X <= up.X && up.X+up.Width <= base.X+base.Width && base.Y <= up.Y && up.Y+up.Depth <= base.Y+base.Depth
		soft := lower.Liquid || lower.Glass || lower.Tiers > 0 || upper.Liquid || upper.Glass || upper.Tiers > 0
		if inside && !soft && lower.Kg >= upper.Kg {
			return true
		}
	}
	return false
}

// loadSlackKg is the error of summing a board's packs one by one, in kg.
const loadSlackKg = 1e-6

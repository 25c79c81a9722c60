package swap

import (
	"cmp"
	"math"
	"slices"

	"rationwright/solver/ration"
)

// rankNeeds orders changes of what people get, what matters most first: what ends
// below its floor, the shortest first; what falls by [fallShown] or more, by how
// much of the way to its floor it falls; the rest by how much it changes in relation
// to what it was. A large gain cannot hide a loss.
func rankNeeds(list []NeedChange) {
	slices.SortStableFunc(list, func(a, b NeedChange) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(b.weight(), a.weight()), cmp.Compare(b.relative(), a.relative()))
	})
}

// fallShown is how much less of a nutrient, relative to what it was, counts as a
// fall towards its floor: less than that is the play of whole packs.
const fallShown = 0.05

// Ranks of a change.
const (
	changeShort = iota // ends below its floor
	changeFalls        // falls towards its floor
	changeOther
)

// Short reports whether less is got after the change than the floor asks for.
func (n NeedChange) Short() bool {
	return n.Floor != nil && n.After < *n.Floor-ration.CheckTolerance*math.Max(1, *n.Floor)
}

func (n NeedChange) rank() int {
	switch {
	case n.Short():
		return changeShort
	case n.Floor != nil && *n.Floor > 0 && n.After < n.Before*(1-fallShown):
		return changeFalls
	default:
		return changeOther
	}
}

// weight orders changes of the same rank, the largest first. All that fall to
// their floors weigh the same whatever the last digits of the arithmetic.
func (n NeedChange) weight() float64 {
	switch n.rank() {
	case changeShort:
		return 1 - n.After / *n.Floor
	case changeFalls:
		way := (n.Before - n.After) / (n.Before - *n.Floor) // above 0, since it ends at its floor or over it
		if way > 1-ration.CheckTolerance {
			return 1
		}
		return way
	default:
		return 0
	}
}

// relative is how much a need changed in relation to what it was.
func (n NeedChange) relative() float64 {
	return math.Abs(n.After-n.Before) / math.Max(math.Abs(n.Before), 1e-9)
}

// shorter reports whether the changed plan leaves someone short of what the old
// one did not, or shorter than it did.
func shorter(old, changed *ration.Plan) bool {
	return slices.ContainsFunc(changed.Shortfalls, func(s ration.Shortfall) bool {
		return !slices.ContainsFunc(old.Shortfalls, func(o ration.Shortfall) bool {
			return o.Person == s.Person && o.Nutrient == s.Nutrient && s.Amount >= o.Amount-ration.CheckTolerance*math.Max(1, o.Amount)
		})
	})
}

package conflict

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// conflictLimit is one thing that may stand in a conflict: one or both sides of
// a row of the model, or an exclusion.
type conflictLimit struct {
	row          int // of the request's own model, -1 for an exclusion
	lower, upper bool
	exclusion    int // index, -1 for a row
}

// conflictSet is a set of limits that cannot all be kept, with everything
// structural.
type conflictSet struct {
	limits []conflictLimit
	proven bool // irreducible: without any one of its members there is a ration

	grouped bool // a need of several people is one member, see [conflictFinder.members]
}

func (l conflictLimit) isExclusion() bool { return l.row < 0 }

// exclusions are those in the set, each a member by itself.
func (s *conflictSet) exclusions() [][]conflictLimit {
	return singly(slices.DeleteFunc(slices.Clone(s.limits), func(l conflictLimit) bool { return !l.isExclusion() }))
}

// holds reports whether a row is in the set.
func (s *conflictSet) holds(row int) bool {
	return slices.ContainsFunc(s.limits, func(l conflictLimit) bool { return l.row == row })
}

// Finder looks for irreducible sets of limits that cannot all be kept,
// by a deletion filter: each limit is left out in turn and stays out while the
// rest still conflicts. What is left is irreducible, because leaving out more
// limits never makes fewer rations possible:
//
//   - a row that is given up is free;
//   - an exclusion that is given up brings columns in, and rows on them alone. A
//     floor that comes back with its foods, such as one of the daily pattern, is
//     no part of the request's own limits and stays free; ceilings come with their
//     foods.
//
// The arithmetic of packs, water and heat is always kept, as are the ages,
// allergies and conditions that decide who may eat what.
type Finder struct {
	base       *model.Model
	exclusions []exclusion
	rows       map[string]int          // row of base by name
	built      map[string]*model.Model // models by what is lifted
	strict     bool                    // vitamins that the body stores are not given up
}

func newFinder(m *model.Model) *Finder {
	f := &Finder{base: m, exclusions: exclusionsOf(m.Request), rows: map[string]int{}, built: map[string]*model.Model{}}
	for i, row := range m.Problem.Rows {
		if _, twice := f.rows[row.Name]; !twice {
			f.rows[row.Name] = i
		}
	}
	return f
}

// everything lists all that may stand in a conflict, in the order in which the
// filter tries to leave it out: needs first, then safety rows, then the user's
// own limits and exclusions, so that what the user can change is what remains.
// Floors of the vitamins that the body stores are there only where the finder is
// strict: a plan gives them up by itself.
func (f *Finder) everything() []conflictLimit {
	var list []conflictLimit
	for _, c := range []model.Class{model.Requirement, model.Safety, model.UserLimit} {
		for i, info := range f.base.Rows {
			if info.Class != c {
				continue
			}
			row := f.base.Problem.Rows[i]
			hasLower, hasUpper := !math.IsInf(row.Lower, -1) && (f.strict || !info.Stored()), !math.IsInf(row.Upper, 1)
			if info.Kind == model.RowFeed || info.Kind == model.RowKeep { // one amount: both sides or none
				list = append(list, conflictLimit{row: i, lower: true, upper: true, exclusion: -1})
				continue
			}
			if hasLower {
				list = append(list, conflictLimit{row: i, lower: true, exclusion: -1})
			}
			if hasUpper {
				list = append(list, conflictLimit{row: i, upper: true, exclusion: -1})
			}
		}
	}
	for k := range f.exclusions {
		list = append(list, conflictLimit{row: -1, exclusion: k})
	}
	return list
}

// program is the model with only the kept limits in force.
func (f *Finder) program(kept []conflictLimit) (*model.Model, *linear.Problem, error) {
	inForce := make([]bool, len(f.exclusions))
	lower, upper := map[int]bool{}, map[int]bool{}
	for _, l := range kept {
		if l.row < 0 {
			inForce[l.exclusion] = true
			continue
		}
		lower[l.row] = lower[l.row] || l.lower
		upper[l.row] = upper[l.row] || l.upper
	}
	m, err := f.lifted(inForce)
	if err != nil {
		return nil, nil, err
	}
	p := m.Problem.Clone()
	p.ClearCosts()
	for i := range p.Rows {
		if m.Rows[i].Class == model.Structural {
			continue
		}
		row := &p.Rows[i]
		row.Lazy = false
		at, own := f.rows[row.Name]
		switch {
		case own && !lower[at]:
			row.Lower = math.Inf(-1)
		case !own && m.Rows[i].Class == model.Requirement:
			row.Lower = math.Inf(-1)
		}
		if own && !upper[at] {
			row.Upper = math.Inf(1)
		}
	}
	return m, p, nil
}

// lifted builds the model with only some exclusions in force, each only once.
func (f *Finder) lifted(inForce []bool) (*model.Model, error) {
	key := make([]byte, len(inForce))
	var out []exclusion
	for k, in := range inForce {
		key[k] = '1'
		if !in {
			key[k] = '0'
			out = append(out, f.exclusions[k])
		}
	}
	if len(out) == 0 {
		return f.base, nil
	}
	if m := f.built[string(key)]; m != nil {
		return m, nil
	}
	m, err := buildLifted(f.base.Request, out)
	if err == nil {
		f.built[string(key)] = m
	}
	return m, err
}

// find returns an irreducible conflict; ok is false where it could not even be
// decided that there is one. It filters the relaxation when that conflicts
// already, which settles all but totals of whole packs, then with whole packs.
// What the time does not allow to be tested stays in, and the set unproven.
func (f *Finder) find(ctx context.Context) (set conflictSet, ok bool) {
	set = conflictSet{limits: f.everything(), proven: true}
	relaxed, ok := f.relaxedFilter(ctx, &set)
	if !ok {
		return conflictSet{}, false
	}
	if relaxed && f.tooLong(set) {
		if grouped, ok := f.findGrouped(ctx); ok {
			return grouped, true
		}
	}
	if !relaxed && f.verdict(ctx, set.limits) != stillConflicts {
		return conflictSet{}, false
	}
	if !relaxed {
		set.grouped = len(f.base.Eaters) > 1
		f.filter(ctx, &set, f.members(set))
		return set, true
	}
	limits := f.base.PackLimits(f.base.Problem)
	rows := slices.DeleteFunc(slices.Clone(set.limits), conflictLimit.isExclusion)
	f.filter(ctx, &set, set.exclusions())
	// The relaxation has a point without any one row; whole packs have one too
	// where no limit on them is left in force.
	rows = slices.DeleteFunc(rows, func(l conflictLimit) bool {
		return !slices.ContainsFunc(limits, func(i int) bool {
			return i != l.row && (f.base.Rows[i].Class == model.Structural || set.holds(i))
		})
	})
	if len(rows) > 0 {
		f.filterRows(ctx, &set, rows)
	}
	if !set.proven {
		if grouped, ok := f.findGrouped(ctx); ok && grouped.proven {
			return grouped, true
		}
	}
	return set, true
}

// relaxedFilter narrows set to a conflict of the relaxation that needs each of its
// members, exclusions apart; conflicts is false when the relaxation is feasible, and
// ok is false when it could not be decided.
//
// Rows outside a proof of infeasibility (a Farkas ray) go all at once: J. W.
// Chinneck, E. W. Dravnieks, "Locating minimal infeasible constraint sets in
// linear programs", ORSA Journal on Computing 3 (1991): deletion filter with a
// sensitivity filter.
func (f *Finder) relaxedFilter(ctx context.Context, set *conflictSet) (conflicts, ok bool) {
	_, p, err := f.program(set.limits)
	if err != nil {
		return false, false
	}
	x, err := search.Relax(p)
	if err != nil {
		return false, false
	}
	result := x.Solve(ctx)
	switch result.Status {
	case simplex.Infeasible:
	case simplex.Optimal, simplex.Unbounded:
		return false, true
	default:
		return false, false
	}
	var exclusions []conflictLimit
	var in [][]conflictLimit
	for _, member := range f.members(*set) {
		if member[0].row < 0 {
			exclusions = append(exclusions, member...)
		} else {
			in = append(in, member)
		}
	}
	setAll := func(member []conflictLimit, inForce bool) {
		for _, l := range member {
			setSides(x, l, p.Rows[l.row], inForce)
		}
	}
	// outside drops the members that a proof does not lean on.
	outside := func(members [][]conflictLimit, ray []float64) [][]conflictLimit {
		if ray == nil {
			return members
		}
		var left [][]conflictLimit
		for _, member := range members {
			if f.carried(member, ray) > 0 {
				left = append(left, member)
			} else {
				setAll(member, false)
			}
		}
		return left
	}
	in = outside(in, result.Ray)
	if ray := result.Ray; ray != nil { // needs that carry little of the proof are tried first
		isNeed := func(m []conflictLimit) bool {
			info := f.base.Rows[m[0].row]
			return info.Class == model.Requirement && !info.Ordered
		}
		slices.SortStableFunc(in, func(a, b []conflictLimit) int {
			switch {
			case isNeed(a) && isNeed(b):
				return cmp.Compare(f.carried(a, ray), f.carried(b, ray))
			case isNeed(a):
				return -1
			case isNeed(b):
				return 1
			}
			return 0
		})
	}
	for k := 0; k < len(in); {
		setAll(in[k], false)
		switch result := x.Solve(ctx); result.Status {
		case simplex.Infeasible:
			in = append(in[:k:k], outside(in[k+1:], result.Ray)...)
			continue
		case simplex.Optimal, simplex.Unbounded:
		default:
			set.proven = false
		}
		setAll(in[k], true)
		k++
	}
	set.limits = append(slices.Concat(in...), exclusions...)
	return true, true
}

// carried is how much of a proof of infeasibility leans on a member.
func (f *Finder) carried(member []conflictLimit, ray []float64) float64 {
	total := 0.0
	for _, l := range member {
		row := f.base.Problem.Rows[l.row]
		switch {
		case l.lower && ray[l.row] > 0:
			total += math.Max(math.Abs(ray[l.row]*row.Lower), math.SmallestNonzeroFloat64)
		case l.upper && ray[l.row] < 0:
			total += math.Max(math.Abs(ray[l.row]*row.Upper), math.SmallestNonzeroFloat64)
		}
	}
	return total
}

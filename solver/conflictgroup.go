package solver

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/solver/simplex"
)

// mostSingle is how many needs a conflict names person by person. In a longer one
// each person's own share of a need weighs so little that nobody could read it,
// and that whole packs hide it: there a need of several people is one member.
const mostSingle = 6

// members are the parts of the set each of which it needs: single limits, or all
// of one need.
func (f *conflictFinder) members(set conflictSet) [][]conflictLimit {
	if !set.grouped {
		var single [][]conflictLimit
		for _, l := range set.limits {
			single = append(single, []conflictLimit{l})
		}
		return single
	}
	return f.byNeed(set.limits)
}

// byNeed gathers the sides of rows that ask the same of several people.
func (f *conflictFinder) byNeed(limits []conflictLimit) [][]conflictLimit {
	var members [][]conflictLimit
	at := map[string]int{}
	for _, l := range limits {
		if l.row < 0 || f.base.rows[l.row].class != requirement || f.base.rows[l.row].eater < 0 || f.base.rows[l.row].kind == rowUser {
			members = append(members, []conflictLimit{l})
			continue
		}
		info := f.base.rows[l.row]
		key := fmt.Sprint(info.kind, info.text, info.unit, l.lower, l.upper)
		k, ok := at[key]
		if !ok {
			k = len(members)
			at[key] = k
			members = append(members, nil)
		}
		members[k] = append(members[k], l)
	}
	return members
}

// tooLong reports whether a set names more needs than can be read.
func (f *conflictFinder) tooLong(set conflictSet) bool {
	needs := 0
	for _, l := range set.limits {
		if l.row >= 0 && f.base.rows[l.row].class == requirement {
			needs++
		}
	}
	return needs > mostSingle && len(f.byNeed(set.limits)) < len(set.limits)
}

// findGrouped returns a conflict whose members are whole needs, of everyone who
// has them. It is irreducible member by member.
func (f *conflictFinder) findGrouped(ctx context.Context) (set conflictSet, ok bool) {
	set = conflictSet{limits: f.everything(), proven: true, grouped: true}
	if !f.relaxedGroups(ctx, &set) {
		return set, false
	}
	var exclusions []conflictLimit
	for _, l := range set.limits {
		if l.row < 0 {
			exclusions = append(exclusions, l)
		}
	}
	f.filter(ctx, &set, exclusions)
	for _, member := range f.members(set) {
		if member[0].row < 0 {
			continue
		}
		rest := slices.DeleteFunc(slices.Clone(set.limits), func(l conflictLimit) bool { return slices.Contains(member, l) })
		switch f.verdict(ctx, rest) {
		case stillConflicts:
			set.limits = rest
		case undecided:
			set.proven = false
		}
	}
	return set, true
}

// filterNeeds makes a set of several people irreducible need by need, where only
// whole packs conflict: the members are left out in halves.
func (f *conflictFinder) filterNeeds(ctx context.Context, set conflictSet) conflictSet {
	set.grouped = true
	kept := set.limits
	var try func(part [][]conflictLimit)
	try = func(part [][]conflictLimit) {
		out := slices.Concat(part...)
		rest := slices.DeleteFunc(slices.Clone(kept), func(l conflictLimit) bool { return slices.Contains(out, l) })
		verdict := f.verdict(ctx, rest)
		switch {
		case verdict == stillConflicts:
			kept = rest
		case len(part) == 1:
			set.proven = set.proven && verdict == fits
		default:
			half := len(part) / 2
			try(part[:half])
			try(part[half:])
		}
	}
	try(f.members(set))
	set.limits = kept
	return set
}

// relaxedGroups narrows set to a conflict of the relaxation that needs each of its
// members, exclusions apart; false where it cannot be decided that there is one.
func (f *conflictFinder) relaxedGroups(ctx context.Context, set *conflictSet) bool {
	_, p, err := f.program(set.limits)
	if err != nil {
		return false
	}
	x, err := relax(p)
	if err != nil {
		return false
	}
	result := x.solve(ctx)
	if result.Status != simplex.Infeasible {
		return false
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
			x.setSides(l, p.Rows[l.row], inForce)
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
		isNeed := func(m []conflictLimit) bool { return f.base.rows[m[0].row].class == requirement }
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
		switch result := x.solve(ctx); result.Status {
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
	return true
}

// carried is how much of a proof of infeasibility leans on a member.
func (f *conflictFinder) carried(member []conflictLimit, ray []float64) float64 {
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

// needInWords names a need of several people.
func (f *conflictFinder) needInWords(member []conflictLimit) ConflictLimit {
	info := f.base.rows[member[0].row]
	low, high := math.Inf(1), math.Inf(-1)
	var who []string
	for _, l := range member {
		row := f.base.Problem.Rows[l.row]
		amount := row.Lower
		if l.upper {
			amount = row.Upper
		}
		low, high = math.Min(low, amount/info.perDay), math.Max(high, amount/info.perDay)
		if name := f.base.eaters[f.base.rows[l.row].eater].person.Name; !slices.Contains(who, name) {
			who = append(who, name)
		}
	}
	side := "at least"
	if member[0].upper {
		side = "at most"
	}
	amount := fmt.Sprintf("%.4g", low)
	if high > low*(1+1e-9) {
		amount += fmt.Sprintf(" to %.4g", high)
	}
	people := "everyone"
	if len(who) < len(f.base.eaters) {
		people = strings.Join(who, ", ")
	}
	if info.kind == rowShare || info.kind == rowGlycaemic {
		return ConflictLimit{Limit: info.text + ", for " + people}
	}
	return ConflictLimit{Limit: fmt.Sprintf("%s %s %s %s a day, for %s", info.text, side, amount, info.unit, people)}
}

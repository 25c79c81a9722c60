package conflict

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// mostSingle is how many needs a conflict names person by person. In a longer one
// each person's own share of a need weighs so little that nobody could read it,
// and that whole packs hide it: there a need of several people is one member.
const mostSingle = 6

// members are the parts of the set each of which it needs: single limits, or all
// of one need.
func (f *Finder) members(set conflictSet) [][]conflictLimit {
	if set.grouped {
		return f.byNeed(set.limits)
	}
	return singly(set.limits)
}

// singly makes each limit a member by itself.
func singly(limits []conflictLimit) [][]conflictLimit {
	members := make([][]conflictLimit, len(limits))
	for k, l := range limits {
		members[k] = []conflictLimit{l}
	}
	return members
}

// byNeed gathers the sides of rows that ask the same of several people.
func (f *Finder) byNeed(limits []conflictLimit) [][]conflictLimit {
	var members [][]conflictLimit
	at := map[string]int{}
	for _, l := range limits {
		if l.row < 0 || f.base.Rows[l.row].Class != model.Requirement || f.base.Rows[l.row].Eater < 0 || f.base.Rows[l.row].Kind == model.RowUser {
			members = append(members, []conflictLimit{l})
			continue
		}
		info := f.base.Rows[l.row]
		key := fmt.Sprint(info.Kind, info.Text, info.Unit, l.lower, l.upper)
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
func (f *Finder) tooLong(set conflictSet) bool {
	needs := 0
	for _, l := range set.limits {
		if l.row >= 0 && f.base.Rows[l.row].Class == model.Requirement {
			needs++
		}
	}
	return needs > mostSingle && len(f.byNeed(set.limits)) < len(set.limits)
}

// findGrouped returns a conflict whose members are whole needs, of everyone who
// has them. It is irreducible member by member.
func (f *Finder) findGrouped(ctx context.Context) (set conflictSet, ok bool) {
	set = conflictSet{limits: f.everything(), proven: true, grouped: true}
	if conflicts, ok := f.relaxedFilter(ctx, &set); !conflicts || !ok {
		return set, false
	}
	f.filter(ctx, &set, set.exclusions())
	for _, member := range f.members(set) {
		if member[0].row >= 0 {
			f.filter(ctx, &set, [][]conflictLimit{member})
		}
	}
	return set, true
}

// needInWords names a need of several people.
func (f *Finder) needInWords(member []conflictLimit) ration.ConflictLimit {
	info := f.base.Rows[member[0].row]
	low, high := math.Inf(1), math.Inf(-1)
	var who []string
	for _, l := range member {
		row := f.base.Problem.Rows[l.row]
		amount := row.Lower
		if l.upper {
			amount = row.Upper
		}
		low, high = math.Min(low, amount/info.PerDay), math.Max(high, amount/info.PerDay)
		if name := f.base.Eaters[f.base.Rows[l.row].Eater].Person.Name; !slices.Contains(who, name) {
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
	if len(who) < len(f.base.Eaters) {
		people = strings.Join(who, ", ")
	}
	if info.Kind == model.RowShare || info.Kind == model.RowGlycaemic {
		return ration.ConflictLimit{Limit: info.Text + ", for " + people}
	}
	return ration.ConflictLimit{Limit: fmt.Sprintf("%s %s %s %s a day, for %s", info.Text, side, amount, info.Unit, people)}
}

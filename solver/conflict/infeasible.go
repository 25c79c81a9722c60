package conflict

import (
	"context"
	"fmt"
	"slices"

	"rationwright/foods"
	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// Explain says why nothing fits: the limits in conflict, the ration
// that comes closest, and ways out that were tried. The claim itself rests on a
// verified ray of the relaxation, on a limit that lies under the proven bound on
// what it limits, or on the elastic program's proven lower bound; without one of
// them the answer is [ErrNoPlan]. Where it cannot be settled whether less
// of the vitamins that the body stores would do, the claim is about the request as
// it stands, and a note says so.
//
// found is what the search came to.
func Explain(ctx context.Context, m *model.Model, searched search.Found) (*ration.Plan, error) {
	finder := newFinder(m)
	var (
		set   conflictSet
		found bool
		near  []float64
	)
	find := func() {
		ctx, stop := search.Part(ctx, search.ConflictPart)
		defer stop()
		set, found = finder.find(ctx)
	}
	find()
	unsettled := false
	if !found && !search.WithPart(ctx, search.ProvenPart, func(ctx context.Context) bool { return elastic.Impossible(ctx, m) }) {
		finder.strict, unsettled = true, true
		find()
	}
	if unsettled && !found && !searched.Empty {
		return nil, fmt.Errorf("%w: no ration was found, and none was proven impossible%s", ration.ErrNoPlan, searched.NearMiss)
	}
	if !found {
		set = conflictSet{limits: finder.everything()}
		set.limits = slices.DeleteFunc(set.limits, func(l conflictLimit) bool {
			return l.row >= 0 && m.Rows[l.row].Class != model.UserLimit
		})
	}
	p := answer.EmptyPlan(m)
	p.Status = ration.StatusInfeasible
	p.Conflict = finder.inWords(set)
	if !found {
		p.Conflict = append([]ration.ConflictLimit{finder.allNeeds()}, p.Conflict...)
	}
	p.Proven = &set.proven
	if m.Request.Terse {
		return answer.Complete(m, p), nil
	}
	var ways []ration.WayOut
	timed, stop := search.Part(ctx, search.NearestPart)
	search.Parallel(2, func(k int) {
		if k == 0 {
			near = elastic.Closest(timed, m, elastic.IsNeed)
			return
		}
		ways = finder.waysOut(timed, set)
	})
	stop()
	if near != nil {
		p.Closest = elastic.WriteClosest(m, near)
		if have := m.Request.Limits.WaterL; have != nil {
			if short := rules.WaterShort(m.Request, p.Closest.People, *have); short.MissingL > 0 {
				p.WaterShort = &short
			}
		}
	} else {
		p.Notes = append(p.Notes, whyNoneComesClose(ctx, m))
	}
	p.WaysOut = ways
	for _, l := range set.limits {
		if l.row >= 0 && m.Rows[l.row].Kind == model.RowFeed && !finder.rowHasColumns(l.row) {
			p.Notes = append(p.Notes, m.Eaters[m.Rows[l.row].Eater].Person.Name+
				" has no milk to drink in this: a baby without a feed cannot wait. Ask a clinician or the local health service now (common practice, no source).")
		}
	}
	if unsettled {
		p.Notes = append(p.Notes, "Whether a ration with less of vitamins A, D and B12, which the body stores, would keep the limits was not settled in the time.")
	}
	return answer.Complete(m, p), nil
}

// whyNoneComesClose says why there is no closest ration.
func whyNoneComesClose(ctx context.Context, m *model.Model) string {
	if fits, err := search.Feasible(ctx, m, elastic.New(m, elastic.IsNeed, true).Problem); err == nil && !fits {
		return "No ration comes close: what is never given up (the least to drink, an infant's milk, your own rules) goes beyond the limits by itself."
	}
	return "The ration that comes closest was not found in the time."
}

// inWords names limits for people, each once.
func (f *Finder) inWords(set conflictSet) []ration.ConflictLimit {
	var list []ration.ConflictLimit
	members := f.members(set)
	needs := func(m []conflictLimit) bool { return m[0].row >= 0 && f.base.Rows[m[0].row].Class != model.UserLimit }
	if !set.proven && len(members) > mostNamed { // what could not be told apart
		members = slices.DeleteFunc(members, needs)
		list = append(list, f.allNeeds())
	}
	for _, member := range members {
		words := f.words(member[0])
		if len(member) > 1 {
			words = f.needInWords(member)
		}
		for _, words := range append([]ration.ConflictLimit{words}, f.barred(member[0])...) {
			if !slices.Contains(list, words) {
				list = append(list, words)
			}
		}
	}
	return list
}

// allNeeds stands for the needs of everyone together.
func (f *Finder) allNeeds() ration.ConflictLimit {
	return ration.ConflictLimit{Limit: "what everyone needs, by the standard " + string(f.base.Request.Standard)}
}

// mostNamed is how many members of a set that could not be narrowed are named one
// by one.
const mostNamed = 16

// barred says which safety rules keep a person from all the food that a member of a
// conflict asks for: they are never given up, so that the model holds no row of
// them.
func (f *Finder) barred(l conflictLimit) []ration.ConflictLimit {
	if l.row < 0 || !l.lower || f.rowHasColumns(l.row) {
		return nil
	}
	info := f.base.Rows[l.row]
	var asked []*foods.Food
	switch info.Kind {
	case model.RowFeed:
		for _, food := range f.base.Request.Table.Foods {
			if food.HasTag(foods.TagInfantFormula) && info.Of == foods.TagInfantFormula {
				asked = append(asked, food)
			}
		}
	case model.RowUser:
		for _, w := range f.base.Eaters[info.Eater].Wishes.Least {
			if info.Of == w.Text {
				asked = append(asked, w.Foods...)
			}
		}
	}
	var list []ration.ConflictLimit
	for _, food := range asked { // a row of nobody, such as one of packs to be kept, asks for none
		e := f.base.Eaters[info.Eater]
		if ok, why := foods.Eligible(e.Person, f.base.Request.People, food); !ok {
			list = append(list, ration.ConflictLimit{Limit: "safety rule: " + why.Text, Person: e.Person.Name})
		}
	}
	return list
}

func (f *Finder) rowHasColumns(row int) bool {
	for j := range f.base.Problem.Cols {
		for _, e := range f.base.Problem.Cols[j].Entries {
			if e.Row == row && f.base.Problem.Cols[j].Upper > 0 {
				return true
			}
		}
	}
	return false
}

func (f *Finder) words(l conflictLimit) ration.ConflictLimit {
	if l.row < 0 {
		e := f.exclusions[l.exclusion]
		out := ration.ConflictLimit{Limit: e.text}
		if e.person >= 0 {
			out.Person = f.base.Request.People[e.person].Name
		}
		return out
	}
	out := ration.ConflictLimit{Limit: limitText(f.base, l)}
	if e := f.base.Rows[l.row].Eater; e >= 0 {
		out.Person = f.base.Eaters[e].Person.Name
	}
	return out
}

// limitText names the sides of one row with their amount, in plain words.
func limitText(m *model.Model, l conflictLimit) string {
	info, row := m.Rows[l.row], m.Problem.Rows[l.row]
	switch info.Kind {
	case model.RowUser, model.RowShare, model.RowKeep, model.RowGlycaemic:
		return info.Text
	case model.RowReserve:
		return fmt.Sprintf("%s, %.4g %s", info.Text, row.Lower, info.Unit)
	}
	unit := info.Unit
	if info.PerDay > 1 || info.Eater >= 0 {
		unit += " a day"
	}
	switch {
	case l.lower && l.upper:
		return fmt.Sprintf("%s %.4g %s", info.Text, row.Lower/info.PerDay, unit)
	case l.lower:
		return fmt.Sprintf("%s at least %.4g %s", info.Text, row.Lower/info.PerDay, unit)
	default:
		return fmt.Sprintf("%s at most %.4g %s", info.Text, row.Upper/info.PerDay, unit)
	}
}

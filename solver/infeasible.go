package solver

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// explainInfeasible says why nothing fits: the limits in conflict, the ration
// that comes closest, and ways out that were tried. The claim itself rests on a
// verified ray of the relaxation, on a limit that lies under the proven bound on
// what it limits, or on the elastic program's proven lower bound; without one of
// them the answer is [ErrNoPlan]. Where it cannot be settled whether less
// of the vitamins that the body stores would do, the claim is about the request as
// it stands, and a note says so.
func (r *Ration) explainInfeasible(ctx context.Context) (*ration.Plan, error) {
	within := func(do func(context.Context)) {
		ctx, cancel := context.WithTimeout(ctx, r.Request.Time)
		defer cancel()
		do(ctx)
	}
	finder := newConflictFinder(r)
	var (
		set   conflictSet
		found bool
		near  []float64
	)
	within(func(ctx context.Context) { set, found = finder.find(ctx) })
	unsettled := false
	if !found && !r.impossible(ctx) {
		finder.strict, unsettled = true, true
		within(func(ctx context.Context) { set, found = finder.find(ctx) })
	}
	if unsettled && !found && !r.provenEmpty {
		return nil, fmt.Errorf("%w: no ration was found, and none was proven impossible%s", ration.ErrNoPlan, r.nearMiss)
	}
	if !found {
		set = conflictSet{limits: finder.everything()}
		set.limits = slices.DeleteFunc(set.limits, func(l conflictLimit) bool {
			return l.row >= 0 && r.rows[l.row].class != limit
		})
	}
	var ways []ration.WayOut
	together(2, func(k int) {
		if k == 0 {
			within(func(ctx context.Context) { near = r.closest(ctx, isNeed) })
			return
		}
		within(func(ctx context.Context) { ways = finder.waysOut(ctx, set) })
	})
	p := r.emptyPlan()
	p.Status = ration.StatusInfeasible
	p.Conflict = finder.inWords(set)
	if !found {
		p.Conflict = append([]ration.ConflictLimit{finder.allNeeds()}, p.Conflict...)
	}
	p.Proven = &set.proven
	if near != nil {
		p.Closest = r.closestRation(near)
	} else {
		p.Notes = append(p.Notes, r.whyNoneComesClose(ctx))
	}
	p.WaysOut = ways
	for _, l := range set.limits {
		if l.row >= 0 && r.rows[l.row].kind == rowFeed && !finder.rowHasColumns(l.row) {
			p.Notes = append(p.Notes, r.eaters[r.rows[l.row].eater].person.Name+
				" has no milk to drink in this: a baby without a feed cannot wait. Ask a clinician or the local health service now (common practice, no source).")
		}
	}
	if unsettled {
		p.Notes = append(p.Notes, "Whether a ration with less of vitamins A, D and B12, which the body stores, would keep the limits was not settled in the time.")
	}
	return r.complete(p), nil
}

// whyNoneComesClose says why there is no closest ration.
func (r *Ration) whyNoneComesClose(ctx context.Context) string {
	if fits, err := r.feasible(ctx, r.soften(isNeed, true).problem); err == nil && !fits {
		return "No ration comes close: what is never given up (the least to drink, an infant's milk, your own rules) goes beyond the limits by itself."
	}
	return "The ration that comes closest was not found in the time."
}

// inWords names limits for people, each once.
func (f *conflictFinder) inWords(set conflictSet) []ration.ConflictLimit {
	var list []ration.ConflictLimit
	members := f.members(set)
	needs := func(m []conflictLimit) bool { return m[0].row >= 0 && f.base.rows[m[0].row].class != limit }
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
func (f *conflictFinder) allNeeds() ration.ConflictLimit {
	return ration.ConflictLimit{Limit: "what everyone needs, by the standard " + string(f.base.Request.Standard)}
}

// mostNamed is how many members of a set that could not be narrowed are named one
// by one.
const mostNamed = 16

// barred says which safety rules keep a person from all the food that a member of a
// conflict asks for: they are never given up, so that the model holds no row of
// them.
func (f *conflictFinder) barred(l conflictLimit) []ration.ConflictLimit {
	if l.row < 0 || !l.lower || f.rowHasColumns(l.row) {
		return nil
	}
	info := f.base.rows[l.row]
	var asked []*foods.Food
	switch info.kind {
	case rowFeed:
		for _, food := range f.base.Request.Table.Foods {
			if food.HasTag(foods.TagInfantFormula) && info.text == ration.Spaced(foods.TagInfantFormula)+" feed" {
				asked = append(asked, food)
			}
		}
	case rowUser:
		for _, w := range f.base.eaters[info.eater].wishes.Least {
			if info.text == "rule: "+w.Text {
				asked = append(asked, w.Foods...)
			}
		}
	}
	var list []ration.ConflictLimit
	e := f.base.eaters[info.eater]
	for _, food := range asked {
		if ok, why := foods.Eligible(e.person, f.base.Request.People, food); !ok {
			words := ration.ConflictLimit{Limit: "safety rule: " + why.Text, Person: e.person.Name}
			if !slices.Contains(list, words) {
				list = append(list, words)
			}
		}
	}
	return list
}

func (f *conflictFinder) rowHasColumns(row int) bool {
	for j := range f.base.Problem.Cols {
		for _, e := range f.base.Problem.Cols[j].Entries {
			if e.Row == row && f.base.Problem.Cols[j].Upper > 0 {
				return true
			}
		}
	}
	return false
}

func (f *conflictFinder) words(l conflictLimit) ration.ConflictLimit {
	if l.row < 0 {
		e := f.exclusions[l.exclusion]
		out := ration.ConflictLimit{Limit: e.text}
		if e.person >= 0 {
			out.Person = f.base.Request.People[e.person].Name
		}
		return out
	}
	out := ration.ConflictLimit{Limit: f.base.limitText(l)}
	if e := f.base.rows[l.row].eater; e >= 0 {
		out.Person = f.base.eaters[e].person.Name
	}
	return out
}

// limitText names the sides of one row with their amount, in plain words.
func (r *Ration) limitText(l conflictLimit) string {
	info, row := r.rows[l.row], r.Problem.Rows[l.row]
	switch info.kind {
	case rowUser, rowShare, rowKeep, rowGlycaemic:
		return info.text
	case rowReserve:
		return fmt.Sprintf("%s, %.4g %s", info.text, row.Lower, info.unit)
	}
	unit := info.unit
	if info.perDay > 1 || info.eater >= 0 {
		unit += " a day"
	}
	switch {
	case l.lower && l.upper:
		return fmt.Sprintf("%s %.4g %s", info.text, row.Lower/info.perDay, unit)
	case l.lower:
		return fmt.Sprintf("%s at least %.4g %s", info.text, row.Lower/info.perDay, unit)
	default:
		return fmt.Sprintf("%s at most %.4g %s", info.text, row.Upper/info.perDay, unit)
	}
}

// closestRation writes the elastic program's point: what each person would get,
// and where it falls short.
func (r *Ration) closestRation(x []float64) *ration.Closest {
	c := &ration.Closest{Packs: r.planPacks(x)}
	for _, e := range r.eaters {
		p := r.planPerson(e, x)
		c.People = append(c.People, p)
		for _, n := range p.Needs {
			if n.Ceiling == nil || n.Amount <= *n.Ceiling*(1+shortTolerance) {
				continue
			}
			over := ration.Over{Person: p.Name, Nutrient: n.Nutrient, Unit: n.Unit, Amount: n.Amount, Ceiling: *n.Ceiling}
			c.Over, c.Passed = append(c.Over, over), append(c.Passed, over)
		}
		c.Passed = append(c.Passed, e.sharesPassed(&p)...)
	}
	for _, e := range r.eaters {
		if e.drink < 0 {
			continue
		}
		if least := r.Problem.Cols[e.drink].Lower; x[e.drink] < least*(1-shortTolerance) {
			c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
				Person: e.person.Name, Nutrient: shortDrink, Unit: "L", Amount: max(0, x[e.drink]/r.days()), Target: least / r.days(),
			})
		}
	}
	activity := r.activities(x)
	for i, info := range r.rows {
		want := r.Problem.Rows[i].Lower
		if short := want - activity[i]; info.kind == rowAllWater && short > shortTolerance*want {
			c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
				Nutrient: shortWashing, Unit: "L", Amount: (r.washingL() - short) / r.days(), Target: r.washingL() / r.days(),
			})
		}
		if info.kind == rowShare && want == 0 && activity[i] < -shortTolerance*r.eaters[info.eater].needs.EER.Amount*r.days() {
			p := &c.People[info.eater]
			n := p.Need(info.nutrient.Name())
			if n != nil && n.Floor != nil && n.Amount < *n.Floor && !isShort(c, p.Name, n.Nutrient, n.Unit) {
				c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
					Person: p.Name, Nutrient: n.Nutrient, Unit: n.Unit, Amount: n.Amount, Target: *n.Floor,
				})
			}
		}
		if info.class == structural || info.eater < 0 || want <= 0 {
			continue
		}
		if got := activity[i]; got < want*(1-shortTolerance) {
			c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
				Person: r.eaters[info.eater].person.Name, Nutrient: info.name(), Unit: info.unit,
				Amount: max(0, got/info.perDay), Target: want / info.perDay,
			})
		}
	}
	slices.SortStableFunc(c.Shortfalls, func(a, b ration.Shortfall) int {
		return cmp.Or(cmp.Compare(rank(a.Nutrient), rank(b.Nutrient)), cmp.Compare(a.Amount/a.Target, b.Amount/b.Target))
	})
	return c
}

// isShort reports whether a shortfall is listed already.
func isShort(c *ration.Closest, person, nutrient, unit string) bool {
	return slices.ContainsFunc(c.Shortfalls, func(s ration.Shortfall) bool { return s.Person == person && s.Nutrient == nutrient && s.Unit == unit })
}

// sharesPassed lists the shares of p's energy that are passed, however little that
// is.
func (e *eater) sharesPassed(p *ration.PlanPerson) []ration.Over {
	energy := p.Need(nutrients.Energy.Name())
	if energy == nil {
		return nil
	}
	var list []ration.Over
	for _, s := range e.needs.Shares {
		n := p.Need(s.Nutrient.Name())
		if s.Max == nil || n == nil {
			continue
		}
		if most := s.Max.Amount / 100 * energy.Amount / s.KcalPerG; n.Amount > most {
			list = append(list, ration.Over{Person: p.Name, Nutrient: n.Nutrient, Unit: n.Unit, Amount: n.Amount, Ceiling: most})
		}
	}
	return list
}

// name is what the row is about, as a key of the output.
func (info rowInfo) name() string {
	switch info.kind {
	case rowPattern, rowGroupCap:
		return ration.GroupName(info.group)
	case rowUser, rowFeed, rowReserve, rowLimit, rowKeep, rowAllWater, rowAfter:
		return info.text
	default:
		return info.nutrient.Name()
	}
}

// activities are the values of all rows at x.
func (r *Ration) activities(x []float64) []float64 {
	total := make([]float64, len(r.Problem.Rows))
	for j := range r.cols {
		for _, entry := range r.Problem.Cols[j].Entries {
			total[entry.Row] += entry.Value * x[j]
		}
	}
	return total
}

package solver

import (
	"context"
	"fmt"
	"slices"
)

// explainInfeasible says why nothing fits: the limits in conflict, the ration
// that comes closest, and ways out that were tried. The claim itself rests on
// the elastic program's proven lower bound (or on there being no ration even
// with every need soft); without it the answer is [ErrNumerical].
func (r *Ration) explainInfeasible(ctx context.Context) (*Plan, error) {
	open, err := build(r.Request, false)
	if err != nil {
		return nil, err
	}
	x, claim := r.closest(ctx)
	if !claim {
		return nil, fmt.Errorf("%w: no ration was found, but none was proven impossible", ErrNumerical)
	}
	p := r.emptyPlan()
	p.Status = StatusInfeasible
	set, found := open.conflict(ctx)
	if found {
		p.Conflict = open.inWords(set.rows)
		proven := set.proven
		p.Proven = &proven
	} else {
		unproven := false
		p.Proven = &unproven
	}
	if x != nil {
		p.Closest = r.closestRation(x)
	}
	if found {
		p.WaysOut = open.waysOut(ctx, set)
	}
	return r.complete(p), nil
}

// inWords names rows for people, each once.
func (r *Ration) inWords(rows []int) []ConflictLimit {
	var list []ConflictLimit
	for _, i := range rows {
		l := ConflictLimit{Limit: r.limitText(i)}
		if e := r.rows[i].eater; e >= 0 {
			l.Person = r.eaters[e].person.Name
		}
		if !slices.Contains(list, l) {
			list = append(list, l)
		}
	}
	return list
}

// limitText names one row with its amount, in plain words.
func (r *Ration) limitText(i int) string {
	info, row := r.rows[i], r.Problem.Rows[i]
	switch info.kind {
	case rowUser, rowShare:
		return info.text
	case rowLimit, rowGroupCap:
		if row.Lower > 0 {
			return fmt.Sprintf("%s at least %.4g %s", info.text, row.Lower/info.perDay, info.unit)
		}
		return fmt.Sprintf("%s at most %.4g %s", info.text, row.Upper/info.perDay, info.unit)
	case rowReserve:
		return fmt.Sprintf("%s, %.4g %s", info.text, row.Lower, info.unit)
	}
	low, high := row.Lower/info.perDay, row.Upper/info.perDay
	unit := info.unit + " a day"
	switch {
	case low == high:
		return fmt.Sprintf("%s %.4g %s", info.text, low, unit)
	case row.Lower > 0 && row.Upper < inf:
		return fmt.Sprintf("%s between %.4g and %.4g %s", info.text, low, high, unit)
	case row.Lower > 0:
		return fmt.Sprintf("%s at least %.4g %s", info.text, low, unit)
	default:
		return fmt.Sprintf("%s at most %.4g %s", info.text, high, unit)
	}
}

// closestRation writes the elastic program's point: what each person would get,
// and where it falls short.
func (r *Ration) closestRation(x []float64) *Closest {
	c := &Closest{Packs: r.planPacks(x)}
	for _, e := range r.eaters {
		c.People = append(c.People, r.planPerson(e, x))
	}
	for i, info := range r.rows {
		if info.class != requirement || r.Problem.Rows[i].Lower <= 0 {
			continue
		}
		got := r.activity(i, x)
		if want := r.Problem.Rows[i].Lower; got < want*(1-shortTolerance) {
			name := info.nutrient.Name()
			if info.kind == rowPattern {
				name = info.group
			}
			c.Shortfalls = append(c.Shortfalls, Shortfall{
				Person: r.eaters[info.eater].person.Name, Nutrient: name, Unit: info.unit,
				Amount: max(0, got/info.perDay), Target: want / info.perDay,
			})
		}
	}
	return c
}

// activity is the value of row i at x.
func (r *Ration) activity(i int, x []float64) float64 {
	total := 0.0
	for j := range r.cols {
		for _, entry := range r.Problem.Cols[j].Entries {
			if entry.Row == i {
				total += entry.Value * x[j]
			}
		}
	}
	return total
}

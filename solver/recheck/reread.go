package recheck

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/verify"
)

// shownFindings is how many findings a refusal names.
const shownFindings = 3

// Recheck holds a plan that was read back against its digests and against req, its
// own request: everything that follows from the request, the packs and what people
// eat is recomputed, as every plan is checked before it is shown; see [verify.Check]. Of a
// plan in which nothing fits, whom it may not feed and its digests. The error wraps
// [ErrTampered] and names the parts and the first findings.
func Recheck(req *ration.Request, plan *ration.Plan) error {
	changed := plan.Changed()
	found := requestFindings(req, plan)
	if plan.Infeasible() && plan.Totals == nil && plan.Packs == nil && plan.People == nil {
		found = append(found, rewrittenFindings(req, plan)...)
	} else if head := headFindings(req, plan); len(head) > 0 {
		found = append(found, head...)
	} else {
		for _, v := range verify.Check(req, plan) {
			found = append(found, inWords(v))
		}
		found = append(found, printedFindings(req, plan)...)
		found = append(found, rewrittenFindings(req, plan)...)
	}
	if len(found) == 0 && len(changed) == 0 {
		return nil
	}
	more := ""
	if n := len(found) - shownFindings; n > 0 {
		found, more = found[:shownFindings], fmt.Sprintf(" (and %d more)", n)
	}
	if len(changed) > 0 {
		found = append([]string{"changed since: " + strings.Join(changed, ", ")}, found...)
	}
	err := fmt.Errorf("%w: %s%s; make it again with plan --format json", ration.ErrTampered, strings.Join(found, "; "), more)
	if slices.ContainsFunc(changed, func(part string) bool { return strings.HasPrefix(part, ration.RequestPart) }) {
		err = fmt.Errorf("%w: %w", ration.ErrChangedRequest, err)
	}
	return err
}

// headFindings are the faults of a plan that keep it from being checked: what it
// lacks, and where it is not of the request inside it.
func headFindings(req *ration.Request, plan *ration.Plan) []string {
	var found []string
	add := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	if plan.Status != ration.StatusOptimal && plan.Status != ration.StatusLimit {
		add("its status is %q and it holds a ration", plan.Status)
	}
	if plan.Totals == nil || plan.Value == nil {
		add("it has no totals or no value")
	}
	if plan.Least != req.Least || plan.Days != req.Days || plan.Standard != string(req.Standard) {
		add("it is for least %s, %d days and standard %s; its request is for least %s, %d days and standard %s",
			plan.Least, plan.Days, plan.Standard, req.Least, req.Days, req.Standard)
	}
	var fed, refused []string
	for _, person := range req.People {
		needs, err := nutrients.For(person, rules.NeedOptions(req))
		switch {
		case err != nil:
			add("%s: %v", person.Name, err)
		case needs.Refused != nil:
			refused = append(refused, person.Name)
		default:
			fed = append(fed, headsOf(person.Name, person.Count))
		}
	}
	var eaters, left []string
	for _, p := range plan.People {
		eaters = append(eaters, headsOf(p.Name, p.Count))
	}
	for _, p := range plan.Refused {
		left = append(left, p.Name)
	}
	if !slices.Equal(fed, eaters) {
		add("it feeds %s; its request is for %s", listed(eaters), listed(fed))
	}
	if !slices.Equal(refused, left) {
		add("it leaves out %s; whom it may not feed is %s", listed(left), listed(refused))
	}
	return found
}

// printedFindings are the lines of a plan that [verify.Check] reads nothing from, but a
// user does: what a line of packs comes to, and every need beside what is got.
func printedFindings(req *ration.Request, plan *ration.Plan) []string {
	var found []string
	differ := func(what string, got, want float64) {
		if !(math.Abs(got-want) <= ration.CheckTolerance*math.Max(1, math.Abs(want))) {
			found = append(found, inWords(verify.Violation{Limit: what + " as printed", Amount: got, Bound: want}))
		}
	}
	if plan.Value != nil && plan.Bound != nil && plan.Gap != nil {
		differ("gap", *plan.Gap, ration.GapOf(*plan.Value, *plan.Bound, ration.SmallestStep(plan.Least)))
	}
	if t := plan.Totals; t != nil {
		differ("water on hand", t.OwnWaterL, answer.OnHand(req.StockWaterL, t.WaterL))
		differ("heat on hand", t.OwnHeatMJ, answer.OnHand(req.StockHeatMJ, t.HeatMJ))
	}
	for _, line := range plan.Packs {
		k := ration.FindPack(req, line.Pack)
		if k == nil {
			continue // is a finding already
		}
		if line.NDB != ration.NDBOf(k.Food) {
			found = append(found, line.Pack+" is of NDB number "+ration.NDBOf(k.Food)+", not "+line.NDB)
		}
		s, n := rules.PackSupply(k), float64(line.Count)
		differ("net weight of "+line.Pack, line.NetG, k.NetG)
		differ("cost of "+line.Pack, line.Cost, float64(line.Count-line.FromStock)*s.Cost)
		differ("weight of "+line.Pack, line.WeightKg, n*s.WeightKg)
		differ("volume of "+line.Pack, line.VolumeL, n*s.VolumeL)
		if line.Food != k.Food.Name {
			found = append(found, line.Pack+" holds "+k.Food.Name+", not "+line.Food)
		}
	}
	next := 0
	for _, person := range req.People {
		needs, err := nutrients.For(person, rules.NeedOptions(req))
		if err != nil || needs.Refused != nil || next >= len(plan.People) {
			continue
		}
		p := &plan.People[next]
		next++
		var eaten []rules.Portion
		for _, line := range p.Foods {
			if f := rules.FoodNamed(req.Table, line.Food); f != nil {
				eaten = append(eaten, rules.Portion{Food: f, Grams: line.Grams})
			}
		}
		for _, want := range rules.PersonNeeds(req, needs, eaten, p.DrinkLPerDay) {
			got := p.Need(want.Nutrient)
			what := p.Name + ": " + ration.Spaced(want.Nutrient)
			if got == nil {
				found = append(found, what+" is missing")
				continue
			}
			differ(what, got.Amount, want.Amount)
			for _, side := range []struct {
				word      string
				got, want *float64
			}{{"at least", got.Floor, want.Floor}, {"at most", got.Ceiling, want.Ceiling}, {"target", got.Target, want.Target}} {
				switch {
				case side.got != nil && side.want != nil:
					differ(what+", "+side.word, *side.got, *side.want)
				case side.got != nil || side.want != nil:
					found = append(found, what+" has another "+side.word)
				}
			}
		}
	}
	return found
}

// inWords is v as a user reads it, its figures to six digits.
func inWords(v verify.Violation) string {
	text := fmt.Sprintf("%s: %.6g against %.6g", v.Limit, v.Amount, v.Bound)
	if v.Person != "" {
		text = v.Person + ": " + text
	}
	return text
}

func headsOf(name string, n int) string {
	if n == 1 {
		return name
	}
	return fmt.Sprintf("%s (%d)", name, n)
}

func listed(names []string) string {
	if len(names) == 0 {
		return "nobody"
	}
	return strings.Join(names, ", ")
}

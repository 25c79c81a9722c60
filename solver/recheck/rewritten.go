package recheck

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// rewrittenFindings are the words of a plan that follow from its request, its packs
// and what people eat, where they are not those that the program writes: notes,
// cautions, rules, the carbohydrate of a meal, the currency, the status.
func rewrittenFindings(req *ration.Request, plan *ration.Plan) []string {
	var found []string
	add := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	same := func(what string, got, want any) {
		if !reflect.DeepEqual(got, want) {
			add("%s is not what follows from its request", what)
		}
	}
	m, err := model.Build(req)
	if err != nil {
		return []string{err.Error()}
	}
	fresh := answer.EmptyPlan(m)
	same("notice", plan.Notice, fresh.Notice)
	same("refused", plan.Refused, fresh.Refused)
	same("not_checked", slices.Clone(plan.NotChecked), slices.Clone(fresh.NotChecked))
	same("weak_hands", plan.WeakHands, fresh.WeakHands)
	same("cautions", plan.Cautions, answer.Cautions(m, plan))
	if plan.Totals == nil {
		return found
	}
	same("totals.currency", plan.Totals.Currency, m.Currency())
	notes := append(slices.Clone(fresh.Notes), answer.AdviseSupplements(plan.Shortfalls)...)
	if !slices.Equal(plan.Notes, notes) && !slices.Equal(plan.Notes, append(slices.Clone(fresh.Notes), ration.LessRoomNote)) {
		add("notes are not what follows from its request")
	}
	switch proven := plan.Bound != nil && plan.Proof() != nil && *plan.Proof() <= m.Request.Within; {
	case (plan.Bound == nil) != (plan.Gap == nil):
		add("it has a bound without a gap, or a gap without a bound")
	case proven != (plan.Status == ration.StatusOptimal):
		add("its status is %q, which its gap does not bear out", plan.Status)
	case proven && plan.Stopped != "":
		add("it is proven, and says that it was stopped")
	}
	if plan.Bound != nil && *plan.Bound > *plan.Value+ration.CheckTolerance*max(1, *plan.Value) {
		add("its bound passes its value")
	}
	found = append(found, eatableFindings(m, plan)...)
	for _, line := range plan.Packs {
		if k := ration.FindPack(m.Request, line.Pack); k != nil {
			same(line.Pack+": group", line.Group, k.Food.Group)
			same(line.Pack+": easy_open", line.EasyOpen, rules.EasyToOpen(k))
		}
	}
	for i, e := range m.Eaters {
		if i >= len(plan.People) {
			break // is a finding already
		}
		p := &plan.People[i]
		var eaten []rules.Portion
		for _, line := range p.Foods {
			if f := rules.FoodNamed(req.Table, line.Food); f != nil {
				same(p.Name+": "+line.Food+": ndb", line.NDB, ration.NDBOf(f))
				eaten = append(eaten, rules.Portion{Food: f, Grams: line.Grams})
			}
		}
		meals, said := answer.Told(m, e, eaten, p.DrinkLPerDay, plan.Packs)
		same(p.Name+": carbohydrate_per_meal", p.Carbohydrate, meals)
		same(p.Name+": rules", p.Rules, said)
		same(p.Name+": ask_about", p.AskAbout, e.Needs.AskAbout)
		wanted := rules.PersonNeeds(req, e.Needs, eaten, p.DrinkLPerDay)
		if len(p.Needs) != len(wanted) {
			add("%s: needs are %d, not %d", p.Name, len(p.Needs), len(wanted))
		}
		for _, want := range wanted {
			if got := p.Need(want.Nutrient); got != nil && (got.Unit != want.Unit || got.Source != want.Source || got.Unknown != want.Unknown) {
				add("%s: %s has another unit or source", p.Name, ration.Spaced(want.Nutrient))
			}
		}
	}
	return found
}

// requestFindings are the parts of the request inside a plan that its reader would
// have written otherwise: what it passed over is no part of the plan.
func requestFindings(req *ration.Request, plan *ration.Plan) []string {
	var found []string
	got, want := reflect.ValueOf(*plan.Request), reflect.ValueOf(*ration.Record(ration.Filled(req)))
	for i := range got.NumField() {
		a, b := got.Field(i), want.Field(i)
		if !reflect.DeepEqual(a.Interface(), b.Interface()) && (a.Kind() != reflect.Slice && a.Kind() != reflect.Map || a.Len()+b.Len() > 0) {
			key, _, _ := strings.Cut(got.Type().Field(i).Tag.Get("json"), ",")
			found = append(found, ration.RequestPart+key+" holds what the program does not write")
		}
	}
	return found
}

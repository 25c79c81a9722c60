package conflict

import (
	"fmt"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// exclusion is one thing that the user has ruled out: a food nobody gets, more
// cooking than there is, what one person does not like or has a rule against.
// Allergies, conditions and ages are no exclusions: they are safety rules.
type exclusion struct {
	kind   exclusionKind
	person int    // index in Request.People, -1 for the household
	name   string // the food or group as the user wrote it, or the class of cooking
	text   string // in the words of the plan
}

type exclusionKind int

const (
	excludeFood    exclusionKind = iota // --without
	excludeCooking                      // --cook
	excludeDislike                      // a dislike in the household file
	excludeRule                         // a rule "no FOOD" in the household file
	excludeHard                         // --easy-open: packs that weak hands cannot open
)

// exclusionsOf lists what a request rules out, each once, in the order of the
// request.
func exclusionsOf(req *ration.Request) []exclusion {
	var list []exclusion
	add := func(e exclusion) {
		if !slices.Contains(list, e) {
			list = append(list, e)
		}
	}
	for _, name := range req.Without {
		add(exclusion{excludeFood, -1, name, "without " + inFull(req.Table, name)})
	}
	if req.Cook != ration.CookSimmer {
		add(exclusion{excludeCooking, -1, string(req.Cook), rules.CookingLimits[req.Cook]})
	}
	if req.EasyOpen {
		add(exclusion{excludeHard, -1, "", "only packs that weak hands can open and lift"})
	}
	for i, p := range req.People {
		for _, name := range p.Dislikes {
			add(exclusion{excludeDislike, i, name, "does not like " + inFull(req.Table, name)})
		}
		for _, rule := range p.Rules {
			if rule.Kind == nutrients.RuleNo {
				add(exclusion{excludeRule, i, rule.Food, "own rule: " + rule.Text})
			}
		}
	}
	return list
}

// inFull is the name of the one food that name stands for, or name itself where
// that is a group.
func inFull(t *foods.Table, name string) string {
	if f, err := t.Food(name); err == nil {
		return f.Name
	}
	return name
}

// lift returns req with e lifted; of cooking, wholly.
func (e exclusion) lift(req *ration.Request) *ration.Request {
	out := *req
	switch e.kind {
	case excludeFood:
		out.Without = slices.DeleteFunc(slices.Clone(req.Without), func(s string) bool { return s == e.name })
	case excludeCooking:
		return rules.WithCooking(req, ration.CookSimmer)
	case excludeHard:
		out.EasyOpen = false
	default:
		out.People = slices.Clone(req.People)
		p := &out.People[e.person]
		if e.kind == excludeDislike {
			p.Dislikes = slices.DeleteFunc(slices.Clone(p.Dislikes), func(s string) bool { return s == e.name })
		} else {
			p.Rules = slices.DeleteFunc(slices.Clone(p.Rules), func(r nutrients.Rule) bool {
				return r.Kind == nutrients.RuleNo && r.Food == e.name
			})
		}
	}
	return &out
}

// buildLifted builds the model of req without some of its exclusions. Foods
// that were eaten cold stay cold where cooking is lifted, so that a lifted
// exclusion only ever allows more.
func buildLifted(req *ration.Request, lifted []exclusion) (*model.Model, error) {
	anyCooking := false
	for _, e := range lifted {
		if e.kind == excludeCooking {
			anyCooking = true
			continue
		}
		req = e.lift(req)
	}
	return model.BuildWith(req, anyCooking)
}

// onAnotherStove says so where more takes another stove than req has.
func onAnotherStove(req, more *ration.Request) string {
	if req.Stove == more.Stove {
		return ""
	}
	return ", on another stove than " + req.Stove
}

// moreCooking lists the classes of cooking above cook, the least first.
func moreCooking(cook ration.Cook) []ration.Cook {
	var list []ration.Cook
	for _, c := range []ration.Cook{ration.CookWarm, ration.CookBoil, ration.CookSimmer} {
		if ration.CookRank[string(c)] > ration.CookRank[string(cook)] {
			list = append(list, c)
		}
	}
	return list
}

// change says in plain words what lifting e means.
func (e exclusion) change(req *ration.Request) string {
	switch e.kind {
	case excludeFood:
		return "allow " + inFull(req.Table, e.name)
	case excludeHard:
		return "allow packs that weak hands cannot open, with someone to open them"
	case excludeDislike:
		return fmt.Sprintf("%s eats %s all the same", req.People[e.person].Name, inFull(req.Table, e.name))
	case excludeRule:
		return fmt.Sprintf("give up the rule \"no %s\" (%s)", e.name, req.People[e.person].Name)
	default:
		return "allow more cooking"
	}
}

package swap

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// apply turns the change into a request, and returns the foods it is about:
// their packs do not count as changes.
func (c SwapRequest) apply(old *ration.Request, plan *ration.Plan) (*ration.Request, map[*foods.Food]bool, error) {
	req := *old
	req.People = slices.Clone(old.People)
	touched := map[*foods.Food]bool{}
	var errs []error
	if c.For != "" && !slices.ContainsFunc(req.People, func(p nutrients.Person) bool { return p.Name == c.For }) {
		errs = append(errs, fmt.Errorf("%w: nobody in the plan is called %q; the people are %s", ErrSwap, c.For, names(req.People)))
	}
	if who := plan.Refusal(c.For); who != nil {
		errs = append(errs, fmt.Errorf("%w: the plan does not feed %s, so nothing can be swapped for them: %s", ErrSwap, who.Name, who.Reason))
	}
	named := func(name string) []*foods.Food {
		found, err := req.Table.Named(name)
		if err != nil {
			errs = append(errs, err)
		}
		for _, f := range found {
			if f.HasTag(foods.TagInfantFormula) || f.HasTag(foods.TagHumanMilk) {
				errs = append(errs, fmt.Errorf("%w: %s is an infant's milk; change the feeding in the household file", ErrSwap, f.Name))
			}
			touched[f] = true
		}
		return found
	}
	for _, name := range c.Drop {
		named(name)
		if c.For == "" {
			req.Without = append(slices.Clone(req.Without), name)
			continue
		}
		addRule(req.People, c.For, nutrients.Rule{Kind: nutrients.RuleNo, Food: name, Text: "no " + name})
	}
	for _, name := range slices.Sorted(maps.Keys(c.Reduce)) {
		found := named(name)
		for i := range plan.People {
			p := &plan.People[i]
			if c.For != "" && p.Name != c.For {
				continue
			}
			most := grams(p, found) / float64(plan.Days) * c.Reduce[name]
			addRule(req.People, p.Name, nutrients.Rule{
				Kind: nutrients.RuleMost, Food: name, Low: most, Text: fmt.Sprintf("most %s %.6g g/day", name, most),
			})
		}
	}
	req.Keep = map[string]int{}
	bought := plan.Bought()
	for _, name := range c.Keep {
		found, err := req.Table.Named(name)
		if err != nil {
			errs = append(errs, err)
		}
		for _, f := range found {
			if touched[f] {
				errs = append(errs, fmt.Errorf("%w: %s cannot both go and stay", ErrSwap, f.Name))
			}
			for _, k := range f.Packs {
				req.Keep[k.Key] = bought[k.Key]
			}
		}
	}
	return &req, touched, errors.Join(errs...)
}

// grams is what the person eats of some foods over the horizon.
func grams(p *ration.PlanPerson, of []*foods.Food) float64 {
	grams := 0.0
	for _, line := range p.Foods {
		if slices.ContainsFunc(of, func(f *foods.Food) bool { return f.Name == line.Food }) {
			grams += line.Grams
		}
	}
	return grams
}

// addRule gives one person a rule more.
func addRule(people []nutrients.Person, name string, rule nutrients.Rule) {
	for i := range people {
		if people[i].Name == name {
			people[i].Rules = append(slices.Clone(people[i].Rules), rule)
		}
	}
}

func names(people []nutrients.Person) string {
	list := make([]string, len(people))
	for i, p := range people {
		list[i] = p.Name
	}
	return strings.Join(list, ", ")
}

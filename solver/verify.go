package solver

import (
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// checkTolerance is how far, relative to a limit (absolute under 1 unit), an
// amount recomputed from the food table may lie beyond it: the simplex method
// works to 1e-7 on scaled rows, and the plan's grams are printed in full, so
// one part in a million is rounding and more is a fault.
const checkTolerance = 1e-6

// Violation is one limit that a plan does not keep.
type Violation struct {
	Person string // "" for the household
	Limit  string
	Amount float64
	Bound  float64
}

func (v Violation) String() string {
	if v.Person == "" {
		return fmt.Sprintf("%s: %g against %g", v.Limit, v.Amount, v.Bound)
	}
	return fmt.Sprintf("%s: %s: %g against %g", v.Person, v.Limit, v.Amount, v.Bound)
}

// Verify recomputes a plan from the request's food table, the whole packs and
// the grams of each person, and returns every limit that it does not keep. It
// never sees the solver's program: only published needs, food composition and
// the plan. A shortfall that the plan declares is allowed down to its amount.
func Verify(req *ration.Request, plan *ration.Plan) []Violation { return verifyBut(req, plan, nil) }

// verifyBut is [Verify] of a closest ration, which may pass some ceilings.
func verifyBut(req *ration.Request, plan *ration.Plan, over []ration.Over) []Violation {
	c := &checker{req: ration.Filled(req), plan: plan, over: over}
	if !c.seat() {
		return c.found
	}
	for i := range c.eaters {
		c.checkPerson(&c.eaters[i])
	}
	c.checkPacks()
	c.checkStock()
	c.checkDates()
	c.checkReserve()
	c.checkSupplies()
	c.checkTotals()
	c.checkLimits()
	return c.found
}

// checker collects what a plan does not keep.
type checker struct {
	req    *ration.Request
	plan   *ration.Plan
	eaters []checkedEater
	refuse []nutrients.Needs
	found  []Violation
	over   []ration.Over // that a closest ration says it passes
}

// checkedEater is one person with what the plan gives them and what they may
// eat at all.
type checkedEater struct {
	person nutrients.Person
	needs  nutrients.Needs
	may    map[*foods.Food]appetite
	list   []*foods.Food // the foods that the person may and will eat, in table order
	wishes *foods.Wishes
	eaten  []portion
	plan   *ration.PlanPerson
}

func (c *checker) report(person, limit string, amount, bound float64) {
	c.found = append(c.found, Violation{person, limit, amount, bound})
}

// atLeast reports amount under bound beyond the tolerance.
func (c *checker) atLeast(person, limit string, amount, bound float64) {
	if !(amount >= bound-checkTolerance*math.Max(1, math.Abs(bound))) {
		c.report(person, limit, amount, bound)
	}
}

// atMost reports amount over bound beyond the tolerance.
func (c *checker) atMost(person, limit string, amount, bound float64) {
	if !(amount <= bound+checkTolerance*math.Max(1, math.Abs(bound))) {
		c.report(person, limit, amount, bound)
	}
}

// seat pairs the people of the request with those of the plan.
func (c *checker) seat() bool {
	kitchen, err := openKitchen(c.req, false)
	if err != nil {
		c.report("", err.Error(), 0, 0)
		return false
	}
	next := 0
	for _, person := range c.req.People {
		needs, err := nutrients.For(person, needOptions(c.req))
		if err != nil {
			c.report(person.Name, "needs: "+err.Error(), 0, 0)
			return false
		}
		if needs.Refused != nil {
			c.refuse = append(c.refuse, needs)
			continue
		}
		if next >= len(c.plan.People) || c.plan.People[next].Name != person.Name {
			c.report(person.Name, "is missing from the plan", 0, 1)
			return false
		}
		e := checkedEater{person: person, needs: needs, plan: &c.plan.People[next], may: map[*foods.Food]appetite{}}
		next++
		may, wishes, err := kitchen.serve(&needs)
		if err != nil {
			c.report(person.Name, err.Error(), 0, 0)
			return false
		}
		e.wishes = wishes
		for _, a := range may {
			if a.lock == "" {
				e.may[a.food] = a
				e.list = append(e.list, a.food)
			}
		}
		for _, line := range e.plan.Foods {
			f := foodNamed(c.req.Table, line.Food)
			if f == nil {
				c.report(person.Name, "eats "+line.Food+", which is not in the table", line.Grams, 0)
				continue
			}
			e.eaten = append(e.eaten, portion{f, line.Grams})
		}
		c.eaters = append(c.eaters, e)
	}
	return true
}

// foodNamed finds a food by its exact name.
func foodNamed(t *foods.Table, name string) *foods.Food {
	for _, f := range t.Foods {
		if f.Name == name {
			return f
		}
	}
	return nil
}

// allowance returns the amount to which a declared shortfall lowers a floor; ""
// is any unit.
func (c *checker) allowance(person, nutrient, unit string, floor float64) float64 {
	for _, s := range c.plan.Shortfalls {
		if s.Person == person && s.Nutrient == nutrient && (unit == "" || s.Unit == "" || s.Unit == unit) {
			return math.Min(floor, s.Amount)
		}
	}
	return floor
}

// passed returns the amount to which a closest ration that says so passes a
// ceiling.
func (c *checker) passed(person, nutrient string, ceiling float64) float64 {
	for _, o := range c.over {
		if o.Person == person && o.Nutrient == nutrient {
			ceiling = math.Max(ceiling, o.Amount)
		}
	}
	return ceiling
}

// grams is what e eats of f over the horizon.
func (e *checkedEater) grams(f *foods.Food) float64 {
	for _, p := range e.eaten {
		if p.food == f {
			return p.grams
		}
	}
	return 0
}

// sum adds weight(food) × grams over what e eats.
func (e *checkedEater) sum(weight func(*foods.Food) float64) float64 {
	total := 0.0
	for _, p := range e.eaten {
		total += weight(p.food) * p.grams
	}
	return total
}

// days is the horizon.
func (c *checker) days() float64 { return float64(c.req.Days) }

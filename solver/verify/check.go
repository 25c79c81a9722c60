package verify

import (
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

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

// Check returns every limit of the request that the plan does not keep, nil where
// it keeps all. A shortfall that the plan declares is allowed down to its amount.
func Check(req *ration.Request, plan *ration.Plan) []Violation { return checked(req, plan, nil, false) }

// CheckPassing is [Check] of a ration that may pass the ceilings in over as far
// as they say: the closest one where nothing fits.
func CheckPassing(req *ration.Request, plan *ration.Plan, over []ration.Over) []Violation {
	return checked(req, plan, over, true)
}

func checked(req *ration.Request, plan *ration.Plan, over []ration.Over, closest bool) []Violation {
	t, err := readTables()
	if err != nil {
		return []Violation{{Limit: "the tables cannot be read: " + err.Error()}}
	}
	c := newChecker(req, t)
	c.plan, c.over, c.closest = plan, over, closest
	if !c.seat() {
		return c.found
	}
	for _, d := range c.diners {
		personal{c}.person(d)
	}
	whole := stored{c}
	whole.packs()
	whole.stock()
	whole.dates()
	whole.reserve()
	whole.supplies()
	whole.totals()
	whole.limits()
	c.eatable()
	return c.found
}

// checker collects what a plan does not keep.
type checker struct {
	req     *ration.Request
	plan    *ration.Plan
	over    []ration.Over
	closest bool // the ration that comes closest where nothing fits, which is no plan
	tables  *tables
	without map[*foods.Food]string // what nobody gets, and why
	diners  []*diner
	refused []nutrients.Needs
	capRows map[string][]*kinds.CapRow // the rows on kinds of food, by kind
	found   []Violation
}

// newChecker is the check of a request with its rows on kinds of food by kind.
func newChecker(req *ration.Request, t *tables) *checker {
	c := &checker{req: ration.Filled(req), tables: t, capRows: map[string][]*kinds.CapRow{}}
	rows := c.req.Table.KindCapRows()
	for i := range rows {
		c.capRows[rows[i].Kind] = append(c.capRows[rows[i].Kind], &rows[i])
	}
	return c
}

// diner is one row of the household with what the plan gives one of its people.
type diner struct {
	needs  nutrients.Needs
	heads  float64
	wishes *foods.Wishes
	may    map[*foods.Food]amount
	open   []*foods.Food // what may hold something for them, in table order
	eaten  []helping
	plan   *ration.PlanPerson
	groups []group // of foods that count together, see groupsFor
}

// helping is grams of a food over the horizon.
type helping struct {
	food  *foods.Food
	grams float64
}

func (c *checker) report(person, limit string, amount, bound float64) {
	c.found = append(c.found, Violation{person, limit, amount, bound})
}

// atLeast reports an amount under the bound, atMost one over it; a figure that is
// no number is both.
func (c *checker) atLeast(person, limit string, amount, bound float64) {
	if !(amount >= bound-Tolerance*math.Max(1, math.Abs(bound))) {
		c.report(person, limit, amount, bound)
	}
}

func (c *checker) atMost(person, limit string, amount, bound float64) {
	if !(amount <= bound+Tolerance*math.Max(1, math.Abs(bound))) {
		c.report(person, limit, amount, bound)
	}
}

func (c *checker) same(person, what string, printed, computed float64) {
	if !(math.Abs(printed-computed) <= Tolerance*math.Max(1, math.Abs(computed))) {
		c.report(person, what+" as printed", printed, computed)
	}
}

func (c *checker) days() float64 { return float64(c.req.Days) }

// seat pairs the people of the request with those of the plan and works out what
// each may eat.
func (c *checker) seat() bool {
	if !c.leaveOut() {
		return false
	}
	next := 0
	for _, person := range c.req.People {
		if left := c.plan.Refusal(person.Name); left != nil && len(person.Orders.List) > 0 {
			person.Unplanned = &nutrients.Refusal{Reason: left.Reason}
		}
		needs, err := nutrients.For(person, nutrients.Options{Standard: c.req.Standard, EnergySet: c.req.Energy, LeanEnergy: c.req.LeanEnergy, Start: c.req.Start})
		if err != nil {
			c.report(person.Name, "needs: "+err.Error(), 0, 0)
			return false
		}
		if needs.Refused != nil {
			c.refused = append(c.refused, needs)
			continue
		}
		if next >= len(c.plan.People) || c.plan.People[next].Name != person.Name || c.plan.People[next].Count != person.Count {
			c.report(person.Name, "is missing from the plan", 0, 1)
			return false
		}
		d := &diner{needs: needs, heads: float64(person.Count), plan: &c.plan.People[next]}
		next++
		if d.wishes, err = c.req.Table.Wishes(person); err != nil {
			c.report(person.Name, err.Error(), 0, 0)
			return false
		}
		c.menu(d)
		for _, line := range d.plan.Foods {
			if f := c.food(line.Food); f != nil {
				d.eaten = append(d.eaten, helping{f, line.Grams})
			} else {
				c.report(person.Name, "eats "+line.Food+", which is not in the table", line.Grams, 0)
			}
		}
		c.diners = append(c.diners, d)
	}
	if next < len(c.plan.People) {
		c.report(c.plan.People[next].Name, "is in the plan and not in the household", 1, 0)
	}
	return true
}

// leaveOut notes the foods that the request keeps from everybody.
func (c *checker) leaveOut() bool {
	c.without = map[*foods.Food]string{}
	for _, name := range c.req.Without {
		list, err := c.req.Table.Named(name)
		if err != nil {
			c.report("", "without: "+err.Error(), 0, 0)
			return false
		}
		for _, f := range list {
			c.without[f] = "without " + name
		}
	}
	for _, f := range c.req.Table.Foods {
		if p := f.Preparation; p != nil && !p.ColdOK && classRank[p.Class] > classRank[string(c.req.Cook)] && c.without[f] == "" {
			c.without[f] = "it takes more cooking than " + string(c.req.Cook)
		}
	}
	return true
}

// classRank orders the words of --cook, each allowing those before it.
var classRank = map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}

func (c *checker) food(name string) *foods.Food {
	for _, f := range c.req.Table.Foods {
		if f.Name == name {
			return f
		}
	}
	return nil
}

// pack finds a pack by key, in the table or, where it is sold no more, in stock.
func (c *checker) pack(key string) *foods.Pack {
	for _, k := range c.req.Table.Packs {
		if k.Key == key {
			return k
		}
	}
	for _, line := range c.req.Stock {
		if line.Pack.Key == key {
			return line.Pack
		}
	}
	return nil
}

// allowed is the amount to which a declared shortfall lowers a floor; unit "" is
// any.
func (c *checker) allowed(person, nutrient, unit string, floor float64) float64 {
	for _, s := range c.plan.Shortfalls {
		if s.Person == person && s.Nutrient == nutrient && (unit == "" || s.Unit == "" || s.Unit == unit) {
			return math.Min(floor, s.Amount)
		}
	}
	return floor
}

// passed is the amount to which a closest ration says that it passes a ceiling.
func (c *checker) passed(person, nutrient string, ceiling float64) float64 {
	for _, o := range c.over {
		if o.Person == person && o.Nutrient == nutrient {
			ceiling = math.Max(ceiling, o.Amount)
		}
	}
	return ceiling
}

// grams is what d eats of f over the horizon.
func (d *diner) grams(f *foods.Food) float64 {
	total := 0.0
	for _, h := range d.eaten {
		if h.food == f {
			total += h.grams
		}
	}
	return total
}

// sum adds up what per says of a gram of each food, over what d eats.
func (d *diner) sum(per func(*foods.Food) float64) float64 { return sumOf(d.eaten, per) }

func sumOf(eaten []helping, per func(*foods.Food) float64) float64 {
	total := 0.0
	for _, h := range eaten {
		total += per(h.food) * h.grams
	}
	return total
}

// one counts a gram of the foods that are such as one.
func one(is func(*foods.Food) bool) func(*foods.Food) float64 {
	return func(f *foods.Food) float64 {
		if is(f) {
			return 1
		}
		return 0
	}
}

// content adds up the known content of n over helpings.
func content(of []helping, n nutrients.Nutrient) float64 {
	total := 0.0
	for _, h := range of {
		if per100g, known := h.food.Per100g.Get(n); known {
			total += per100g * h.grams / 100
		}
	}
	return total
}

package menucheck

import (
	"encoding/json"
	"fmt"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/ration"
)

// Finding is a rule that a menu breaks, and by how much.
type Finding struct {
	Rule   Rule
	Person string  // whose plate it is; "" for what is on no one's alone
	Text   string  // where and how much
	Amount float64 // how far beyond the rule, in its own unit
}

// String is the finding in one line.
func (f Finding) String() string {
	if f.Person == "" {
		return fmt.Sprintf("%s: %s", f.Rule, f.Text)
	}
	return fmt.Sprintf("%s: %s, %s", f.Rule, f.Person, f.Text)
}

// Rule is what a menu is held to.
type Rule string

// The rules. Those of [Rule.Safety] are never broken.
const (
	NotTheirs    Rule = "a food that the plan does not give the person"
	Spoiled      Rule = "eaten from a pack that has been open too long"
	NotOpened    Rule = "eaten and not opened"
	Sums         Rule = "grams of the plan"                 // share off
	Packs        Rule = "packs of the plan"                 // packs not opened, or opened and not there
	Energy       Rule = "energy of a day"                   // share off the mean
	Protein      Rule = "protein of a day"                  // share off the mean
	Carbohydrate Rule = "carbohydrate of a meal"            // g off the mean
	Steady       Rule = "what a medicine asks to be alike"  // share off the mean
	Often        Rule = "a dish too often"                  // times over
	Running      Rule = "a dish on two days running"        // days
	Cold         Rule = "heated on a cold day"              // dishes
	Heat         Rule = "heat"                              // MJ over the plan's
	Water        Rule = "water into food"                   // L a person and day over what the plan keeps for it
	NoDish       Rule = "a main meal without a dish"        // meals
	Dated        Rule = "opened past its best before"       // days
	Stove        Rule = "at the stove for too long"         // minutes over, one pot after the other
	Bare         Rule = "a main dish without what makes it" // share of the least of a part that is lacking
	Daily        Rule = "a published most of a day"         // share over
)

// Safety reports whether the rule is one of safety.
func (r Rule) Safety() bool { return r == NotTheirs || r == Spoiled || r == NotOpened }

// The rooms that the rules leave. Energy, protein and carbohydrate: planning rules of
// the program; sums: a tenth of a percent of each person's grams of each food.
const (
	SumRoom           = 0.001
	EnergyRoom        = 0.10
	ProteinRoom       = 0.20
	SteadyRoom        = 0.30
	CarbohydrateRoomG = 10
	BareRoom          = 0.5 // of the least of a part
	DailyRoom         = 0.005
	StoveRoomMin      = 90 // for all that is heated at a meal, one pot at a time
	slack             = 1e-6

	// adultKcal is a day of an adult's usual servings, as the dish table reckons them.
	adultKcal = 2050
)

// checker gathers findings.
type checker struct {
	menu  written
	plan  *ration.Plan
	req   *ration.Request
	book  *dishes.Book
	foods map[string]*foods.Food
	found []Finding
}

func (c *checker) add(rule Rule, person string, amount float64, format string, args ...any) {
	c.found = append(c.found, Finding{rule, person, fmt.Sprintf(format, args...), amount})
}

// Check holds a menu in its JSON form against the plan and the request that it was
// made of. The error is of JSON that is no menu.
func Check(menuJSON []byte, plan *ration.Plan, req *ration.Request, book *dishes.Book) ([]Finding, error) {
	c := &checker{plan: plan, req: req, book: book, foods: map[string]*foods.Food{}}
	if err := json.Unmarshal(menuJSON, &c.menu); err != nil {
		return nil, fmt.Errorf("menucheck: %w", err)
	}
	for _, f := range req.Table.Foods {
		c.foods[f.Name] = f
	}
	if len(c.menu.Days) != plan.Days {
		c.add(Sums, "", float64(plan.Days-len(c.menu.Days)), "%d days of %d", len(c.menu.Days), plan.Days)
	}
	c.sums()
	c.packs()
	c.keeping()
	for i := range plan.People {
		c.days(&plan.People[i])
		c.dishes(&plan.People[i])
	}
	c.dates()
	c.stove()
	c.kitchen()
	return c.found, nil
}

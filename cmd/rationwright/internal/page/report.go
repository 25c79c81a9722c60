package page

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// Report is what the sheets of one plan show.
type Report struct {
	*view.Plan
	Units     sheet.Units
	Who       string   // who is fed: the names of all, or of many people two and how many more
	Lead      []string // who, how long, what it comes to, how near the best
	Currency  string
	Foods     int // on the shopping list
	Avoid     []Avoid
	Pictures  []Picture // what each gets against needs
	StoreYear *Picture  // how much of the store is in date, month by month
	Frontier  *Picture  // cost against weight; nil where it was not asked for
	Cans      Cans
	Fuel      Fuel
	Strips    []Strip  // the menu, a day each; nil where none was made
	NoMenu    string   // why none was made, "" where one was or none was asked for
	MenuSays  []string // what fits no dish, worst first
	Kitchen   []string // the menu's rules of the kitchen
	Renew     []Month
	Shelves   []sheet.Section // what stands where; nil where no shelves were given
	Eats      []sheet.Section
	Figures   []sheet.Section // what each gets, in figures
	Unshown   int             // people whose figures are in the other forms of a plan only
	Nothing   []sheet.Section // nothing fits: what conflicts, ways out
	DoorFive  []ration.Caution
}

// Avoid is what one person must not eat, in sentences, and does not like.
type Avoid struct {
	Name    string
	MustNot []string
	Dislike []string
}

// Cans are the containers that hold the water of the plan.
type Cans struct {
	Count int
	EachL float64
}

// Fuel is the packs of fuel that give the heat of the plan.
type Fuel struct {
	Packs int
	What  string // "230 g canister of butane"
}

// Month is what falls due in a calendar month.
type Month struct {
	Name string // January 2027; "" no date is known
	Due  []stores.Action
}

// mostShown is of how many rows of a household there are pictures and tables of figures,
// which the other forms of a plan have of everyone; every fewerEach rows more leave room
// for one fewer. So a page stays under 300 kB.
const (
	mostShown = 12
	fewerEach = 4
)

// shown is of how many of so many people a page has pictures and figures.
func shown(people int) int {
	return max(0, min(people, mostShown-max(0, people-mostShown)/fewerEach))
}

// New gathers the report of p, the plan of req.
func New(p *ration.Plan, req *ration.Request, u sheet.Units) (*Report, error) {
	r := &Report{Plan: view.Of(p), Units: u}
	var who sheet.Lines
	for _, e := range r.People {
		if a := avoid(&e); len(a.MustNot)+len(a.Dislike) > 0 {
			r.Avoid = append(r.Avoid, a)
		}
		who.If(e.Refused == nil, "%s", e.Name)
	}
	r.Who = titleNames(who)
	r.DoorFive = doorFive(r.Cautions)
	if !r.Fits || p.Totals == nil {
		r.Nothing = report.Plan(p, u).Sections
		return r, nil
	}
	r.Currency, r.Eats = facts.Printable(p.Totals.Currency), report.Eats(r.Plan, u)
	r.Lead = r.lead(p)
	for _, a := range r.Shopping {
		r.Foods += len(a.Foods)
	}
	r.Shelves = report.ShelfFit(p.Shelves, u)
	plain := *p // the warnings stand in one place
	plain.Cautions = nil
	for i := range p.People[:shown(len(p.People))] {
		picture, err := needsPicture(r.People[i].Name, p.People[i].Needs)
		if err != nil {
			return nil, err
		}
		if picture != nil {
			r.Pictures = append(r.Pictures, *picture)
		}
		r.Figures = append(r.Figures, report.Person(&p.People[i], &plain, u))
	}
	r.Unshown = len(p.People) - len(r.Figures)
	return r, r.store(p, req)
}

// mostNamed is how many people a title names.
const mostNamed = 8

// titleNames writes names for a title: of many people two, and how many more.
func titleNames(who []string) string {
	if len(who) > mostNamed {
		who = append(slices.Clone(who[:2]), fmt.Sprintf("%d others", len(who)-2))
	}
	return sheet.Names(who)
}

// avoid picks from the rules of a person what they must not eat.
func avoid(e *view.Person) Avoid {
	a := Avoid{Name: e.Name}
	for _, r := range e.Rules {
		if strings.HasPrefix(r.Text, "No ") || strings.HasPrefix(r.Text, "Nothing ") {
			a.MustNot = append(a.MustNot, sheet.Sentence(r.Text))
		}
	}
	said := strings.Join(a.MustNot, " ")
	for _, word := range e.MustNotEat {
		allergen := strings.TrimRight(word, "!~")
		switch {
		case e.Refused != nil:
			a.MustNot = append(a.MustNot, sheet.Sentence("No "+allergen))
		case !strings.Contains(said, "No "+allergen):
			a.Dislike = append(a.Dislike, word)
		}
	}
	return a
}

// monthsAhead is how far the dates of a store are followed: a year.
const monthsAhead = 12

// store is water, fuel and dates.
func (r *Report) store(p *ration.Plan, req *ration.Request) error {
	pile, err := stockpile.Of(req, p, stockpile.StockpileOptions{AltitudeM: math.NaN()})
	if err != nil {
		return err
	}
	for _, c := range pile.Water.Containers {
		if c.Planned {
			r.Cans = Cans{pile.Water.PlanCount, c.EachL}
		}
	}
	if f := pile.Heat.Fuels[0]; f.Packs > 0 {
		r.Fuel = Fuel{f.Packs, f.Stove.Pack + " of " + f.Stove.Fuel}
	}
	due, err := Dates(p, req)
	if err != nil {
		return err
	}
	r.Renew = byMonth(due.Actions)
	r.StoreYear, err = storePicture(p, due.Actions, req.Start)
	return err
}

// Dates works out what falls due in the store of p, filled on the first day.
func Dates(p *ration.Plan, req *ration.Request) (*stockpile.Rotation, error) {
	temp := stockpile.UsualStoreC
	if req.Hot {
		temp = stockpile.HotStoreC
	}
	return stockpile.RotationOf(stockpile.RotationInput{Plan: p, Req: req, Start: req.Start, TempC: temp, Months: monthsAhead})
}

// byMonth gathers what is due by calendar month; what has no date comes first.
func byMonth(actions []stores.Action) []Month {
	var all []Month
	for _, a := range actions {
		name := ""
		if day, err := time.Parse(time.DateOnly, a.By); err == nil {
			name = day.Format("January 2006")
		}
		if n := len(all); n == 0 || all[n-1].Name != name {
			all = append(all, Month{Name: name})
		}
		last := &all[len(all)-1]
		last.Due = append(last.Due, a)
	}
	return all
}

// AddFrontier adds the picture of cost against weight, for which the plan is made
// again at ten limits.
func (r *Report) AddFrontier(ctx context.Context, req *ration.Request) error {
	found, err := plan.Compare(ctx, req, true, nil)
	if err != nil {
		return err
	}
	if err := found.AddFrontier(ctx, req, ration.LeastCost, ration.LeastWeight); err != nil || found.Frontier == nil {
		return err
	}
	r.Frontier, err = FrontierOf(found)
	return err
}

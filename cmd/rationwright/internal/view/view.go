package view

import (
	"slices"
	"strings"
	"time"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// Plan is a plan for people.
type Plan struct {
	Headline []string `json:"headline,omitempty"` // the worst news, a line each; stands first
	Fits     bool     `json:"fits"`               // false: nothing fits, and there is no list
	Heads    int      `json:"heads"`              // people fed
	Days     int      `json:"days"`
	From     string   `json:"from,omitempty"`  // ISO, the first day
	Until    string   `json:"until,omitempty"` // ISO, the last day
	Demo     string   `json:"demo,omitempty"`  // what of it is invented, in a sentence

	Least string   `json:"least"` // cost, weight or volume
	Value *float64 `json:"value,omitempty"`
	Bound *float64 `json:"bound,omitempty"` // no plan does better; in the unit of Value
	Gap   *float64 `json:"gap,omitempty"`   // fraction

	People     []Person           `json:"people,omitempty"`
	Shortfalls []ration.Shortfall `json:"shortfalls,omitempty"`
	Over       []ration.Over      `json:"over,omitempty"`
	Shopping   []Aisle            `json:"shopping,omitempty"`
	Apart      []string           `json:"apart,omitempty"` // who is allergic to what on the list
	Totals     *ration.Totals     `json:"totals,omitempty"`
	Water      *Water             `json:"water,omitempty"`
	Cautions   []ration.Caution   `json:"cautions,omitempty"` // the gravest first
	Notes      []string           `json:"notes,omitempty"`    // what is assumed
	NotChecked []string           `json:"not_checked,omitempty"`
	Sources    []string           `json:"sources,omitempty"` // of all the needs and rules, each once
}

// Person is a row of the household: who they are, what one of them eats and gets
// in a day, and what they must not eat.
type Person struct {
	Name       string              `json:"name"`
	Count      int                 `json:"count"`
	Eats       []Portion           `json:"eats,omitempty"` // in the order of the shopping list
	Needs      []ration.PersonNeed `json:"needs,omitempty"`
	DrinkL     float64             `json:"drink_l,omitempty"`
	Rules      []ration.RuleNote   `json:"rules,omitempty"`
	MustNotEat []string            `json:"must_not_eat,omitempty"` // allergens as in household.csv, then dislikes
	Refused    *ration.Refused     `json:"refused,omitempty"`      // not fed: why
}

// Portion is grams of a food as packed that one person eats in a mean day.
type Portion struct {
	Food  string  `json:"food"`
	Grams float64 `json:"grams"`
}

// Aisle is a part of the shopping list; what is set aside comes last.
type Aisle struct {
	Name  string `json:"name"`
	Foods []Food `json:"foods"`
}

// Food is one food of the list with its packs.
type Food struct {
	Food    string  `json:"food"`    // as in the table
	Name    string  `json:"name"`    // as people say it under the name of its aisle
	Reserve bool    `json:"reserve"` // set aside, never ration
	Packs   []Packs `json:"packs"`
}

// Packs is a number of packs of one size.
type Packs struct {
	Key   string  `json:"pack"`
	Size  string  `json:"size"` // "907 g bag"; "" where the key does not say
	Buy   int     `json:"buy"`
	Own   int     `json:"own,omitempty"` // from stock
	NetG  float64 `json:"net_g"`         // what is eaten of one
	Cost  float64 `json:"cost"`          // of all bought
	Kg    float64 `json:"weight_kg"`     // of all
	Hands bool    `json:"needs_strong_hands,omitempty"`
}

// Water is what the plan counts, and what published advice would keep where that
// is more.
type Water struct {
	PlanL   float64 `json:"plan_l"`
	AdviceL float64 `json:"advice_l,omitempty"` // absent where it is no more
	Advice  string  `json:"advice,omitempty"`   // whose, with its amount a head
}

// Of returns the view of p.
func Of(p *ration.Plan) *Plan {
	news := headline.Plan(p)
	v := &Plan{
		Headline: news.Lines(), Fits: !p.Infeasible(), Days: p.Days, Least: string(p.Least), Value: p.Value, Bound: p.Bound, Gap: p.Gap,
		Shortfalls: news.Short, Over: news.Over, Shopping: aisles(p), Totals: p.Totals, Cautions: p.Cautions, Notes: p.Notes, NotChecked: p.NotChecked,
	}
	avoids := map[string][]string{}
	if r := p.Request; r != nil {
		v.Demo = Demo(r.Demo)
		if first, err := time.Parse(time.DateOnly, r.Start); err == nil {
			v.From, v.Until = r.Start, first.AddDate(0, 0, p.Days-1).Format(time.DateOnly)
		}
		avoids = mustNotEat(r.Household)
		v.Water = water(p)
	}
	for i := range p.People {
		e := &p.People[i]
		v.Heads += e.Count
		v.People = append(v.People, Person{Name: facts.Printable(e.Name), Count: e.Count, Eats: eats(e, v.Shopping, p.Days), Needs: e.Needs,
			DrinkL: e.DrinkLPerDay, Rules: e.Rules, MustNotEat: avoids[e.Name]})
		for _, n := range e.Needs {
			v.source(n.Source)
		}
		for _, r := range e.Rules {
			if r.Apart != nil {
				v.Apart = append(v.Apart, apart(facts.Printable(e.Name), r.Apart, v.Shopping))
			}
			v.source(r.Source)
		}
	}
	for i, r := range p.Refused {
		v.People = append(v.People, Person{Name: facts.Printable(r.Name), Count: 1, MustNotEat: avoids[r.Name], Refused: &p.Refused[i]})
	}
	return v
}

// source adds a source that is not there yet.
func (v *Plan) source(text string) {
	if text = facts.Printable(text); text != "" && !slices.Contains(v.Sources, text) {
		v.Sources = append(v.Sources, text)
	}
}

// Demo is the sentence that says what of an answer is invented; "" for nothing.
func Demo(d ration.Demo) string {
	switch {
	case d.Household && d.Prices:
		return "This is the demo household of Ternsund at demo prices: people and prices are invented."
	case d.Household:
		return "This is the demo household of Ternsund: these people are invented."
	case d.Prices:
		return "Prices are invented for the demo."
	}
	return ""
}

// eats lists what one person eats a day in the order of the shopping list, then
// what is not on it.
func eats(e *ration.PlanPerson, list []Aisle, days int) []Portion {
	grams := map[string]float64{}
	var order []string
	for _, a := range list {
		for _, f := range a.Foods {
			order = append(order, f.Food)
		}
	}
	for _, f := range e.Foods {
		grams[f.Food] += f.Grams / float64(max(days, 1))
		order = append(order, f.Food)
	}
	var out []Portion
	for _, food := range order {
		if g, ok := grams[food]; ok {
			out = append(out, Portion{food, g})
			delete(grams, food)
		}
	}
	return out
}

// mustNotEat reads the allergies and dislikes of everyone from the rows of
// household.csv.
func mustNotEat(rows [][]string) map[string][]string {
	out := map[string][]string{}
	if len(rows) == 0 {
		return out
	}
	name := slices.Index(rows[0], "name")
	for _, column := range []string{"allergies", "dislikes"} {
		c := slices.Index(rows[0], column)
		for _, row := range rows[1:] {
			if c < 0 || name < 0 || len(row) <= max(c, name) {
				continue
			}
			for word := range strings.SplitSeq(row[c], ";") {
				if word = strings.TrimSpace(facts.Printable(word)); word != "" {
					out[row[name]] = append(out[row[name]], word)
				}
			}
		}
	}
	return out
}

// water holds the plan's water beside published advice.
func water(p *ration.Plan) *Water {
	if p.Totals == nil {
		return nil
	}
	w := &Water{PlanL: p.Totals.WaterL}
	req, err := p.Request.Load()
	if err != nil { // the plan stands by itself; there is no advice to hold it against
		return w
	}
	need := stores.Recommend(stores.ComputeWater(stockpile.WaterInputOf(req, p)), p.Totals.WaterL)
	for i, a := range need.Allowances {
		if l := need.AllowanceL[i]; l > w.PlanL*(1+waterSame) && l > w.AdviceL {
			w.AdviceL, w.Advice = l, a.Name+", "+sheet.Figure(a.LPerHeadDay)+" L a head a day"
		}
	}
	return w
}

// waterSame is the part of an amount of water by which two figures are the same to
// a reader.
const waterSame = 0.005

package verify

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Planning rules on kinds of food, read from the rows of kind_caps.csv. A rule that
// the plan says it goes beyond is allowed as far as it says; a safety row never.

// sittingsADay is how often a day a kind is eaten of which only the amount at one
// sitting is known: common practice, no source.
const sittingsADay = 2

// kinds holds what is eaten of each kind of food to its amounts and to its share
// of the energy.
func (c *checker) kinds(d *diner) {
	p := &d.needs.Person
	for _, kind := range c.req.Table.Kinds().Kinds {
		if c.capRows[kind.Name] == nil {
			continue
		}
		in := func(f *foods.Food) bool {
			return slices.Contains(f.Kinds, kind.Name) && !(isMilk(f) && c.feedML(d, f) != nil)
		}
		for _, safety := range []bool{true, false} {
			for _, unit := range []string{kinds.Grams, kinds.CupEq, kinds.MgCaffeine} {
				most := c.kindPerDay(p, kind.Name, unit, safety)
				if math.IsInf(most, 1) || !safety && c.req.IgnoreEatable {
					continue
				}
				got := d.sum(func(f *foods.Food) float64 {
					if !in(f) {
						return 0
					}
					return c.countOf(f, unit, p)
				}) / c.days()
				if !safety {
					most = c.loosened(p.Name, kind.Name, unit, most)
				}
				c.atMost(p.Name, "most "+kind.Name, got, most)
			}
		}
	}
	if d.needs.Feed == nil && !c.req.IgnoreEatable {
		c.energyShares(d)
	}
}

// countOf is what a gram of f counts in a unit of the caps.
func (c *checker) countOf(f *foods.Food, unit string, p *nutrients.Person) float64 {
	switch unit {
	case kinds.Grams:
		return 1
	case kinds.CupEq:
		return math.Max(f.PerGram("dairy"), f.PerGram("beans"))
	}
	return c.tables.caffeineMg(f, p)
}

// capValue is the smallest value that the rows of a kind and measure set for p,
// infinite where none is about them. Amounts of grown people are scaled by age; a
// child under a year has safety rows only, as their rows say.
func (c *checker) capValue(p *nutrients.Person, kind string, measure kinds.Measure, unit string, safety bool) float64 {
	least := math.Inf(1)
	for _, r := range c.capRows[kind] {
		if r.Measure != measure || r.Safety != safety || r.None || unit != "" && r.Unit != unit || !about(r, p) {
			continue
		}
		value := r.Value
		if r.Scaled {
			value *= c.partOfAdult(p)
		}
		least = math.Min(least, value)
	}
	return least
}

func about(r *kinds.CapRow, p *nutrients.Person) bool {
	switch r.Who {
	case "all":
	case "pregnant", "lactating":
		if !means(r.Who, p) {
			return false
		}
	default:
		if !slices.Contains(p.Conditions, nutrients.Condition(r.Who)) {
			return false
		}
	}
	return p.AgeMonths >= r.FromMonths && (r.UnderMonths == 0 || p.AgeMonths < r.UnderMonths)
}

// partOfAdult is what part of a grown person's amounts somebody of p's age takes.
func (c *checker) partOfAdult(p *nutrients.Person) float64 {
	for _, r := range c.capRows[kinds.AnyKind] {
		if r.Measure == "scale" && about(r, p) {
			return r.Value
		}
	}
	return 1
}

// kindPerDay is the most of a kind in a day, on average, that its amounts at a
// sitting, in a day and in a week and its days a week come to.
func (c *checker) kindPerDay(p *nutrients.Person, kind, unit string, safety bool) float64 {
	value := func(m kinds.Measure, unit string) float64 { return c.capValue(p, kind, m, unit, safety) }
	day := value(kinds.Day, unit)
	if math.IsInf(day, 1) {
		day = sittingsADay * value(kinds.Sitting, unit)
	}
	days := math.Min(7, value(kinds.DaysWeek, ""))
	return math.Min(day*days/7, value(kinds.Week, unit)/7)
}

// unknownShare is the most of a person's energy, in per cent, from foods without a
// figure for a nutrient with a ceiling: planning rule of this program, no source.
const unknownShare = 50

// energyShares holds each food, each kind and the foods without a figure to their
// shares of the energy eaten.
func (c *checker) energyShares(d *diner) {
	p := &d.needs.Person
	all := content(d.eaten, nutrients.Energy)
	if all <= 0 {
		return
	}
	hold := func(name string, share float64, in func(*foods.Food) bool) {
		part := d.sum(func(f *foods.Food) float64 {
			kcal := f.Per100g.Known(nutrients.Energy)
			if !in(f) {
				return 0
			}
			return kcal / 100
		})
		c.atMost(p.Name, name+" as a share of all energy", part/all*100, c.loosened(p.Name, name, ration.PartOfEnergy, share))
	}
	one := c.capValue(p, kinds.AnyFood, kinds.Share, "", false)
	for _, h := range d.eaten {
		name := h.food.Name
		if c.req.Table.Kinds().Kind(name) != nil {
			name += ", this food alone" // a kind is called the same
		}
		hold(name, one, func(f *foods.Food) bool { return f == h.food })
	}
	any := c.capValue(p, kinds.AnyKind, kinds.Share, "", false)
	for _, kind := range c.req.Table.Kinds().Kinds {
		share := c.capValue(p, kind.Name, kinds.Share, "", false)
		if math.IsInf(share, 1) && len(kind.Foods) > 1 {
			share = any
		}
		hold(kind.Name, share, func(f *foods.Food) bool { return slices.Contains(f.Kinds, kind.Name) })
	}
	for _, need := range d.needs.List {
		if need.Ceiling == nil || need.Shown || need.Nutrient == nutrients.Energy {
			continue
		}
		hold("food without a figure for "+ration.PlainName(need.Nutrient), unknownShare, func(f *foods.Food) bool {
			_, known := f.Per100g.Get(need.Nutrient)
			return !known
		})
	}
}

// loosened is the amount to which the plan says that it goes beyond a planning
// rule.
func (c *checker) loosened(person, kind, unit string, limit float64) float64 {
	if c.plan.Eatable == nil {
		return limit
	}
	for _, l := range c.plan.Eatable.Loosened {
		if l.Person == person && l.Kind == kind && l.Unit == unit {
			limit = math.Max(limit, l.Amount)
		}
	}
	return limit
}

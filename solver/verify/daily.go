package verify

import (
	"cmp"
	"slices"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Daily is the most that a publication lets someone have of some foods together in a day:
// a plan keeps it on average, a menu day by day.
type Daily struct {
	Name, Unit string
	Most       float64                   // a day, in Unit
	Counts     func(*foods.Food) float64 // what a gram counts, in Unit
}

// DailyOf lists the published amounts of a day that bind p, from the rows of caps.csv and
// kind_caps.csv; what they give for a week is about the average, which the plan keeps.
// Milk feeds of infants count nothing. An error means that the tables cannot be read.
func DailyOf(req *ration.Request, p *nutrients.Person) ([]Daily, error) {
	t, err := readTables()
	if err != nil {
		return nil, err
	}
	c := newChecker(req, t)
	var list []Daily
	add := func(d Daily) {
		counts := d.Counts
		d.Counts = func(f *foods.Food) float64 {
			if isMilk(f) {
				return 0
			}
			return counts(f)
		}
		list = append(list, d)
	}
	units := map[string]string{"caffeine-day": "mg", "juice-day": "mL", "milk-day": "mL"}
	for _, g := range (personal{c}).groupsOf(p) {
		if most, ok := c.tables.cap(p, g.key); ok && g.publishedDaily() {
			add(Daily{g.name, cmp.Or(units[g.key], kinds.Grams), most * g.perUnit, g.count})
		}
	}
	for _, kind := range c.req.Table.Kinds().Kinds {
		for _, unit := range []string{kinds.Grams, kinds.CupEq, kinds.MgCaffeine} {
			if !slices.ContainsFunc(c.capRows[kind.Name], func(r *kinds.CapRow) bool {
				return r.Measure == kinds.Day && r.Unit == unit && r.Safety && about(r, p)
			}) {
				continue
			}
			add(Daily{kind.Name, unit, c.capValue(p, kind.Name, kinds.Day, unit, true), func(f *foods.Food) float64 {
				if !slices.Contains(f.Kinds, kind.Name) {
					return 0
				}
				return c.countOf(f, unit, p)
			}})
		}
	}
	return list, nil
}

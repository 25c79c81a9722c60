package foods

import (
	"fmt"
	"sort"

	"rationwright/nutrients"
)

// PatternFloor is the least that a person eats of one group of the daily
// pattern, per day. A dropped floor binds nothing and is printed with its
// note.
type PatternFloor struct {
	Group     string
	PerDay    float64 // in Unit; 0 when dropped
	Unit      string  // oz-eq, cup-eq or g of oil
	Published float64 // the pattern's own amount per day at the person's energy
	Scale     float64 // PerDay = Published × Scale
	Source    string
	Dropped   bool
	Note      string
}

// Pattern returns the floors of the daily pattern of food groups for the
// person of needs, in the order of [PatternGroups]. The amounts of the
// published pattern are interpolated at the person's energy requirement
// between the levels of the table and held at its ends; see data/pattern.csv
// for the amounts and for the scale, which is common practice without a
// source. Children of 12 to 23 months follow the toddler pattern, vegetarians
// and vegans the vegetarian one; infants have none.
//
// eaten holds the foods that the person may and will eat. A group that none of
// them serves, or that their daily caps cannot fill, loses its floor with a
// note. So does dairy for a person who does not digest lactose: half the
// published dairy holds more lactose than one tolerated dose; and with kidney
// disease, where milk and drinks like it hold what is ordered to be little.
func (t *Table) Pattern(needs *nutrients.Needs, eaten []*Food) []PatternFloor {
	p := &needs.Person
	if p.AgeMonths < infantMonths || needs.Refused != nil {
		return nil
	}
	var floors []PatternFloor
	for _, g := range PatternGroups {
		floor, ok := interpolate(t.pattern, patternName(p), g.Name, needs.EER.Amount)
		if !ok {
			continue
		}
		floor.PerDay = floor.Published * floor.Scale
		if note := unreachable(&floor, p, eaten); note != "" {
			floor.PerDay, floor.Dropped, floor.Note = 0, true, note
		}
		floors = append(floors, floor)
	}
	return floors
}

// patternName returns the pattern that p follows.
func patternName(p *nutrients.Person) string {
	name := "us"
	if p.Has(nutrients.Vegetarian) || p.Has(nutrients.Vegan) {
		name = "vegetarian"
	}
	if p.AgeMonths < 24 {
		name = "toddler-" + name
	}
	return name
}

// interpolate returns the floor of group at an energy of kcal per day, PerDay
// not yet set.
func interpolate(rows []patternRow, pattern, group string, kcal float64) (PatternFloor, bool) {
	var levels []*patternRow
	for i := range rows {
		if rows[i].pattern == pattern && rows[i].group == group {
			levels = append(levels, &rows[i])
		}
	}
	if len(levels) == 0 {
		return PatternFloor{}, false
	}
	sort.Slice(levels, func(i, j int) bool { return levels[i].level < levels[j].level })
	at := sort.Search(len(levels), func(i int) bool { return levels[i].level >= kcal })
	hi := levels[min(at, len(levels)-1)]
	lo := levels[max(min(at, len(levels)-1)-1, 0)]
	if at == 0 || at == len(levels) {
		lo = hi
	}
	share := 0.0
	if hi.level > lo.level {
		share = (kcal - lo.level) / (hi.level - lo.level)
	}
	return PatternFloor{
		Group:     group,
		Unit:      hi.unit,
		Published: lo.published + share*(hi.published-lo.published),
		Scale:     lo.scale + share*(hi.scale-lo.scale),
		Source:    hi.source,
		Note:      hi.note,
	}, true
}

// unreachable says why p cannot reach the floor, "" when they can.
func unreachable(floor *PatternFloor, p *nutrients.Person, eaten []*Food) string {
	if floor.Group == "dairy" && p.Has(nutrients.Lactose) {
		return "no dairy floor with lactose intolerance: it would hold more lactose than one tolerated dose"
	}
	if floor.Group == "dairy" && p.Has(nutrients.KidneyDisease) {
		return "no dairy floor with kidney disease: milk holds much phosphorus, potassium and fluid (own planning rule)"
	}
	most := 0.0
	any := false
	for _, f := range eaten {
		if per := f.PerGram(floor.Group); per > 0 {
			any = true
			_, day, _ := Cap(p, f)
			most += per * day
		}
	}
	if !any {
		return fmt.Sprintf("no %s floor: there is no such food that %s may and will eat", floor.Group, p.Name)
	}
	if most < floor.PerDay {
		return fmt.Sprintf("no %s floor: all that %s may and will eat of it in a day is %.1f %s", floor.Group, p.Name, most, floor.Unit)
	}
	return ""
}

package model

import (
	"math"
)

// jarLeast is the part of a jar that counts as one: the rest stays in it.
const jarLeast = 0.9

// addJars lets an infant have a jar of meat on each day or on none. A jar that is opened is
// finished on that day and holds half of what an infant has of protein in a day, so that a
// few of them put every day outside the room for protein. With b a jar a day, or not:
//
//	jarLeast·jar·days·b ≤ Σ y ≤ jar·days·b   over the meats
//
// Where there are jars on hand, or no such food may be eaten, there is no such rule.
func (b *seater) addJars(g *Party) {
	g.Jars = -1
	if g.Eaters[0].Person.AgeMonths >= TableMonths {
		return
	}
	jar := 0.0
	var cols []int
	for _, y := range g.Eaters[0].Eats {
		lf := b.Larder[y.Food]
		if !b.menu.Foods[y.Food] || !lf.Food.IsInfantMeat() {
			continue
		}
		if len(lf.Stock) > 0 || len(lf.Reserve) > 0 {
			return
		}
		for _, k := range lf.Buy {
			jar = math.Max(jar, k.Pack.NetG)
		}
		cols = append(cols, y.Col)
	}
	if jar == 0 {
		return
	}
	name := g.Eaters[0].Person.Name
	g.Jars = b.addServings("jar-a-day["+name+"]", 1, true)
	if b.menu.Jars != nil {
		at := 0
		if b.menu.Jars[name] {
			at = 1
		}
		b.fix(g.Jars, at)
	}
	least, most := b.addDishRow("jars-least["+name+"]", 0, Inf), b.addDishRow("jars-most["+name+"]", -Inf, 0)
	for _, col := range cols {
		b.Problem.Set(least, col, 1)
		b.Problem.Set(most, col, 1)
	}
	b.Problem.Set(least, g.Jars, -jarLeast*jar*b.Days())
	b.Problem.Set(most, g.Jars, -jar*b.Days())
}

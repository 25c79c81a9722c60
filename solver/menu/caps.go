package menu

import (
	"math"

	"rationwright/foods"
	"rationwright/solver/linear"
)

const (
	costOverSitting = 30 // a g over what is eaten at a sitting, per kcal of it
	costOverDay     = 3  // likewise in a day, of a drink that is finished at the meal: whole cartons come together on some day
	cartons         = 2  // times the most of a day, over which that counts: up to it a day's protein is worth more
	costOverGlass   = 3  // likewise over what is gladly eaten of a kind at a sitting: a small child has a glass of milk, whoever else drinks of the carton
	sittingKcal     = 50 // that a sitting of what gives less is weighed as: baking powder, spices
)

// sittings gathers what one eater may get at one meal and on one day of foods that are
// eaten alike, over all dishes that they are in: nobody eats two dishes' worth of beans at
// one meal, nor finishes carton after carton of juice on one day.
type sittings struct {
	at    map[sitting]*columns
	order []sitting
}

// sitting is a food, or those of one group that do not keep once opened, at a meal or where
// day is set on the day of that meal.
type sitting struct {
	food  *stocked
	group string
	kind  int // among the glasses of the eater, from 1
	t     int
	day   bool
}

// eatenAt is a sitting of one eater.
type eatenAt struct {
	*eater
	sitting
}

// columns are those of a sitting, and the most of it.
type columns struct {
	cols        []linear.Entry // columns, each with what a g counts
	most, weigh float64        // of one over the most
}

func newSittings() *sittings { return &sittings{at: map[sitting]*columns{}} }

// add notes a column of what e may get of s at t.
func (c *sittings) add(e *eater, s *stocked, t, col int) {
	occasion, day, _ := foods.Cap(e.person, s.food)
	if s.openings == nil {
		c.note(sitting{food: s, t: t}, s, col, 1, occasion, costOverSitting)
		return
	}
	c.note(sitting{group: s.food.Group, t: t}, s, col, 1, occasion, costOverSitting)
	for i, l := range e.glasses {
		if each := l.Counts(s.food); each > 0 && s.food.IsFluid() {
			c.note(sitting{kind: i + 1, t: t}, s, col, each, l.Most, costOverGlass/each)
		}
	}
	switch key := (sitting{group: s.food.Group, t: t / meals, day: true}); {
	case !s.meal:
		c.note(key, s, col, 1, day, costOverSitting)
	case s.food.IsFluid():
		c.note(key, s, col, 1, cartons*day, costOverDay)
	}
}

func (c *sittings) note(key sitting, s *stocked, col int, each, most, cost float64) {
	if most <= 0 {
		return
	}
	if c.at[key] == nil {
		c.at[key] = &columns{}
		c.order = append(c.order, key)
	}
	of := c.at[key]
	of.cols = append(of.cols, linear.Entry{Row: col, Value: each})
	of.most = math.Max(of.most, most)
	of.weigh = math.Max(of.weigh, cost*math.Max(kcalPerG(s.food), sittingKcal/math.Max(most, 1)))
}

// hold adds the rows: at most what is eaten at a sitting and in a day.
func (c *sittings) hold(p *program, e *eater) {
	for _, key := range c.order {
		of := c.at[key]
		if key.kind == 0 && len(of.cols) < 2 { // its own end holds it
			continue
		}
		p.mark(eatenAt{e, key})
		row := p.row(-inf, of.most)
		if key.kind == 0 {
			p.Set(row, p.col(e.count*of.weigh, inf), -1)
		} else {
			p.over(row, e.count*of.weigh, largeRoom*of.most, costHuge)
		}
		p.setPer(row, of.cols, 1)
	}
}

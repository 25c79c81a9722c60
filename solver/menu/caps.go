package menu

import (
	"math"

	"rationwright/foods"
)

const (
	costOverSitting = 30 // a g over what is eaten at a sitting, per kcal of it
	costOverDay     = 3  // likewise in a day, of a drink that is finished at the meal: whole cartons come together on some day
	cartons         = 2  // times the most of a day, over which that counts: up to it a day's protein is worth more
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
	cols        []int
	most, weigh float64 // of one g over the most
}

func newSittings() *sittings { return &sittings{at: map[sitting]*columns{}} }

// add notes a column of what e may get of s at t.
func (c *sittings) add(e *eater, s *stocked, t, col int) {
	occasion, day, _ := foods.Cap(e.person, s.food)
	if s.openings == nil {
		c.note(sitting{food: s, t: t}, s, col, occasion, costOverSitting)
		return
	}
	c.note(sitting{group: s.food.Group, t: t}, s, col, occasion, costOverSitting)
	switch key := (sitting{group: s.food.Group, t: t / meals, day: true}); {
	case !s.meal:
		c.note(key, s, col, day, costOverSitting)
	case s.food.IsFluid():
		c.note(key, s, col, cartons*day, costOverDay)
	}
}

func (c *sittings) note(key sitting, s *stocked, col int, most, cost float64) {
	if most <= 0 {
		return
	}
	if c.at[key] == nil {
		c.at[key] = &columns{}
		c.order = append(c.order, key)
	}
	of := c.at[key]
	of.cols = append(of.cols, col)
	of.most = math.Max(of.most, most)
	of.weigh = math.Max(of.weigh, cost*math.Max(kcalPerG(s.food), sittingKcal/math.Max(most, 1)))
}

// hold adds the rows: at most what is eaten at a sitting and in a day.
func (c *sittings) hold(p *program, e *eater) {
	for _, key := range c.order {
		of := c.at[key]
		if len(of.cols) < 2 {
			continue
		}
		p.mark(eatenAt{e, key})
		row := p.goal(-inf, of.most, e.count*of.weigh)
		for _, j := range of.cols {
			p.Set(row, j, 1)
		}
	}
}

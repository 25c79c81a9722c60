package solver

import (
	"cmp"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// checkPacks holds what all eat of a food against the whole packs of it, each
// pack counting for no more than can be eaten before it spoils or, from stock,
// by its date.
func (c *checker) checkPacks() {
	count := map[*foods.Food]float64{}
	bought := map[*foods.Food]float64{}
	fromStock := map[*foods.Pack]int{}
	for _, line := range c.plan.Packs {
		k := ration.FindPack(c.req, line.Pack)
		if k == nil || line.Count <= 0 {
			c.report("", "pack "+line.Pack+" is unknown or not counted", float64(line.Count), 1)
			continue
		}
		if !canOpen(c.req, k) {
			c.report("", "pack "+line.Pack+" is hard to open", float64(line.Count), 0)
		}
		if line.Reserve {
			continue
		}
		count[k.Food] += float64(line.Count)
		bought[k.Food] += float64(line.Count-line.FromStock) * c.usable(k)
		fromStock[k] += line.FromStock
	}
	for _, f := range c.req.Table.Foods {
		if f.HasTag(foods.TagHumanMilk) {
			continue
		}
		eaten := 0.0
		for i := range c.eaters {
			e := &c.eaters[i]
			grams := e.grams(f)
			eaten += float64(e.person.Count) * grams * spareFactor(&e.needs, f)
			if may := e.may[f]; may.windowG < may.capG {
				c.atMost(e.person.Name, "opened packs of "+f.Name, grams, may.windowG*count[f])
			}
		}
		c.atMost("", "packs of "+f.Name, eaten, bought[f]+c.stockG(f, fromStock))
	}
}

// stockG is the most that can be eaten out of the packs taken from stock: those
// that keep longest are taken first, and a pack that must be eaten by day e
// gives no more than all may eat of the food until then.
func (c *checker) stockG(f *foods.Food, taken map[*foods.Pack]int) float64 {
	type part struct {
		day   int
		grams float64
	}
	var parts []part
	left := map[*foods.Pack]int{}
	lines := slices.Clone(c.req.Stock)
	end := func(l foods.StockLine) int {
		if day, ok := lastDay(c.req, l); ok && day < c.req.Days {
			return max(day, 0)
		}
		return c.req.Days
	}
	slices.SortStableFunc(lines, func(a, b foods.StockLine) int { return cmp.Compare(end(b), end(a)) })
	for _, l := range lines {
		if l.Pack.Food != f {
			continue
		}
		n := min(int(l.Count), taken[l.Pack]-left[l.Pack])
		left[l.Pack] += n
		parts = append(parts, part{end(l), float64(n) * c.usable(l.Pack)})
	}
	perDay := 0.0
	for i := range c.eaters {
		e := &c.eaters[i]
		perDay += float64(e.person.Count) * spareFactor(&e.needs, f) * e.may[f].capG / c.days()
	}
	total := 0.0
	for i := len(parts) - 1; i >= 0; i-- { // by date, the earliest first
		total += parts[i].grams
		if parts[i].day < c.req.Days {
			total = math.Min(total, perDay*float64(parts[i].day))
		}
	}
	return total
}

// usable is what can be eaten of one pack: its net, what all eat in one open
// window, what all may eat over the horizon.
func (c *checker) usable(k *foods.Pack) float64 {
	window, most := 0.0, 0.0
	for i := range c.eaters {
		e := &c.eaters[i]
		n := float64(e.person.Count) * spareFactor(&e.needs, k.Food)
		window += n * e.may[k.Food].windowG
		most += n * e.may[k.Food].capG
	}
	return math.Min(k.NetG, math.Min(window, most))
}

// checkStock holds packs taken from stock to what is on hand, and buys nothing
// where only stock may be used.
func (c *checker) checkStock() {
	onHand := map[string]float64{}
	for _, line := range c.req.Stock {
		onHand[line.Pack.Key] += math.Floor(line.Count)
	}
	for _, line := range c.plan.Packs {
		c.atMost("", "stock of "+line.Pack, float64(line.FromStock), math.Min(onHand[line.Pack], float64(line.Count)))
		onHand[line.Pack] -= float64(line.FromStock) // the same packs cannot be set aside as well
		if c.req.StockOnly {
			c.atMost("", "bought "+line.Pack, float64(line.Count-line.FromStock), 0)
		}
	}
}

// checkReserve holds the fast sugar set aside against what is needed.
func (c *checker) checkReserve() {
	need, have := 0.0, 0.0
	fit := c.reserveFoods()
	for i := range c.eaters {
		need += float64(c.eaters[i].person.Count) * c.eaters[i].needs.ReserveG
	}
	for _, line := range c.plan.Packs {
		k := ration.FindPack(c.req, line.Pack)
		if k == nil || !line.Reserve {
			continue
		}
		have += float64(line.Count) * fastSugarG(k)
		if !slices.Contains(fit, k.Food) {
			c.report("", line.Pack+" may not be set aside here", float64(line.Count), 0)
		}
	}
	bought := func(f *foods.Food) bool { return anyOpens(c.req, f) }
	if !c.req.StockOnly && slices.ContainsFunc(fit, bought) {
		c.atLeast("", "fast sugar set aside", have, need)
	}
}

// reserveFoods are the foods of which packs may be set aside.
func (c *checker) reserveFoods() []*foods.Food {
	kitchen, err := openKitchen(c.req, false)
	if err != nil {
		return nil
	}
	var all []nutrients.Needs
	for i := range c.eaters {
		all = append(all, c.eaters[i].needs)
	}
	needy := needReserve(all)
	var list []*foods.Food
	for _, f := range kitchen.foods {
		if kitchen.mayReserve(needy, f) {
			list = append(list, f)
		}
	}
	return list
}

// checkSupplies recomputes stored water and heat from what is eaten and drunk.
func (c *checker) checkSupplies() {
	w := waterFigure()
	water := float64(c.req.Pets) * w.petL * c.days()
	heat := 0.0
	for i := range c.eaters {
		e := &c.eaters[i]
		n := float64(e.person.Count)
		drink := e.plan.DrinkLPerDay * c.days()
		kept := keptDrinkL(c.req, &e.person, e.plan.DrinkLPerDay, false) * c.days()
		water += n * (w.hygieneL*c.days() + w.spare*kept)
		if c.req.BoilWater {
			heat += n * drink * w.boilMJ
		}
		for _, p := range e.eaten {
			if p.food.Preparation == nil {
				continue
			}
			grams := n * p.grams * spareFactor(&e.needs, p.food)
			water += w.spare * grams * p.food.Preparation.WaterML / 100 / 1000
			if !eatenCold(c.req, p.food) {
				heat += grams * p.food.Preparation.HeatMJ / 100
			}
		}
	}
	for i := range c.refuse {
		needs := &c.refuse[i]
		kept := keptDrinkL(c.req, &needs.Person, refusedDrinkL(c.req, needs), true)
		water += float64(needs.Person.Count) * (w.hygieneL + w.spare*kept) * c.days()
	}
	if c.plan.Totals == nil {
		c.report("", "the plan has no totals", 0, 1)
		return
	}
	for _, s := range c.plan.Shortfalls {
		if s.Person == "" && s.Nutrient == shortWashing {
			water -= math.Min(s.Target-s.Amount, s.Target) * c.days()
		}
	}
	c.atLeast("", "stored water", c.plan.Totals.WaterL, water)
	c.atLeast("", "heat", c.plan.Totals.HeatMJ, heat)
}

// checkTotals recomputes cost, weight and volume from the packs.
func (c *checker) checkTotals() {
	if c.plan.Totals == nil {
		return
	}
	var food, all Supply
	for _, line := range c.plan.Packs {
		k := ration.FindPack(c.req, line.Pack)
		if k == nil {
			continue
		}
		n := float64(line.Count)
		food.Cost += float64(line.Count-line.FromStock) * k.Price
		food.WeightKg += n * k.GrossG / 1000
		food.VolumeL += n * k.VolumeL
	}
	t := c.plan.Totals
	for _, own := range []struct {
		what         string
		taken, total float64
		have         *float64
	}{{"water on hand", t.OwnWaterL, t.WaterL, c.req.StockWaterL}, {"heat on hand", t.OwnHeatMJ, t.HeatMJ, c.req.StockHeatMJ}} {
		most := 0.0
		if own.have != nil {
			most = math.Min(*own.have, own.total)
		}
		c.atMost("", own.what, own.taken, most)
	}
	supplies, err := suppliesOf(c.req)
	if err != nil {
		c.report("", err.Error(), 0, 0)
		return
	}
	per, heat := supplies.water, supplies.heat
	all.Cost = food.Cost + (t.WaterL-t.OwnWaterL)*per.Cost + (t.HeatMJ-t.OwnHeatMJ)*heat.Cost
	all.WeightKg = food.WeightKg + t.WaterL*per.WeightKg + t.HeatMJ*heat.WeightKg
	all.VolumeL = food.VolumeL + t.WaterL*per.VolumeL + t.HeatMJ*heat.VolumeL
	c.equal("cost of food", t.Food.Cost, food.Cost)
	c.equal("weight of food", t.Food.WeightKg, food.WeightKg)
	c.equal("volume of food", t.Food.VolumeL, food.VolumeL)
	c.equal("cost", t.Cost, all.Cost)
	c.equal("weight", t.WeightKg, all.WeightKg)
	c.equal("volume", t.VolumeL, all.VolumeL)
	if c.plan.Value != nil {
		c.equal("value", *c.plan.Value, t.Of(c.req.Least))
	}
}

func (c *checker) equal(what string, got, want float64) {
	if math.Abs(got-want) > checkTolerance*math.Max(1, math.Abs(want)) {
		c.report("", what+" as printed", got, want)
	}
}

// checkLimits holds the totals to the user's own limits.
func (c *checker) checkLimits() {
	t := c.plan.Totals
	if t == nil {
		return
	}
	for _, l := range []struct {
		name   string
		amount float64
		most   *float64
	}{
		{"budget", t.Cost, c.req.Limits.Budget},
		{"weight", t.WeightKg, c.req.Limits.WeightKg},
		{"shelf space", t.VolumeL, c.req.Limits.VolumeL},
		{"stored water", t.WaterL, c.req.Limits.WaterL},
		{"heat", t.HeatMJ, c.req.Limits.HeatMJ},
	} {
		if l.most != nil {
			c.atMost("", l.name, l.amount, *l.most)
		}
	}
	if c.req.Allowance {
		c.atLeast("", "water allowance", t.WaterL, allowanceL(c.req))
	}
	c.checkShelves()
}

// checkShelves holds food and water to the shelves of the request, and an
// arrangement to the plan's own packs.
func (c *checker) checkShelves() {
	if len(c.req.Shelves) == 0 {
		return
	}
	container := stores.PlanContainer(c.req.Shelves)
	loads := loadsOf(c.req, c.plan, container)
	room, bears := 0.0, 0.0
	for _, s := range c.req.Shelves {
		room += s.WidthCm * s.DepthCm * s.HeightCm / 1000
		bears += s.LoadKg
	}
	space := stores.SpaceOf(loads)
	c.atMost("", "room on the shelves", space.ShelfL, room)
	c.atMost("", "load of the shelves", space.Kg, bears)
	for _, l := range loads {
		if l.Key != container.Key && !l.StandsOnAny(c.req.Shelves) {
			c.report("", l.Key+" stands on none of the shelves", float64(l.Count), 0)
		}
	}
	fit := c.plan.Shelves
	if fit == nil {
		return
	}
	for _, fault := range stores.CheckFit(c.req.Shelves, loads, fit.Fit) {
		c.report("", "shelves: "+fault, 0, 0)
	}
	if fit.Stands != (len(fit.Left) == 0) {
		c.report("", "shelves: says that everything stands and leaves packs over", float64(len(fit.Left)), 0)
	}
}

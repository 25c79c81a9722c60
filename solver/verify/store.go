package verify

import (
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// waterRow is the figure of a row of the water table.
func waterRow(standard, group, use string) stores.WaterRule {
	for _, r := range stores.WaterRules() {
		if r.Standard == standard && r.Group == group && r.Use == use {
			return r
		}
	}
	return stores.WaterRule{Value: math.NaN(), ValueMax: math.NaN()} // fails every comparison
}

// petL is a pet's water a day: a US gallon (CDC), 3.785411784 L exactly.
const petL = 3.785411784

// stored is the part of the check that is about what the household stores: food,
// water and fuel together.
type stored struct{ *checker }

// heat multiplies the need to drink in a hot climate.
func (c *checker) heat() float64 {
	if c.req.Hot {
		return waterRow("FEMA/Red Cross", "hot climate", "drinking").Value
	}
	return 1
}

// keptL is the water kept for one person to drink a day: what they drink, and
// never under the published least for those whom no plan feeds, the pregnant, the
// heat and the ill. An infant under six months gets no plain water.
func (c *checker) keptL(p *nutrients.Person, drinks float64, fed bool) float64 {
	if p.AgeMonths < onlyFeedUnder {
		return drinks
	}
	kept := drinks
	if !fed {
		kept = math.Max(kept, waterRow("FEMA/Red Cross", "person", "drinking").Value)
	}
	if strings.HasPrefix(string(p.State), "pregnant") {
		kept = math.Max(kept, waterRow("CDC", "pregnant", "drinking").Value)
	}
	if c.req.Hot && p.AgeMonths >= infantUnder {
		kept = math.Max(kept, waterRow("CDC", "hot climate", "drinking").Value)
	}
	if slices.Contains(c.req.Ill, p.Name) {
		kept = math.Max(kept, waterRow("CDC", "sick", "drinking").ValueMax)
	}
	return kept
}

// supplies recomputes the stored water and the heat from what is eaten and drunk.
func (c stored) supplies() {
	spill := waterRow("Planning", "household", "spill_and_spoilage_allowance").Value
	washing := waterRow("Planning", "person", "dish_and_hand_hygiene").Value
	if c.req.WashingL != nil {
		washing = *c.req.WashingL
	}
	water, heat := float64(c.req.Pets)*petL*c.days(), 0.0
	for _, d := range c.diners {
		drinks := d.plan.DrinkLPerDay
		water += d.heads * c.days() * (washing + spill*c.keptL(&d.needs.Person, drinks, true))
		if c.req.BoilWater {
			heat += d.heads * c.days() * drinks * boilMJ()
		}
		for _, h := range d.eaten {
			m := c.makingOf(h.food)
			made := d.heads * h.grams / 100 * boughtPerGram(d, h.food)
			water += spill * made * m.waterL
			if !c.eatenCold(h.food) {
				heat += made * m.usefulMJ
			}
		}
	}
	for i := range c.refused {
		n := &c.refused[i]
		drinks := 0.0
		if n.Water.Total != nil {
			drinks = n.Water.Total.Amount * c.heat()
		}
		water += float64(n.Person.Count) * c.days() * (washing + spill*c.keptL(&n.Person, drinks, false))
	}
	if c.plan.Totals == nil {
		c.report("", "the plan has no totals", 0, 1)
		return
	}
	for _, s := range c.plan.Shortfalls { // of a closest ration: washing is given up first
		if s.Person == "" && s.Nutrient == "washing_water" {
			water -= math.Min(s.Target-s.Amount, s.Target) * c.days()
		}
	}
	c.atLeast("", "stored water", c.plan.Totals.WaterL, water)
	c.atLeast("", "heat", c.plan.Totals.HeatMJ, heat)
	c.atMost("", "heat", c.plan.Totals.HeatMJ, heat) // nobody carries fuel for more than is cooked
}

// boilMJ is the useful heat that makes a litre of doubtful water safe.
func boilMJ() float64 {
	for _, r := range stores.FuelRules() {
		if r.Key == "water_boil_for_disinfection_extra" {
			return r.Value
		}
	}
	return math.NaN()
}

// reserve holds the fast sugar set aside to what is needed, out of food that
// everybody in need of it may take and that harms no small child.
func (c stored) reserve() {
	need, have := 0.0, 0.0
	for _, d := range c.diners {
		need += d.heads * c.doses(d)
	}
	for _, line := range c.plan.Packs {
		k := c.pack(line.Pack)
		if k == nil || !line.Reserve {
			continue
		}
		have += float64(line.Count) * dosesOf(k)
		if line.Count > line.FromStock && dosesOf(k) > packedDoses {
			c.report("", line.Pack+" is no pack of doses", dosesOf(k), packedDoses)
		}
		if why := c.notReserve(k.Food); why != "" {
			c.report("", line.Pack+" may not be set aside: "+why, float64(line.Count), 0)
		}
		keeps := 0.0
		for _, l := range c.req.Stock {
			if l.Pack.Key == line.Pack && c.end(l) == c.req.Days {
				keeps += math.Floor(l.Count)
			}
		}
		c.atMost("", line.Pack+" set aside that keep to the last day", float64(line.FromStock), keeps)
	}
	can := func(f *foods.Food) bool {
		return c.notReserve(f) == "" && slices.ContainsFunc(f.Packs, func(k *foods.Pack) bool {
			return dosesOf(k) > 0 && dosesOf(k) <= packedDoses && (!c.req.EasyOpen || weakHands(k))
		})
	}
	if !c.req.StockOnly && slices.ContainsFunc(c.req.Table.Foods, can) {
		c.atLeast("", "doses of quick sugar set aside", have, need)
	}
}

// doses is how many lows one person is prepared for: the number for two weeks, in
// whole doses for the days.
func (c *checker) doses(d *diner) float64 {
	if d.needs.Lows == nil {
		return 0
	}
	return math.Ceil(float64(d.needs.Lows.Doses)*c.days()/float64(d.needs.Lows.Days) - 1e-9)
}

// dosesOf is how many lows a pack treats, at 15 g of sugars each (ADA, 15-15
// rule): one where it is finished within a day of opening.
func dosesOf(k *foods.Pack) float64 {
	whole := math.Floor(k.NetG*k.Food.FastSugarG()/15 + 1e-9)
	if k.Food.Keeping == nil || k.Food.Keeping.AfterOpenHours <= oneDayHours {
		return min(whole, 1)
	}
	return whole
}

// packedDoses is the most of a pack that is bought to hold doses.
const packedDoses = 20

// notReserve says why no pack of f may be set aside, "" where it may.
func (c stored) notReserve(f *foods.Food) string {
	if f.FastSugarG() <= 0 {
		return "it is no quick sugar"
	}
	if why := c.without[f]; why != "" {
		return why
	}
	for _, d := range c.diners {
		if d.needs.Lows == nil {
			continue
		}
		for _, why := range foods.Bars(d.needs.Person, c.req.People, f) {
			// The rules that keep quick sugar for a low are what it is kept for.
			if !strings.HasPrefix(why.Rule, "sugary-drink-") && !strings.HasPrefix(why.Rule, "sweets-") {
				return why.Text
			}
		}
	}
	for _, p := range c.req.People {
		if p.AgeMonths < infantUnder && f.HasTag(foods.TagHoney) || p.AgeMonths < 48 && f.HasTag(foods.TagChoking) {
			return "it harms a small child of the house"
		}
	}
	return ""
}

// amounts of one unit of a supply.
type each struct{ cost, kg, litres float64 }

// perUnit is what a litre of stored water and a MJ of heat cost, weigh and fill:
// a full container over its litres, a full pack of fuel over its useful heat.
func (c *checker) perUnit() (water, heat each, ok bool) {
	w, err := c.req.Table.Supply(foods.StoredWater)
	f, err2 := c.req.Table.Supply(c.req.Stove)
	s, err3 := stores.StoveByName(c.req.Stove)
	if err != nil || err2 != nil || err3 != nil {
		c.report("", "the supplies of water or fuel are unknown", 0, 0)
		return water, heat, false
	}
	box := stores.PlanContainer(c.req.Shelves)
	litres := box.NetML / 1000
	water = each{w.Price, box.GrossG() / 1000 / litres, box.BoxL / litres}
	useful := s.EnergyMJ * s.EffLow // at poor efficiency: a store must last
	heat = each{f.Price / useful, s.GrossG / 1000 / useful, s.LengthMM * s.WidthMM * s.HeightMM / 1e6 / useful}
	return water, heat, true
}

// totals recomputes cost, weight and volume from the packs, the water and the
// heat.
func (c stored) totals() {
	t := c.plan.Totals
	if t == nil {
		return
	}
	var food each
	for _, line := range c.plan.Packs {
		if k := c.pack(line.Pack); k != nil {
			n := float64(line.Count)
			food.cost += float64(line.Count-line.FromStock) * k.Price
			food.kg += n * k.GrossG / 1000
			food.litres += n * k.VolumeL
		}
	}
	own := func(what string, taken, total float64, have *float64) {
		most := 0.0
		if have != nil {
			most = math.Min(*have, total)
		}
		c.atLeast("", what, taken, 0)
		c.atMost("", what, taken, most)
	}
	own("water on hand", t.OwnWaterL, t.WaterL, c.req.StockWaterL)
	own("heat on hand", t.OwnHeatMJ, t.HeatMJ, c.req.StockHeatMJ)
	water, heat, ok := c.perUnit()
	if !ok {
		return
	}
	c.same("", "cost of food", t.Food.Cost, food.cost)
	c.same("", "weight of food", t.Food.WeightKg, food.kg)
	c.same("", "volume of food", t.Food.VolumeL, food.litres)
	c.same("", "cost", t.Cost, food.cost+(t.WaterL-t.OwnWaterL)*water.cost+(t.HeatMJ-t.OwnHeatMJ)*heat.cost)
	c.same("", "weight", t.WeightKg, food.kg+t.WaterL*water.kg+t.HeatMJ*heat.kg)
	c.same("", "volume", t.VolumeL, food.litres+t.WaterL*water.litres+t.HeatMJ*heat.litres)
	if c.plan.Value != nil {
		c.same("", "value", *c.plan.Value, map[ration.Least]float64{
			ration.LeastCost: t.Cost, ration.LeastWeight: t.WeightKg, ration.LeastVolume: t.VolumeL,
		}[c.req.Least])
	}
}

// limits holds the totals to the user's own limits.
func (c stored) limits() {
	t := c.plan.Totals
	if t == nil {
		return
	}
	l := c.req.Limits
	for _, own := range []struct {
		name   string
		amount float64
		most   *float64
	}{
		{"budget", t.Cost, l.Budget}, {"weight", t.WeightKg, l.WeightKg}, {"shelf space", t.VolumeL, l.VolumeL},
		{"stored water", t.WaterL, l.WaterL}, {"heat", t.HeatMJ, l.HeatMJ},
	} {
		if own.most != nil {
			c.atMost("", own.name, own.amount, *own.most)
		}
	}
	if c.req.Allowance {
		litres := float64(c.req.Pets) * petL
		for _, p := range c.req.People {
			litres += float64(p.Count) * stores.UsualAllowance().LPerHeadDay
		}
		c.atLeast("", "water allowance", t.WaterL, litres*c.days())
	}
	c.shelves()
}

// shelves holds food and water to the shelves, and an arrangement to the plan's
// own packs.
func (c stored) shelves() {
	if len(c.req.Shelves) == 0 {
		return
	}
	box := stores.PlanContainer(c.req.Shelves)
	var loads []stores.Load
	at := map[*foods.Pack]int{}
	for _, line := range c.plan.Packs {
		k := c.pack(line.Pack)
		if k == nil {
			continue
		}
		i, ok := at[k]
		if !ok {
			i = len(loads)
			at[k] = i
			loads = append(loads, stores.LoadOfPack(k, 0))
		}
		loads[i].Count += line.Count
	}
	if n := int(math.Ceil(c.plan.Totals.WaterL*1000/box.NetML - Tolerance)); n > 0 {
		loads = append(loads, stores.LoadOfContainer(box, n))
	}
	room, bears := 0.0, 0.0
	for _, s := range c.req.Shelves {
		room += s.WidthCm * s.DepthCm * s.HeightCm / 1000
		bears += s.LoadKg
	}
	takes := stores.SpaceOf(loads)
	c.atMost("", "room on the shelves", takes.ShelfL, room)
	c.atMost("", "load of the shelves", takes.Kg, bears)
	for _, l := range loads {
		if l.Key != box.Key && !l.StandsOnAny(c.req.Shelves) {
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

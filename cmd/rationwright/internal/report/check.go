package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"rationwright/foods/stores"
	"rationwright/solver"
)

// Check lays out what a stock is worth, in the order in which a household asks:
// is it enough, what is missing, what to buy, what to eat first, what is of no
// use.
func Check(c *solver.StockCheck, u Units) *Sheet {
	s := &Sheet{}
	if c.TopUp != nil {
		s.Alerts = alerts(c.TopUp)
	}
	s.Add(stockVerdict(c, u))
	s.Add(stockShort(c))
	s.Add(overSection(c.Over))
	s.Add(stockBuy(c))
	if noTopUp(c) {
		nothingFits(s, c.TopUp, c.Currency, u)
	}
	s.Add(stockEatBy(c))
	s.Add(stockUseless(c))
	s.Add(stockExcess(c))
	for i := range c.People {
		p := person(&c.People[i], &solver.Plan{}, u)
		p.Title += " from the stock alone"
		p.Notes = nil
		s.Add(p)
	}
	if c.TopUp != nil {
		s.Add(cautions(c.TopUp))
		s.Add(assumed(c.TopUp))
	}
	return s
}

// noTopUp reports whether there is no plan of the stock and a purchase together.
func noTopUp(c *solver.StockCheck) bool {
	return c.TopUp != nil && c.TopUp.Status == solver.StatusInfeasible
}

// nothingCompletes reports whether a stock falls short and no purchase completes it
// within the limits asked for. Where everyone is refused there is nothing to
// complete.
func nothingCompletes(c *solver.StockCheck) bool {
	return noTopUp(c) && !c.Balanced && len(c.People) > 0
}

// stockVerdict answers in a few lines.
func stockVerdict(c *solver.StockCheck, u Units) Section {
	var lines []string
	if c.Balanced {
		lines = append(lines, fmt.Sprintf("This stock is balanced: it meets every need of everyone for %s.", dayCount(c.Horizon)))
	} else {
		lines = append(lines, fmt.Sprintf("THIS STOCK IS SHORT of a balanced ration for %s.", dayCount(c.Horizon)))
	}
	if nothingCompletes(c) {
		lines = append(lines, "NOTHING THAT COMPLETES IT FITS THE LIMITS GIVEN: what conflicts and what it would take is below.")
	}
	lines = append(lines, fmt.Sprintf("It meets every need for %s, and gives everyone the energy for %s.",
		stockDays(c.Days), stockDays(c.DaysEnergy)))
	if days := c.DaysCalories; math.Floor(days) > float64(c.DaysEnergy) {
		lines = append(lines, fmt.Sprintf("Its calories, simply divided by what all need, would come to %s days; but people eat only so much of one food a day, and nothing after its date.", decimals(days, 1)))
	}
	if c.First != "" {
		lines = append(lines, "What runs out first: "+NutrientName(c.First)+".")
	}
	water := fmt.Sprintf("The ration takes %s of stored water", u.Water(c.WaterNeededL))
	if c.WaterOnHandL != nil {
		water += fmt.Sprintf(" (%s on hand)", u.Water(*c.WaterOnHandL))
	}
	heat := fmt.Sprintf(" and %s of useful heat for cooking", u.Heat(c.HeatNeededMJ))
	if c.HeatOnHandMJ != nil {
		heat += fmt.Sprintf(" (%s on hand)", u.Heat(*c.HeatOnHandMJ))
	}
	return Section{Title: "The stock", Lead: append(lines, water+heat+".")}
}

func dayCount(days int) string {
	if days == 1 {
		return "1 day"
	}
	return strconv.Itoa(days) + " days"
}

// longestChecked is where a stock check stops counting days.
const longestChecked = 365

func stockDays(days int) string {
	switch {
	case days <= 0:
		return "no full day"
	case days >= longestChecked:
		return "a year or more"
	}
	return dayCount(days)
}

// stockShort lists what the stock does not give, what matters most first.
func stockShort(c *solver.StockCheck) Section {
	var list []solver.Shortfall
	for _, s := range c.Short {
		list = append(list, solver.Shortfall{Person: s.Person, Nutrient: s.Nutrient, Unit: s.Unit, Amount: s.Amount, Target: s.Floor})
	}
	g := shortGrid(list, len(c.People))
	return Section{Title: "What it does not give, what matters most first", Table: g,
		Notes: notesIf(len(g.rows()) > 0, "This is the share-out of the stock that comes closest for everyone; what each person gets is below.")}
}

func notesIf(when bool, lines ...string) []string {
	if !when {
		return nil
	}
	return lines
}

// stockBuy is the cheapest purchase that completes the stock.
func stockBuy(c *solver.StockCheck) Section {
	sec := Section{Title: "What completes it, at least cost"}
	if len(c.Buy) == 0 {
		switch {
		case nothingCompletes(c):
			sec.Lead = []string{"Nothing that completes it fits the limits given. What conflicts, the ways out and what the closest ration lacks come next: of the stock and a purchase together."}
		case c.Balanced:
			sec.Lead = []string{"Nothing need be bought."}
		}
		return sec
	}
	g := &Grid{Columns: []Column{{Name: "buy", Right: true}, {Name: "food", Wrap: true}, {Name: "pack", Wrap: true}, {Name: "cost", Right: true}}}
	byMJ := false
	for _, b := range asideLast(c.Buy) {
		block := ""
		if b.Reserve {
			block = aisle(solver.PlanPack{Reserve: true})
		}
		if b.Pack == packOfHeat {
			packs, fuel, pack := fuelToBuy(c, b.Count)
			g.append(block, packs, fuel, pack, money(b.Cost))
			byMJ = true
			continue
		}
		g.append(block, strconv.Itoa(b.Count), b.Food, b.Pack, money(b.Cost))
	}
	sec.Table = g
	if c.BuyCost != nil {
		sec.Notes = []string{fmt.Sprintf("Together %s %s. %s", money(*c.BuyCost), c.Currency, howGood(c.TopUp))}
	}
	if byMJ {
		sec.Notes = append(sec.Notes, "Fuel is in whole packs at poor efficiency, for the stove named under what is assumed (--stove); its cost is by the MJ. stores says what other stoves take.")
	}
	return sec
}

// packOfHeat is what a purchase calls the heat that it buys, in MJ.
const packOfHeat = "heat"

// fuelToBuy is mj of useful heat as fuel that a shop sells: whole packs of the
// fuel of the plan's stove, at poor efficiency as the plan counts it.
func fuelToBuy(c *solver.StockCheck, mj int) (packs, fuel, pack string) {
	fuel = fmt.Sprintf("fuel for %d MJ of useful heat for cooking", mj)
	if c.TopUp == nil || c.TopUp.Request == nil {
		return "", fuel, ""
	}
	stove, err := stores.StoveByName(c.TopUp.Request.Options["stove"])
	if err != nil {
		return "", fuel, ""
	}
	need := stores.FuelFor(stove, float64(mj), "")
	return strconv.Itoa(need.PacksPoor), fuel, stove.Fuel + ", " + stove.Pack
}

// asideLast returns the purchase with what is set aside after all that is eaten,
// in its order otherwise: a title in a table holds for every line below it.
func asideLast(buy []solver.Buy) []solver.Buy {
	return slices.SortedStableFunc(slices.Values(buy), func(a, b solver.Buy) int {
		switch {
		case a.Reserve == b.Reserve:
			return 0
		case b.Reserve:
			return -1
		}
		return 1
	})
}

// howGood says how near to the best a completion is proven to be.
func howGood(p *solver.Plan) string {
	if p == nil || p.Gap == nil {
		return ""
	}
	return fmt.Sprintf("Water and fuel counted in, the whole is proven within %s of the cheapest possible.", gapPercent(*p.Gap))
}

func stockEatBy(c *solver.StockCheck) Section {
	g := &Grid{Columns: []Column{{Name: "until"}, {Name: "pack", Wrap: true}, {Name: "packs", Right: true},
		{Name: "holds", Right: true}, {Name: "eaten by then", Right: true}, {Name: "mark"}}}
	for _, e := range c.EatBy {
		until, mark := e.BestBefore, ""
		if e.Opened != "" {
			until = untilDay(c, e.Day)
			mark = "open since " + e.Opened
		}
		if e.Past {
			mark = strings.TrimPrefix(mark+", PAST ITS TIME", ", ")
		}
		g.append("", until, e.Pack, figure(e.Count), Metric.Net(e.Grams), Metric.Net(e.EatenG), mark)
	}
	return Section{Title: "Eat these first: their time ends within the days asked", Table: g,
		Notes: notesIf(len(g.rows()) > 0, "\"eaten by then\": the most that all here may eat of the food until that day; the rest counts for nothing.")}
}

// untilDay is the last day on which an open pack counts, as a date where day one
// has one.
func untilDay(c *solver.StockCheck, day int) string {
	if day < 1 {
		return "already over"
	}
	if c.TopUp != nil && c.TopUp.Request != nil {
		if first, err := time.Parse(time.DateOnly, c.TopUp.Request.Start); err == nil {
			return first.AddDate(0, 0, day-1).Format(time.DateOnly)
		}
	}
	return "day " + strconv.Itoa(day)
}

func stockUseless(c *solver.StockCheck) Section {
	g := &Grid{Columns: []Column{{Name: "pack", Wrap: true}, {Name: "packs", Right: true}, {Name: "why", Wrap: true}}}
	for _, x := range c.Useless {
		g.append("", x.Pack, figure(x.Count), x.Reason)
	}
	return Section{Title: "Of no use here", Table: g}
}

func stockExcess(c *solver.StockCheck) Section {
	g := &Grid{Columns: []Column{{Name: "who", Wrap: true}, {Name: "nutrient", Wrap: true}, {Name: "would get a day", Right: true},
		{Name: "at most", Right: true}, {Name: "unit"}}}
	for _, s := range c.Excess {
		g.append("", clean(s.Person), NutrientName(s.Nutrient), amount(s.Amount), amount(s.Ceiling), unitOf(s.Unit, s.Nutrient))
	}
	return Section{Title: "Too much, if everything in it were eaten alike", Table: g,
		Notes: notesIf(len(g.rows()) > 0, "Nobody need eat so: the share-out below takes more of one food and less of another.")}
}

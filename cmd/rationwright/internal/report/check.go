package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/solver/check"
	"rationwright/solver/ration"
)

// Check lays out what a stock is worth, in the order in which a household asks:
// is it enough, what is missing, what to buy, what to eat first, what is of no
// use.
func Check(c *check.StockCheck, u sheet.Units) *sheet.Sheet {
	s := &sheet.Sheet{Alerts: headline.Check(c).Lines()}
	s.Add(stockVerdict(c, u))
	s.Add(unsettled(c.Unsettled))
	s.Add(stockShort(c))
	s.Add(overSection(c.Over))
	s.Add(stockBuy(c))
	if noTopUp(c) {
		nothingFits(s, c.TopUp, c.Currency, u)
	}
	s.Add(stockEatBy(c))
	s.Add(stockUseless(c))
	s.Add(stockExcess(c))
	s.Add(sheet.Section{Title: "What your list was taken for", Lead: c.Taken})
	for i := range c.People {
		p := Person(&c.People[i], &ration.Plan{}, u)
		p.Title += " from the stock alone"
		p.Notes = nil
		s.Add(p)
	}
	if c.TopUp != nil {
		s.Add(cautions(&ration.Plan{Cautions: c.TopUp.Cautions})) // by name: the parts of people above have none of theirs
		s.Add(assumed(c.TopUp))
	} else {
		s.Add(cautions(&ration.Plan{Cautions: c.Cautions}))
	}
	return s
}

// noTopUp reports whether there is no plan of the stock and a purchase together.
func noTopUp(c *check.StockCheck) bool {
	return c.TopUp != nil && c.TopUp.Infeasible()
}

// nothingCompletes reports whether a stock falls short and no purchase completes it
// within the limits asked for. Where everyone is refused there is nothing to
// complete.
func nothingCompletes(c *check.StockCheck) bool {
	return noTopUp(c) && !c.Balanced && len(c.People) > 0
}

// stockVerdict answers in the first five lines, the headline among them, and adds
// what is not obvious.
func stockVerdict(c *check.StockCheck, u sheet.Units) sheet.Section {
	var sec sheet.Section
	sec.Lead.If(c.Balanced, "This stock is balanced: it meets every need of everyone for %s.", sheet.Count(c.Horizon, "day", "days"))
	sec.Lead = append(sec.Lead, fmt.Sprintf("It meets every need for %s, and gives everyone the energy for %s.", stockDays(c.Days), stockDays(c.DaysEnergy)))
	sec.Lead.If(c.First != "", "What runs out first: %s.%s", sheet.Nutrient(c.First), worstShort(c))
	if n := len(c.Buy); n > 0 && c.BuyCost != nil {
		sec.Lead = append(sec.Lead, fmt.Sprintf("%s to buy, %s, complete it; the list is below.", sheet.Count(n, "thing", "things"), strings.TrimSpace(sheet.Money(*c.BuyCost)+" "+facts.Printable(c.Currency))))
	}
	water := fmt.Sprintf("The ration takes %s of stored water", u.Water(c.WaterNeededL))
	if c.WaterOnHandL != nil {
		water += fmt.Sprintf(" (%s on hand)", u.Water(*c.WaterOnHandL))
	}
	heat := fmt.Sprintf(" and %s of useful heat for cooking", u.Heat(c.HeatNeededMJ))
	if c.HeatOnHandMJ != nil {
		heat += fmt.Sprintf(" (%s on hand)", u.Heat(*c.HeatOnHandMJ))
	}
	sec.Lead = append(sec.Lead, water+heat+".")
	if days := c.DaysCalories; math.Floor(days) > float64(c.DaysEnergy) {
		sec.Notes = []string{fmt.Sprintf("Its calories, simply divided by what all need, would come to %s days; but people eat only so much of one food a day, and nothing after its date.", sheet.Decimals(days, 1))}
	}
	return sec
}

// worstShort names the three needs that are shortest.
func worstShort(c *check.StockCheck) string {
	var list []ration.Shortfall
	for _, s := range c.Short {
		if s.Floor > 0 {
			list = append(list, ration.Shortfall{Person: s.Person, Nutrient: s.Nutrient, Amount: s.Amount, Target: s.Floor})
		}
	}
	slices.SortStableFunc(list, byShare)
	var words []string
	needs := byNeed(list)
	for _, need := range needs[:min(len(needs), 3)] {
		words = append(words, fmt.Sprintf("%s %s %%", sheet.Nutrient(need[0].Nutrient), sheet.Percent(share(need[0]))))
	}
	return sheet.Around(" Shortest, of what is needed: ", strings.Join(words, ", "), ".")
}

// unsettled says what the time did not allow to be worked out.
func unsettled(list []string) sheet.Section {
	if len(list) == 0 {
		return sheet.Section{}
	}
	return sheet.Section{Title: "Not worked out in the time", Lead: append(slices.Clone(list), "A longer --time may settle it.")}
}

// longestChecked is where a stock check stops counting days.
const longestChecked = 365

func stockDays(days int) string {
	switch {
	case days <= 0:
		return "less than one day"
	case days >= longestChecked:
		return "a year or more"
	}
	return sheet.Count(days, "day", "days")
}

// stockShort lists what the stock does not give, most serious first.
func stockShort(c *check.StockCheck) sheet.Section {
	var list []ration.Shortfall
	for _, s := range c.Short {
		list = append(list, ration.Shortfall{Person: s.Person, Nutrient: s.Nutrient, Unit: s.Unit, Amount: s.Amount, Target: s.Floor})
	}
	return sheet.Section{Title: "What it does not give, most serious first", Table: shortGrid(list, len(c.People)),
		Notes: []string{"This is the division of the stock that comes closest for everyone; what each person gets is below."}}
}

// stockBuy is the cheapest purchase that completes the stock.
func stockBuy(c *check.StockCheck) sheet.Section {
	sec := sheet.Section{Title: "What completes it, at least cost"}
	if len(c.Buy) == 0 {
		switch {
		case nothingCompletes(c):
			sec.Lead = []string{"Nothing that completes it fits the limits given. What conflicts, the ways out and what the closest ration lacks come next: of the stock and a purchase together."}
		case c.Balanced:
			sec.Lead = []string{"Nothing need be bought."}
		}
		return sec
	}
	g := sheet.NewGrid(">buy", "~food", "=pack", ">cost")
	byMJ := false
	for _, aside := range []bool{false, true} { // after all that is eaten: a title holds for every line below it
		block := map[bool]string{true: view.SetAside}[aside]
		for _, b := range c.Buy {
			switch {
			case b.Reserve != aside:
			case b.Pack == packOfHeat:
				packs, fuel, pack := fuelToBuy(c, b.Count)
				g.Row(block, packs, fuel, pack, sheet.Money(b.Cost))
				byMJ = true
			default:
				g.Row(block, strconv.Itoa(b.Count), b.Food, b.Pack, sheet.Money(b.Cost))
			}
		}
	}
	sec.Table = g
	if c.BuyCost != nil {
		sec.Notes = []string{fmt.Sprintf("Together %s %s. %s", sheet.Money(*c.BuyCost), c.Currency, howGood(c.TopUp))}
	}
	sec.Notes.If(byMJ, "Fuel is in whole packs at poor efficiency, for the stove named under what is assumed (--stove); its cost is by the MJ. stores says what other stoves take.")
	return sec
}

// packOfHeat is what a purchase calls the heat that it buys, in MJ.
const packOfHeat = "heat"

// fuelToBuy is mj of useful heat as fuel that a shop sells: whole packs of the
// fuel of the plan's stove, at poor efficiency as the plan counts it.
func fuelToBuy(c *check.StockCheck, mj int) (packs, fuel, pack string) {
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

// howGood says how near to the best a completion is proven to be.
func howGood(p *ration.Plan) string {
	if p == nil || p.Gap == nil {
		return ""
	}
	return fmt.Sprintf("Water and fuel counted in, the whole is proven within %s of the cheapest possible.", sheet.GapPercent(*p.Gap))
}

func stockEatBy(c *check.StockCheck) sheet.Section {
	g := sheet.NewGrid("until", "=pack", ">packs", ">holds", ">eaten by then", "mark")
	for _, e := range c.EatBy {
		until, mark := e.BestBefore, ""
		if e.Opened != "" {
			until, mark = untilDay(c, e.Day), "open since "+e.Opened
		}
		if e.Past {
			mark = strings.TrimPrefix(mark+", EXPIRED", ", ")
		}
		g.Row("", until, e.Pack, sheet.Figure(e.Count), sheet.Metric.Net(e.Grams), sheet.Metric.Net(e.EatenG), mark)
	}
	return sheet.Section{Title: "Eat these first: they expire within the days asked", Table: g,
		Notes: []string{"\"eaten by then\": the most that all here may eat of the food until that day; the rest counts for nothing."}}
}

// untilDay is the last day on which an open pack counts, as a date where day one
// has one.
func untilDay(c *check.StockCheck, day int) string {
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

func stockUseless(c *check.StockCheck) sheet.Section {
	g := sheet.NewGrid("=pack", ">packs", "~why")
	for _, x := range c.Useless {
		g.Row("", x.Pack, sheet.Figure(x.Count), x.Reason)
	}
	return sheet.Section{Title: "Not usable by this household", Table: g}
}

func stockExcess(c *check.StockCheck) sheet.Section {
	g := sheet.NewGrid("~who", "~nutrient", ">would get a day", ">at most", "unit")
	for _, s := range c.Excess {
		g.Row("", facts.Printable(s.Person), sheet.Nutrient(s.Nutrient), sheet.Amount(s.Amount), sheet.Amount(s.Ceiling), unitOf(s.Unit, s.Nutrient))
	}
	return sheet.Section{Title: "Too much, if everything in it were eaten alike", Table: g,
		Notes: []string{"Nobody need eat so: the division below takes more of one food and less of another."}}
}

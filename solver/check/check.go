package check

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/solver/answer"
	"rationwright/solver/conflict"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// StockCheck is what a stock is worth to a household.
type StockCheck struct {
	ration.NotFed

	Balanced   bool `json:"balanced"`    // the stock alone meets every need over the horizon
	Days       int  `json:"days"`        // longest horizon, up to 365, that it meets every need
	DaysEnergy int  `json:"days_energy"` // longest horizon that it gives everyone the energy
	Horizon    int  `json:"horizon"`     // days asked

	// DaysCalories is the energy in all of the stock that is of use, divided by what
	// everyone requires a day: no ration, but what is often counted.
	DaysCalories float64 `json:"days_calories"`

	First   string              `json:"first,omitempty"`  // what runs out first
	Short   []StockShort        `json:"short"`            // what matters most first
	Over    []ration.Over       `json:"over,omitempty"`   // ceilings that its share-out passes
	Excess  []StockShort        `json:"excess,omitempty"` // ceilings that would be passed if all of it were eaten
	EatBy   []EatBy             `json:"eat_by,omitempty"`
	Useless []Useless           `json:"useless,omitempty"`
	People  []ration.PlanPerson `json:"people,omitempty"` // the closest ration from the stock alone

	Buy          []Buy        `json:"buy"` // the cheapest completion
	BuyCost      *float64     `json:"buy_cost,omitempty"`
	Currency     string       `json:"currency,omitempty"`
	WaterNeededL float64      `json:"water_l_needed"`
	HeatNeededMJ float64      `json:"heat_mj_needed"`
	WaterOnHandL *float64     `json:"water_l_on_hand,omitempty"` // only where the stock list says
	HeatOnHandMJ *float64     `json:"heat_mj_on_hand,omitempty"`
	TopUp        *ration.Plan `json:"plan,omitempty"` // stock and purchases together

	Cautions []ration.Caution `json:"cautions,omitempty"`

	Taken []string `json:"taken,omitempty"` // what each line of a stock list in people's words was taken for

	// Unsettled is what the time did not allow to be worked out, in plain words.
	Unsettled []string `json:"unsettled,omitempty"`
}

// StockShort is one need that the stock does not meet, or one ceiling that it
// would pass, per day and person; without a person it is the household's.
type StockShort struct {
	Person   string  `json:"person,omitempty"`
	Nutrient string  `json:"nutrient"`
	Unit     string  `json:"unit"`
	Amount   float64 `json:"amount"`
	Floor    float64 `json:"floor,omitempty"`
	Ceiling  float64 `json:"ceiling,omitempty"`
}

// Check says what req.Stock gives the household: whether it is balanced over
// the horizon, how many days it lasts, what falls short, what must be eaten
// first, what is useless, and the cheapest purchase that completes it. It
// judges food; water and heat count only where the stock says how much of them
// there is, and are else reported as what they would take.
func Check(ctx context.Context, req *ration.Request, progress func(search.Progress)) (*StockCheck, error) {
	req, err := conflict.SetAside(ctx, req)
	if err != nil {
		return nil, err
	}
	alone := *req
	alone.StockOnly = true
	alone.IgnoreEatable = true // what a stock is worth is judged by needs and safety
	alone.Least = ration.LeastCost
	alone.Limits = ration.Limits{WaterL: req.StockWaterL, HeatMJ: req.StockHeatMJ}
	m, err := model.Build(&alone)
	if err != nil {
		return nil, err
	}
	out := &StockCheck{
		Horizon: m.Request.Days, Currency: m.Currency(), NotFed: answer.EmptyPlan(m).NotFed(),
		Short: []StockShort{}, Buy: []Buy{}, WaterOnHandL: req.StockWaterL, HeatOnHandMJ: req.StockHeatMJ,
	}
	for _, line := range req.Stock {
		if line.Taken != "" {
			out.Taken = append(out.Taken, line.Taken)
		}
	}
	if len(m.Eaters) > 0 {
		if err := out.judge(ctx, m); err != nil {
			return nil, err
		}
	}
	out.EatBy = eatBy(m)
	out.Useless = useless(m)
	return out, out.complete(ctx, req, m, progress)
}

// judge finds the horizons and what falls short.
func (out *StockCheck) judge(ctx context.Context, m *model.Model) error {
	horizon := func(part float64, loosen func(*model.Model) *model.Model, what string) (span, error) {
		ctx, stop := search.Part(ctx, part)
		defer stop()
		s, err := longest(ctx, m.Request, loosen)
		if err == nil && !s.settled() {
			out.Unsettled = append(out.Unsettled, fmt.Sprintf("for how many days more than %d %s", s.fits, what))
		}
		return s, err
	}
	needs, err := horizon(search.DaysPart, forNeeds, "the stock meets every need")
	if err != nil {
		return err
	}
	if needs.fits < m.Request.Days && needs.fails > m.Request.Days {
		return fmt.Errorf("%w: whether the stock is balanced was not settled in the time; a longer --time may settle it", ration.ErrNoPlan)
	}
	energy, err := horizon(search.EnergyPart, forEnergy, "it gives everyone the energy")
	if err != nil {
		return err
	}
	out.Days, out.DaysEnergy = needs.fits, max(needs.fits, energy.fits)
	out.DaysCalories = caloriesLast(m)
	lacking := m.Doses() - dosesInStock(m)
	out.Balanced = out.Days >= m.Request.Days && lacking <= 0
	if out.Days < ration.MostDays && needs.settled() {
		timed, stop := search.Part(ctx, search.FirstShortPart)
		out.First, err = firstShort(timed, m.Request, out.Days+1)
		ended := search.OutOfTime(timed)
		stop()
		switch {
		case ended:
			out.First, out.Unsettled = "", append(out.Unsettled, "what runs out first")
		case err != nil:
			return err
		}
	}
	m = forNeeds(m)
	timed, stop := search.Part(ctx, search.StockNearPart)
	defer stop()
	near := elastic.Closest(timed, m, inStockCheck)
	switch {
	case near == nil && search.OutOfTime(timed):
		out.Unsettled = append(out.Unsettled, "what each person gets from the stock alone, and what that is short of")
		out.Excess = excess(m)
		return nil
	case near == nil:
		return fmt.Errorf("%w: %s", ration.ErrNumerical, "what the stock gives could not be worked out")
	}
	x := m.Tightened(near)
	given := elastic.WriteClosest(m, x)
	out.People, out.Over = given.People, given.Over
	out.WaterNeededL, out.HeatNeededMJ = x[m.Water], x[m.Heat]
	if out.Days < m.Request.Days {
		out.Short = shortages(m, x)
	}
	if lacking > 0 {
		out.Short = append(out.Short, StockShort{
			Nutrient: ration.ShortReserve, Unit: "doses", Amount: dosesInStock(m), Floor: m.Doses(),
		})
	}
	slices.SortStableFunc(out.Short, func(a, b StockShort) int { // by how much they matter, then by how far they fall short
		byRank := cmp.Compare(elastic.Rank(a.Nutrient), elastic.Rank(b.Nutrient))
		return cmp.Or(byRank, cmp.Compare(a.Amount/a.Floor, b.Amount/b.Floor))
	})
	out.Excess = excess(m)
	return nil
}

// dosesInStock is how many doses against a low the stock could set aside.
func dosesInStock(m *model.Model) float64 {
	total := 0.0
	for _, line := range m.Request.Stock {
		if m.Keeps(line) {
			total += math.Floor(line.Count) * rules.Doses(line.Pack)
		}
	}
	return total
}

// inStockCheck picks what the closest ration from a stock may miss: every need,
// the milk of infants, over all days and those after a date, and the user's own least amounts too, since it is no
// ration to live on but a measure of what the stock gives; and the water and
// heat on hand, last.
func inStockCheck(info model.RowInfo) bool {
	return info.Class == model.Requirement || info.Kind == model.RowFeed || info.Kind == model.RowAfter || info.Kind == model.RowUser || info.Kind == model.RowLimit
}

// stockPortions lists the stock that is of use here, of each food no more than
// all may eat of it.
func stockPortions(m *model.Model) []rules.Portion {
	var list []rules.Portion
	for _, lf := range m.Larder {
		grams := 0.0
		for _, line := range m.Request.Stock {
			if line.Pack.Food == lf.Food && uselessBecause(m, line) == "" {
				grams += line.Count * line.Pack.NetG
			}
		}
		if grams = math.Min(grams, lf.CapG); grams > 0 {
			list = append(list, rules.Portion{Food: lf.Food, Grams: grams})
		}
	}
	return list
}

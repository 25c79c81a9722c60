package solver

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/simplex"
)

// longestDays is the longest horizon that [Check] looks at.
const longestDays = 365

// StockCheck is what a stock is worth to a household.
type StockCheck struct {
	Balanced   bool         `json:"balanced"`    // the stock alone meets every need over the horizon
	Days       int          `json:"days"`        // longest horizon, up to 365, that it meets every need
	DaysEnergy int          `json:"days_energy"` // longest horizon that it gives everyone the energy
	Horizon    int          `json:"horizon"`     // days asked
	First      string       `json:"first,omitempty"` // the need that runs out first
	Short      []StockShort `json:"short"`
	Excess     []StockShort `json:"excess,omitempty"` // of the whole stock, against ceilings
	EatBy      []EatBy      `json:"eat_by,omitempty"`
	Useless    []Useless    `json:"useless,omitempty"`
	People     []PlanPerson `json:"people,omitempty"` // the closest ration from the stock alone

	Buy          []Buy    `json:"buy"` // the cheapest completion
	BuyCost      *float64 `json:"buy_cost,omitempty"`
	Currency     string   `json:"currency,omitempty"`
	WaterNeededL float64  `json:"water_l_needed"`
	HeatNeededMJ float64  `json:"heat_mj_needed"`
	TopUp        *Plan    `json:"plan,omitempty"` // stock and purchases together

	Refused  []Refused `json:"refused,omitempty"`
	Cautions []Caution `json:"cautions,omitempty"`
}

// StockShort is one need that the stock does not meet, or one ceiling that it
// would pass, per day and person.
type StockShort struct {
	Person   string  `json:"person"`
	Nutrient string  `json:"nutrient"`
	Unit     string  `json:"unit"`
	Amount   float64 `json:"amount"`
	Floor    float64 `json:"floor,omitempty"`
	Ceiling  float64 `json:"ceiling,omitempty"`
}

// EatBy is stock whose date falls within the horizon.
type EatBy struct {
	Pack       string  `json:"pack"`
	Count      float64 `json:"count"`
	BestBefore string  `json:"best_before"`
	Past       bool    `json:"past,omitempty"`
}

// Useless is stock that does nothing here, and why.
type Useless struct {
	Pack   string  `json:"pack"`
	Count  float64 `json:"count"`
	Reason string  `json:"reason"`
}

// Buy is one line of the completing shopping list.
type Buy struct {
	Pack  string  `json:"pack"`
	Food  string  `json:"food"`
	Count int     `json:"count"`
	Cost  float64 `json:"cost"`
}

// Check says what req.Stock gives the household: whether it is balanced over
// the horizon, how many days it lasts, what falls short, what must be eaten
// first, what is useless, and the cheapest purchase that completes it. It
// judges food; water and heat are reported as what they would take.
func Check(ctx context.Context, req *Request, progress func(Progress)) (*StockCheck, error) {
	alone := *req
	alone.StockOnly = true
	alone.Limits = Limits{}
	r, err := Build(&alone)
	if err != nil {
		return nil, err
	}
	out := &StockCheck{Horizon: r.Request.Days, Currency: r.currency(), Refused: r.emptyPlan().Refused, Short: []StockShort{}, Buy: []Buy{}}
	if len(r.eaters) > 0 {
		if err := out.judge(ctx, r); err != nil {
			return nil, err
		}
	}
	out.EatBy = r.eatBy()
	out.Useless = r.useless()
	if err := out.topUp(ctx, req, progress); err != nil {
		return nil, err
	}
	return out, nil
}

// judge finds the horizons and what falls short.
func (out *StockCheck) judge(ctx context.Context, r *Ration) error {
	var err error
	if out.Days, err = longest(ctx, r.Request, stockMeetsNeeds); err != nil {
		return err
	}
	if out.DaysEnergy, err = longest(ctx, r.Request, stockMeetsEnergy); err != nil {
		return err
	}
	out.Balanced = out.Days >= r.Request.Days
	if out.Days < longestDays {
		if out.First, err = firstShort(ctx, r.Request, out.Days+1); err != nil {
			return err
		}
	}
	x, _ := r.closest(ctx)
	if x != nil {
		c := r.closestRation(x)
		out.People = c.People
		for _, s := range c.Shortfalls {
			out.Short = append(out.Short, StockShort{
				Person: s.Person, Nutrient: s.Nutrient, Unit: s.Unit, Amount: s.Amount, Floor: s.Target,
			})
		}
		rankShort(out.Short)
	}
	out.Excess = r.excess()
	return nil
}

// longest is the longest horizon of up to 365 days for which fits holds.
// Bisection is valid because fits is monotone: a ration for D days scaled by
// D'/D is a ration for D' < D days. Needs, caps, patterns and dated amounts all
// scale with the horizon, packs may be used in part, and what one pack counts
// for shrinks by no more than D'/D.
func longest(ctx context.Context, req *Request, fits func(context.Context, *Request) (bool, error)) (int, error) {
	low, high := 0, longestDays+1 // fits at low, not at high
	for high-low > 1 {
		mid := (low + high) / 2
		trial := *req
		trial.Days = mid
		ok, err := fits(ctx, &trial)
		if err != nil {
			return 0, err
		}
		if ok {
			low = mid
		} else {
			high = mid
		}
	}
	return low, nil
}

// stockMeetsNeeds reports whether the stock alone meets every need over the
// horizon. All of the stock may be used, so that whole packs change nothing:
// the relaxation decides.
func stockMeetsNeeds(ctx context.Context, req *Request) (bool, error) {
	r, err := Build(req)
	if err != nil {
		return false, err
	}
	return feasible(ctx, r.Problem)
}

// stockMeetsEnergy reports the same for energy alone.
func stockMeetsEnergy(ctx context.Context, req *Request) (bool, error) {
	r, err := Build(req)
	if err != nil {
		return false, err
	}
	for i, info := range r.rows {
		switch info.kind {
		case rowNutrient:
			r.Problem.Rows[i].Upper = math.Inf(1)
			if info.nutrient != nutrients.Energy {
				r.Problem.Rows[i].Lower = math.Inf(-1)
			}
		case rowShare, rowPattern, rowCompanion, rowWater:
			r.Problem.Rows[i].Lower, r.Problem.Rows[i].Upper = math.Inf(-1), math.Inf(1)
		}
	}
	return feasible(ctx, r.Problem)
}

// feasible decides the relaxation of p.
func feasible(ctx context.Context, p *linear.Problem) (bool, error) {
	s, err := simplex.New(p)
	if err != nil {
		return false, err
	}
	for j := range p.Cols {
		s.SetCost(j, 0)
	}
	switch result := s.Solve(ctx, simplex.Limits{}); result.Status {
	case simplex.Optimal, simplex.Unbounded:
		return true, nil
	case simplex.Infeasible:
		return false, nil
	case simplex.Limit:
		return false, fmt.Errorf("%w: %s", ErrNoPlan, result.Why)
	default:
		return false, fmt.Errorf("%w: %s", ErrNumerical, result.Why)
	}
}

// firstShort names the need that falls furthest short, in relation to its
// floor, on a horizon that the stock cannot fill.
func firstShort(ctx context.Context, req *Request, days int) (string, error) {
	trial := *req
	trial.Days = days
	r, err := Build(&trial)
	if err != nil {
		return "", err
	}
	e := r.soften(func(rowInfo) bool { return true })
	result := r.solveElastic(ctx, &e, nil)
	worst, name := shortTolerance, ""
	if result.X == nil {
		return "", nil
	}
	for k, i := range e.rows {
		if share := result.X[e.cols[k]] / r.Problem.Rows[i].Lower; share > worst {
			worst = share
			name = fmt.Sprintf("%s (%s)", r.rows[i].text, r.eaters[r.rows[i].eater].person.Name)
		}
	}
	return name, nil
}

// rank says how much a need matters: water and energy first, then protein.
func rank(nutrient string) int {
	switch nutrient {
	case nutrients.Water.Name():
		return 0
	case nutrients.Energy.Name():
		return 1
	case nutrients.Protein.Name():
		return 2
	default:
		return 3
	}
}

// rankShort orders shortages by how much they matter, then by how far they fall
// short.
func rankShort(list []StockShort) {
	slices.SortStableFunc(list, func(a, b StockShort) int {
		return cmp.Or(cmp.Compare(rank(a.Nutrient), rank(b.Nutrient)), cmp.Compare(a.Amount/a.Floor, b.Amount/b.Floor))
	})
}

// excess lists the ceilings that a person's share of the whole stock, by energy
// requirement, would pass if all of it were eaten over the horizon.
func (r *Ration) excess() []StockShort {
	var stock []portion
	for _, line := range r.Request.Stock {
		stock = append(stock, portion{line.Pack.Food, line.Count * line.Pack.NetG})
	}
	all := 0.0
	for _, e := range r.eaters {
		all += e.count * e.needs.EER.Amount
	}
	var list []StockShort
	for _, e := range r.eaters {
		for _, need := range e.needs.List {
			if need.Shown || need.Ceiling == nil || need.Nutrient == nutrients.Energy {
				continue
			}
			total, _ := intake(stock, need.Nutrient, r.days())
			if share := total * e.needs.EER.Amount / all; share > need.Ceiling.Amount {
				list = append(list, StockShort{
					Person: e.person.Name, Nutrient: need.Nutrient.Name(), Unit: need.Nutrient.Unit(),
					Amount: share, Ceiling: need.Ceiling.Amount,
				})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b StockShort) int { return cmp.Compare(b.Amount/b.Ceiling, a.Amount/a.Ceiling) })
	return list
}

// eatBy lists the stock whose date falls within the horizon, the earliest
// first.
func (r *Ration) eatBy() []EatBy {
	var list []EatBy
	for _, line := range r.Request.Stock {
		if day, ok := dayOf(r.Request, line.BestBefore); ok && day < r.Request.Days {
			list = append(list, EatBy{Pack: line.Pack.Key, Count: line.Count, BestBefore: line.BestBefore, Past: day < 1})
		}
	}
	slices.SortStableFunc(list, func(a, b EatBy) int { return cmp.Compare(a.BestBefore, b.BestBefore) })
	return list
}

// wastedShare is the part of a pack that must be lost for the pack to be called
// too large to finish once open: planning value, common practice, no source.
const wastedShare = 0.5

// useless lists the stock that feeds nobody here, and why.
func (r *Ration) useless() []Useless {
	var list []Useless
	for _, line := range r.Request.Stock {
		if reason := r.uselessBecause(line); reason != "" {
			list = append(list, Useless{Pack: line.Pack.Key, Count: line.Count, Reason: reason})
		}
	}
	return list
}

func (r *Ration) uselessBecause(line foods.StockLine) string {
	if day, ok := dayOf(r.Request, line.BestBefore); ok && day < 1 {
		return "past its date"
	}
	for _, lf := range r.larder {
		if lf.food != line.Pack.Food || lf.capG <= 0 {
			continue
		}
		if usable := lf.usable(line.Pack); usable < (1-wastedShare)*line.Pack.NetG {
			return fmt.Sprintf("too large: of %.0f g only %.0f g can be eaten before an open pack spoils", line.Pack.NetG, usable)
		}
		return ""
	}
	for _, e := range r.eaters {
		if ok, why := foods.Eligible(e.person, r.Request.People, line.Pack.Food); !ok {
			return "nobody may eat it: " + why.Text
		}
	}
	if !canCook(r.Request.Cook, line.Pack.Food) {
		return "takes more cooking than there is"
	}
	return "left out or disliked by everyone"
}

// topUp plans with the stock and the shop together, at least cost.
func (out *StockCheck) topUp(ctx context.Context, req *Request, progress func(Progress)) error {
	both := *req
	both.Least = LeastCost
	plan, err := Make(ctx, &both, progress)
	if err != nil {
		return err
	}
	out.Cautions = plan.Cautions
	out.TopUp = plan
	if plan.Totals == nil {
		return nil
	}
	cost := 0.0
	for _, line := range plan.Packs {
		if n := line.Count - line.FromStock; n > 0 {
			out.Buy = append(out.Buy, Buy{Pack: line.Pack, Food: line.Food, Count: n, Cost: line.Cost})
			cost += line.Cost
		}
	}
	out.BuyCost = &cost
	out.WaterNeededL = plan.Totals.WaterL
	out.HeatNeededMJ = plan.Totals.HeatMJ
	return nil
}

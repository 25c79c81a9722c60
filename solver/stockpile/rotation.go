package stockpile

import (
	"cmp"
	"maps"
	"slices"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Storage temperatures that rotation counts with where none is given, °C.
// Source: foods/stores/data/storage_temperature.csv, the columns for 21 and
// 32 °C.
const (
	UsualStoreC = 21.0
	HotStoreC   = 32.0 // for a plan made for a hot climate
)

// SimulatedMonths is how long a programme is followed: five years.
const SimulatedMonths = 60

// Rotation is what to use up, refill and replace, and how to keep the store
// fresh for good.
type Rotation struct {
	ration.NotFed
	Start     string           `json:"start"`
	TempC     float64          `json:"temp_c"`
	Factor    float64          `json:"keeping_factor"` // what the temperature makes of a keeping time at 21 °C
	Months    int              `json:"months"`         // how far ahead the list by month goes
	Demo      ration.Demo      `json:"demo"`
	Currency  string           `json:"currency,omitempty"`
	Actions   []stores.Action  `json:"actions"` // soonest first, what has no date before everything else
	Programme stores.Programme `json:"programme"`
	Followed  []FollowedPack   `json:"followed"` // each line of the programme over SimulatedMonths
}

// FollowedPack is one line of the programme followed month by month.
type FollowedPack struct {
	Pack   string  `json:"pack"`
	Months int     `json:"months"`
	Bought int     `json:"bought"`
	Eaten  int     `json:"eaten"`
	Tight  int     `json:"tight"`  // eaten in the month in which they are due, by their day
	Wasted int     `json:"wasted"` // out of date
	Least  int     `json:"least"`  // packs in store at the lowest
	Target int     `json:"target"`
	Cost   float64 `json:"cost,omitempty"`
}

// RotationInput is what a rotation is worked out from: a stock, a plan, or the
// plan that a stock is held for.
type RotationInput struct {
	Stock  *foods.Stock    // nil: the store as the plan fills it on the day of start
	Plan   *ration.Plan    // nil: the stock is the target, and what is eaten in a month is not known
	Req    *ration.Request // of the plan
	Start  string          // ISO
	TempC  float64
	Months int
}

// RotationOf works out what is due when and how the store is turned over.
// Errors wrap [stores.ErrDay] and [stores.ErrTooHot].
func RotationOf(in RotationInput) (*Rotation, error) {
	factor, err := stores.KeepingFactor(in.TempC)
	if err != nil {
		return nil, err
	}
	out := &Rotation{Start: in.Start, TempC: in.TempC, Factor: factor, Months: in.Months}
	if in.Plan != nil {
		out.NotFed = in.Plan.NotFed()
	}
	var batches []stores.Batch
	if in.Stock != nil {
		for _, line := range in.Stock.Lines {
			batches = append(batches, stores.BatchOf(line))
		}
		batches = append(batches, stores.GoodsOfStock(in.Stock.Goods)...)
	} else if batches, err = planBatches(in.Req, in.Plan, in.Start); err != nil {
		return nil, err
	}
	if out.Actions, err = stores.Rotate(batches, in.Start, in.TempC); err != nil {
		return nil, err
	}
	items, err := out.items(in, batches)
	if err != nil {
		return nil, err
	}
	if out.Programme, err = stores.SteadyProgramme(items, in.Start, in.TempC); err != nil {
		return nil, err
	}
	for i := range out.Programme.Lines {
		line := &out.Programme.Lines[i]
		if line.TurnMonths == 0 {
			continue // not to be held: it says why
		}
		s, err := stores.Simulate(line, in.Start, SimulatedMonths)
		if err != nil {
			return nil, err
		}
		f := FollowedPack{
			Pack: line.Pack, Months: SimulatedMonths, Bought: s.Bought, Eaten: s.Eaten, Tight: s.Tight,
			Wasted: s.Wasted, Least: s.Least, Target: line.Target,
		}
		if line.HasCost {
			f.Cost = s.Cost
		}
		out.Followed = append(out.Followed, f)
	}
	return out, nil
}

// planBatches is the store as a plan fills it: what is bought is bought on the
// day of start, what comes from stock keeps its dates, water is filled and the
// supplies that are renewed are bought that day.
func planBatches(req *ration.Request, plan *ration.Plan, start string) ([]stores.Batch, error) {
	if plan == nil || plan.Totals == nil {
		return nil, ration.ErrNoRation
	}
	r := ration.Filled(req)
	supplies, err := rules.SuppliesOf(r)
	if err != nil {
		return nil, err
	}
	var batches []stores.Batch
	for _, line := range plan.Packs {
		k := ration.FindPack(r, line.Pack)
		if k == nil {
			continue
		}
		if bought := line.Count - line.FromStock; bought > 0 {
			batches = append(batches, stores.NewBatch(k, float64(bought), start, ""))
		}
	}
	for _, line := range r.Stock {
		batches = append(batches, stores.BatchOf(line))
	}
	add := func(key string, count float64) {
		renewal, ok := stores.RenewalByKey(key)
		if !ok || count <= 0 {
			return
		}
		b := stores.Batch{Renewal: key, Pack: key, Name: renewal.What, Count: count, Since: start}
		if s, err := r.Table.Supply(key); err == nil {
			b.Unit = s.Unit
		}
		batches = append(batches, b)
	}
	water := "water-home-filled"
	if r.Allowance {
		water = "water-allowance"
	}
	containers := rules.ContainersFor(plan.Totals.WaterL-plan.Totals.OwnWaterL, supplies.Container)
	add(water, float64(containers)*supplies.Container.NetML/1000)
	kit := stores.Kit(stores.KitInput{People: r.People, Days: r.Days, Pets: r.Pets, Cold: !(plan.Totals.HeatMJ > 0)})
	for _, renewed := range stores.RenewedKit(kit) {
		add(renewed.Key, renewed.Count)
	}
	return batches, nil
}

// items are the packs of food to hold for good: those of the plan at its
// counts, or those of the stock as it is.
func (out *Rotation) items(in RotationInput, batches []stores.Batch) ([]stores.StoreItem, error) {
	stock := map[string][]stores.Batch{}
	for _, b := range batches {
		if b.Renewal == "" {
			stock[b.Pack] = append(stock[b.Pack], b)
		}
	}
	held := map[*foods.Pack]int{}
	hold := func(k *foods.Pack, count int) {
		if k != nil && count > 0 {
			held[k] += count
		}
	}
	days := 0
	switch {
	case in.Plan != nil:
		r := ration.Filled(in.Req)
		days = r.Days
		for _, line := range in.Plan.Packs {
			hold(ration.FindPack(r, line.Pack), line.Count)
		}
	default:
		for _, line := range in.Stock.Lines {
			if line.Opened == "" {
				hold(line.Pack, int(line.Count))
			}
		}
	}
	var items []stores.StoreItem
	for _, pack := range slices.SortedFunc(maps.Keys(held), func(a, b *foods.Pack) int { return cmp.Compare(a.Key, b.Key) }) {
		item := stores.ItemOf(pack, held[pack], days)
		dated, _, err := stores.StockOf(stock[pack.Key], in.Start, in.TempC)
		if err != nil {
			return nil, err
		}
		if item.Stock = dated; dated == nil {
			item.Stock = []stores.DatedPacks{} // nothing dated, so nothing is taken for granted
		}
		if item.HasPrice && pack.Currency != "" {
			out.Currency = pack.Currency
		}
		items = append(items, item)
	}
	return items, nil
}

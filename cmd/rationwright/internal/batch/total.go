package batch

import (
	"maps"
	"slices"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/solver/ration"
)

// Total is what the lines of a register come to.
type Total struct {
	Households int
	Unread     int     // that cannot be read or planned as they are
	Unfed      int     // of which no ration meets the limits, or everyone is refused
	Unplanned  int     // of which no plan was found within the work
	Short      int     // fed short of a vitamin that the body stores
	Refusing   int     // with someone whom a clinician must plan for
	Gaps       int     // with a gap
	Gap        float64 // the sum of gaps, fractions
	Widest     float64 // the widest gap
	packs      map[string]*bought
	Sum        ration.Totals
}

// bought is one line of the list for all.
type bought struct {
	ration.PlanPack
	households int
}

// add counts a line.
func (t *Total) add(l *Line) {
	t.Households++
	switch l.Exit {
	case exit.BadInput:
		t.Unread++
	case exit.NoRation:
		t.Unfed++
	case exit.Limit, exit.Fault:
		t.Unplanned++
	}
	if len(l.Refused) > 0 {
		t.Refusing++
	}
	if l.Totals == nil {
		return
	}
	if len(l.Shortfalls) > 0 {
		t.Short++
	}
	if l.Gap != nil {
		t.Gaps++
		t.Gap += *l.Gap
		t.Widest = max(t.Widest, *l.Gap)
	}
	s := &t.Sum
	s.Currency = l.Totals.Currency
	s.Cost += l.Totals.Cost
	s.WeightKg += l.Totals.WeightKg
	s.VolumeL += l.Totals.VolumeL
	s.WaterL += l.Totals.WaterL
	s.HeatMJ += l.Totals.HeatMJ
	s.Food.Cost += l.Totals.Food.Cost
	s.Food.WeightKg += l.Totals.Food.WeightKg
	s.Food.VolumeL += l.Totals.Food.VolumeL
	if t.packs == nil {
		t.packs = map[string]*bought{}
	}
	seen := map[string]bool{}
	for _, k := range l.Packs {
		b := t.packs[k.Pack]
		if b == nil {
			b = &bought{PlanPack: k}
			b.Count, b.Cost, b.WeightKg, b.VolumeL = 0, 0, 0, 0
			t.packs[k.Pack] = b
		}
		b.Count += k.Count
		b.Cost += k.Cost
		b.WeightKg += k.WeightKg
		b.VolumeL += k.VolumeL
		if !seen[k.Pack] {
			seen[k.Pack] = true
			b.households++
		}
	}
}

// List is the purchase list of all households together, by pack, with what they
// come to in the last rows: food, then with stored water and fuel, all.
func (t *Total) List() *facts.Table {
	list := facts.New("row pack food ndb net_g count households cost currency weight_kg volume_l water_l heat_mj")
	packs := 0
	for _, key := range slices.Sorted(maps.Keys(t.packs)) {
		b := t.packs[key]
		packs += b.Count
		list.Add("pack", facts.Row{
			"pack": b.Pack, "food": b.Food, "ndb": b.NDB, "net_g": b.NetG, "count": b.Count, "households": b.households,
			"cost": b.Cost, "currency": t.Sum.Currency, "weight_kg": b.WeightKg, "volume_l": b.VolumeL,
		})
	}
	fed := t.Households - t.Unread - t.Unfed - t.Unplanned
	s := &t.Sum
	list.Add("food", facts.Row{"count": packs, "households": fed, "cost": s.Food.Cost, "currency": s.Currency, "weight_kg": s.Food.WeightKg, "volume_l": s.Food.VolumeL})
	list.Add("all", facts.Row{"households": fed, "cost": s.Cost, "currency": s.Currency, "weight_kg": s.WeightKg, "volume_l": s.VolumeL, "water_l": s.WaterL, "heat_mj": s.HeatMJ})
	return list
}

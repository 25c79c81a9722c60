package stockpile

import (
	"slices"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Stockpile is the rest of the store beside the food of a plan: water, heat,
// space, supplies. Everything in it follows from the plan and its request.
type Stockpile struct {
	ration.NotFed
	Days     int              `json:"days"`
	Heads    int              `json:"heads"`
	Pets     int              `json:"pets,omitempty"`
	Start    string           `json:"start,omitempty"`
	Least    ration.Least     `json:"least"`           // what the plan minimises
	Value    *float64         `json:"value,omitempty"` // of the plan, in the unit of Least
	Currency string           `json:"currency,omitempty"`
	Demo     ration.Demo      `json:"demo"`
	Water    StoredWater      `json:"water"`
	Treat    []DoseSheet      `json:"treat"`
	Boil     stores.Boiling   `json:"boil"`
	Never    []NeverRule      `json:"never"`
	Heat     StoredHeat       `json:"heat"`
	Space    []SpaceLine      `json:"space"`
	Shelves  *ration.ShelfFit `json:"shelves,omitempty"`
	Kit      []stores.KitLine `json:"kit"`
	// Medicines are a list to discuss with the clinician; no amount is given.
	Medicines []stores.KitLine `json:"medicines"`
	PetNeeds  *PetNeeds        `json:"pet_needs,omitempty"`
	Cautions  []ration.Caution `json:"cautions"`
}

// SpaceLine is what one part of the store takes.
type SpaceLine struct {
	What string `json:"what"` // food, water, fuel, all
	stores.Space
}

// PetNeeds is what the pets take.
type PetNeeds struct {
	Water    stores.PetWater `json:"water_per_pet_day"`
	WaterL   float64         `json:"water_l"`
	FoodDays int             `json:"food_days"`
}

// StockpileOptions are what a stockpile depends on besides its plan.
type StockpileOptions struct {
	Stove       string         // "" means that of the request
	Shelves     []stores.Shelf // nil means those of the request
	AltitudeM   float64        // above the sea; NaN not known
	DeviceUsers int            // people who depend on a device that needs power
}

// Of works out the rest of the store for a plan of the request. It
// returns an error for a plan without totals, a stove that is not in the table
// and dates that are none.
func Of(req *ration.Request, plan *ration.Plan, opt StockpileOptions) (*Stockpile, error) {
	if plan.Totals == nil {
		return nil, ration.ErrNoRation
	}
	r := ration.Filled(req)
	if opt.Shelves != nil {
		r.Shelves = opt.Shelves
	}
	s := &Stockpile{
		Days: r.Days, Pets: r.Pets, Start: r.Start, Demo: r.Demo, NotFed: plan.NotFed(),
		Least: plan.Least, Value: plan.Value, Currency: plan.Totals.Currency,
	}
	supplies, err := rules.SuppliesOf(r)
	if err != nil {
		return nil, err
	}
	if s.Water, err = storedWater(r, plan, supplies.Container); err != nil {
		return nil, err
	}
	s.Heads = s.Water.Computed.Heads
	if s.Heat, err = storedHeat(r, plan, opt.Stove); err != nil {
		return nil, err
	}
	s.space(r, plan, supplies.Container)
	s.Treat = doseSheets()
	if s.Boil, err = stores.Boil(1, opt.AltitudeM, stores.CloudyWater); err != nil {
		return nil, err
	}
	s.Never = NeverRules()
	kit := stores.Kit(stores.KitInput{
		People: r.People, Days: r.Days, Pets: r.Pets, Cold: !(plan.Totals.HeatMJ > 0), DeviceUsers: opt.DeviceUsers,
	})
	for i := range kit {
		if kit[i].ID == stores.KitFuel {
			fuel := s.Heat.Fuels[0]
			kit[i].Quantity, kit[i].Unit = fuel.Packs, fuel.Stove.Pack
			kit[i].Rule = "computed from the plan: see heat and fuel"
		}
	}
	s.Medicines, s.Kit = stores.Medicines(kit)
	if r.Pets > 0 {
		water := stores.WaterForPet(stores.Pet{})
		s.PetNeeds = &PetNeeds{
			Water: water, WaterL: water.RecommendedL * float64(r.Pets*r.Days), FoodDays: r.Days,
		}
	}
	s.Cautions = s.cautions(r, plan)
	return s, nil
}

// space adds up what food, water and fuel take, and puts food and water on the
// shelves.
func (s *Stockpile) space(r *ration.Request, plan *ration.Plan, container *stores.Container) {
	loads := rules.LoadsOf(r, plan, container)
	food, water := loads, []stores.Load(nil)
	if n := len(loads); n > 0 && loads[n-1].Key == container.Key {
		food, water = loads[:n-1], loads[n-1:]
	}
	var fuel []stores.Load
	if f := s.Heat.Fuels[0]; f.Packs > 0 {
		fuel = append(fuel, stores.LoadOfFuel(f.Stove, f.Packs))
	}
	all := append(append([]stores.Load(nil), loads...), fuel...)
	for _, part := range []struct {
		what  string
		loads []stores.Load
	}{{"food", food}, {"water", water}, {"fuel", fuel}, {"all", all}} {
		s.Space = append(s.Space, SpaceLine{part.what, stores.SpaceOf(part.loads)})
	}
	if len(r.Shelves) == 0 {
		return
	}
	if s.Shelves = plan.Shelves; s.Shelves == nil || !sameShelves(r.Shelves, plan) {
		fit := &ration.ShelfFit{Loads: loads, Fit: stores.FitShelves(r.Shelves, loads)}
		fit.Stands = len(fit.Left) == 0
		s.Shelves = fit
	}
}

// sameShelves reports whether the plan was made for the shelves.
func sameShelves(shelves []stores.Shelf, plan *ration.Plan) bool {
	return plan.Request != nil && slices.Equal(plan.Request.Shelves, shelves)
}

// cautions lists, once each, the warnings about water, fuel, supplies and the
// people of the household. Those about the foods stand in the plan.
func (s *Stockpile) cautions(r *ration.Request, plan *ration.Plan) []ration.Caution {
	in := stores.Situation{
		People: r.People, Pets: r.Pets, NoMilk: rules.NoMilk(r),
		Tags: []stores.Tag{stores.AnyWater, stores.DoubtfulWater, stores.Bleach, stores.Sanitation},
	}
	if plan.Totals.HeatMJ > 0 {
		in.Stoves = []string{s.Heat.Stove}
	}
	if len(r.Ill) > 0 {
		in.Tags = append(in.Tags, stores.Illness)
	}
	return rules.CautionsOf(in)
}

package solver

import (
	"fmt"
	"math"
	"time"

	"rationwright/foods/stores"
)

// Stockpile is the rest of the store beside the food of a plan: water, heat,
// space, supplies. Everything in it follows from the plan and its request.
type Stockpile struct {
	Days    int              `json:"days"`
	Heads   int              `json:"heads"`
	Pets    int              `json:"pets,omitempty"`
	Start   string           `json:"start,omitempty"`
	Demo    Demo             `json:"demo"`
	Refused []Refused        `json:"refused,omitempty"`
	Water   StoredWater      `json:"water"`
	Treat   []DoseSheet      `json:"treat"`
	Boil    stores.Boiling   `json:"boil"`
	Never   []NeverRule      `json:"never"`
	Heat    StoredHeat       `json:"heat"`
	Space   []SpaceLine      `json:"space"`
	Shelves *ShelfFit        `json:"shelves,omitempty"`
	Kit     []stores.KitLine `json:"kit"`
	// Medicines are a list to discuss with the clinician; no amount is given.
	Medicines []stores.KitLine `json:"medicines"`
	PetNeeds  *PetNeeds        `json:"pet_needs,omitempty"`
	Cautions  []Caution        `json:"cautions"`
}

// StoredWater is the water to store, and what to keep it in.
type StoredWater struct {
	PlanL  float64 `json:"plan_l"`              // counted in the plan
	OnHand float64 `json:"on_hand_l,omitempty"` // of it
	stores.WaterAdvice
	Containers    []ContainerChoice `json:"containers"`             // ways to keep the recommended water, the usual first
	PlanCount     int               `json:"plan_containers"`        // of the plan's own container for PlanL
	Renew         []Renewing        `json:"renew"`                  // when
	Sanitise      stores.Bleaching  `json:"sanitise_container"`     // before filling
	Unchlorinated stores.Bleaching  `json:"pretreat_unchlorinated"` // well water before it is stored
}

// ContainerChoice is one kind of container that alone holds the recommended
// water.
type ContainerChoice struct {
	stores.FilledContainer
	EachKg  float64 `json:"each_kg"`           // full
	EachL   float64 `json:"each_l"`            // held
	Heavy   bool    `json:"too_heavy_to_lift"` // over stores.LiftKg when full
	Memory  bool    `json:"size_from_memory"`  //
	Planned bool    `json:"planned,omitempty"` // the one that the plan counts with
}

// Renewing is when water kept in one way is renewed.
type Renewing struct {
	stores.Renewal
	Dates []string `json:"dates,omitempty"` // ISO, within a year and a half of the start; none where the printed date rules
}

// DoseSheet is how one agent makes the volumes of a sheet safe.
type DoseSheet struct {
	Agent    string        `json:"agent"`
	Name     string        `json:"name"`
	Strength string        `json:"strength"`
	Doses    []stores.Dose `json:"doses"` // absent where the table has none
}

// NeverRule is something that must not be drunk or done.
type NeverRule struct {
	What string `json:"what"`
	Why  string `json:"why"`
	stores.Ref
}

// NeverRules lists the water that nothing makes safe at home, and what an agent
// must not be relied on for.
func NeverRules() []NeverRule {
	var rules []NeverRule
	for _, d := range stores.NeverDrink() {
		what := d.Condition
		if what == "any" {
			what = d.Agent
		}
		rules = append(rules, NeverRule{What: what, Why: d.Dose, Ref: d.Ref})
	}
	return rules
}

// StoredHeat is the heat of the plan, and what fuel gives it.
type StoredHeat struct {
	UsefulMJ float64      `json:"useful_mj"`            // into the pot, of the plan
	OnHandMJ float64      `json:"on_hand_mj,omitempty"` // of it
	PerDayMJ float64      `json:"per_day_mj"`
	Cook     Cook         `json:"cook"`
	Stove    string       `json:"stove"` // of the plan
	Fuels    []FuelChoice `json:"fuels"` // the plan's stove first
	// DaysWithout are days of the horizon on which nothing can be heated from
	// what is on hand alone; nil where the stock list has no fuel.
	DaysWithout *int              `json:"days_without,omitempty"`
	Rules       []stores.FuelRule `json:"rules"` // where a flame may burn
}

// FuelChoice is what one fuel takes for the heat that is not on hand.
type FuelChoice struct {
	stores.FuelNeed
	// Days that one pack lasts at poor, typical and good efficiency; absent
	// where there is nothing to heat.
	PackDays *[3]float64 `json:"pack_days,omitempty"`
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

// renewalHorizon is how far ahead renewals are listed.
const renewalMonths = 18

// StockpileOf works out the rest of the store for a plan of the request. It
// returns an error for a plan without totals, a stove that is not in the table
// and dates that are none.
func StockpileOf(req *Request, plan *Plan, opt StockpileOptions) (*Stockpile, error) {
	if plan.Totals == nil {
		return nil, fmt.Errorf("%w: there is no ration in it, so nothing to store for", ErrPlan)
	}
	r := filled(req)
	if opt.Shelves != nil {
		r.Shelves = opt.Shelves
	}
	s := &Stockpile{
		Days: r.Days, Pets: r.Pets, Start: r.Start, Demo: r.Demo, Refused: plan.Refused,
	}
	supplies, err := suppliesOf(r)
	if err != nil {
		return nil, err
	}
	if s.Water, err = storedWater(r, plan, supplies.container); err != nil {
		return nil, err
	}
	s.Heads = s.Water.Computed.Heads
	if s.Heat, err = storedHeat(r, plan, opt.Stove); err != nil {
		return nil, err
	}
	s.space(r, plan, supplies.container)
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
			Water: water, WaterL: water.RecommendedL * float64(r.Pets*r.Days), FoodDays: stores.PetFoodDays(r.Days),
		}
	}
	s.Cautions = s.cautions(r, plan)
	return s, nil
}

// WaterInputOf returns what the stored water of a plan is computed from.
func WaterInputOf(req *Request, plan *Plan) stores.WaterInput {
	r := filled(req)
	in := stores.WaterInput{Days: r.Days, Hot: r.Hot, HeatCounted: true}
	if r.Pets > 0 {
		in.Pets = []stores.Pet{{Count: r.Pets}}
	}
	c := &checker{req: r, plan: plan}
	c.seat()
	for i := range c.eaters {
		e := &c.eaters[i]
		in.People = append(in.People, waterPerson(r, &e.person, e.plan.DrinkLPerDay, false))
		for _, p := range e.eaten {
			litres := float64(e.person.Count) * p.grams * spareFactor(&e.needs, p.food) * waterTakenLPerG(p.food)
			if isMilkFeed(p.food) {
				in.FormulaL += litres
			} else {
				in.PreparationL += litres
			}
		}
	}
	for i := range c.refuse {
		needs := &c.refuse[i]
		in.People = append(in.People, waterPerson(r, &needs.Person, refusedDrinkL(r, needs), true))
	}
	return in
}

func storedWater(r *Request, plan *Plan, container *stores.Container) (StoredWater, error) {
	w := StoredWater{
		PlanL: plan.Totals.WaterL, OnHand: plan.Totals.OwnWaterL,
		WaterAdvice: stores.Recommend(stores.ComputeWater(WaterInputOf(r, plan))),
		PlanCount:   containersFor(plan.Totals.WaterL, container),
	}
	for _, c := range stores.WaterContainers() {
		f, err := stores.Fill(w.Recommended, stores.FillOptions{Keys: []string{c.Key}})
		if err != nil {
			return w, err
		}
		if len(f.Lines) == 0 {
			continue
		}
		choice := ContainerChoice{
			FilledContainer: f.Lines[0], EachKg: c.GrossG() / 1000, EachL: c.NetML / 1000,
			Heavy: c.GrossG() > stores.LiftKg*1000, Memory: c.Memory, Planned: c.Key == container.Key,
		}
		if choice.Planned {
			w.Containers = append([]ContainerChoice{choice}, w.Containers...)
		} else {
			w.Containers = append(w.Containers, choice)
		}
	}
	until, err := monthsAfter(r.Start, renewalMonths)
	if err != nil {
		return w, err
	}
	for _, key := range []string{"water-home-filled", "water-allowance", "water-bottled"} {
		renewal, ok := stores.RenewalByKey(key)
		if !ok {
			continue
		}
		renewing := Renewing{Renewal: renewal}
		if r.Start != "" {
			if renewing.Dates, err = stores.RenewalDates(key, r.Start, until); err != nil {
				return w, err
			}
		}
		w.Renew = append(w.Renew, renewing)
	}
	w.Sanitise, w.Unchlorinated = stores.SanitiseContainer(1), stores.PretreatForStorage(container.NetML/1000)
	return w, nil
}

// monthsAfter is the ISO day some calendar months after start, "" for no start.
func monthsAfter(start string, months int) (string, error) {
	if start == "" {
		return "", nil
	}
	day, err := time.Parse(time.DateOnly, start)
	if err != nil {
		return "", fmt.Errorf("%w: %q", stores.ErrDay, start)
	}
	return day.AddDate(0, months, 0).Format(time.DateOnly), nil
}

func storedHeat(r *Request, plan *Plan, stove string) (StoredHeat, error) {
	if stove == "" {
		stove = r.Stove
	}
	h := StoredHeat{
		UsefulMJ: plan.Totals.HeatMJ, OnHandMJ: plan.Totals.OwnHeatMJ,
		PerDayMJ: plan.Totals.HeatMJ / float64(r.Days), Cook: r.Cook, Stove: stove,
	}
	first, err := stores.StoveByName(stove)
	if err != nil {
		return h, err
	}
	list := []stores.Stove{*first}
	for _, s := range stores.Stoves() {
		if s.Name != stove {
			list = append(list, s)
		}
	}
	cook := string(r.Cook)
	if h.UsefulMJ <= 0 {
		cook = ""
	}
	for i := range list {
		s := &list[i]
		choice := FuelChoice{FuelNeed: stores.FuelFor(s, h.UsefulMJ-h.OnHandMJ, cook)}
		if h.PerDayMJ > 0 {
			poor, typical, good := stores.FuelDays(s, 1, h.PerDayMJ)
			choice.PackDays = &[3]float64{poor, typical, good}
		}
		h.Fuels = append(h.Fuels, choice)
	}
	if r.StockHeatMJ != nil && h.PerDayMJ > 0 {
		days := max(0, r.Days-int(math.Floor(*r.StockHeatMJ/h.PerDayMJ+checkTolerance)))
		h.DaysWithout = &days
	}
	for _, rule := range stores.FuelRules() {
		if rule.Key == "indoor_rule" || rule.Key == "indoor_exception" || rule.Key == "co_alarm" {
			h.Rules = append(h.Rules, rule)
		}
	}
	return h, nil
}

// space adds up what food, water and fuel take, and puts food and water on the
// shelves.
func (s *Stockpile) space(r *Request, plan *Plan, container *stores.Container) {
	loads := loadsOf(r, plan, container)
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
		fit := &ShelfFit{Loads: loads, Fit: stores.FitShelves(r.Shelves, loads)}
		fit.Stands = len(fit.Left) == 0
		s.Shelves = fit
	}
}

// sameShelves reports whether the plan was made for the shelves.
func sameShelves(shelves []stores.Shelf, plan *Plan) bool {
	if plan.Request == nil || len(plan.Request.Shelves) != len(shelves) {
		return false
	}
	for i := range shelves {
		if shelves[i] != plan.Request.Shelves[i] {
			return false
		}
	}
	return true
}

// SheetVolumesL are the volumes for which every stockpile lists doses: a US
// gallon and the usual container, each clear first, then cloudy or cold.
var SheetVolumesL = []float64{stores.LPerGallon, 20}

// doseSheets lists the doses of every agent and strength.
func doseSheets() []DoseSheet {
	var sheets []DoseSheet
	for _, a := range stores.Agents() {
		for _, strength := range a.Strengths {
			sheet := DoseSheet{Agent: a.Key, Name: a.Name, Strength: strength}
			for _, litres := range SheetVolumesL {
				for _, water := range []stores.Water{stores.ClearWater, stores.CloudyWater} {
					if d, err := stores.Disinfect(a.Key, strength, litres, water); err == nil {
						sheet.Doses = append(sheet.Doses, d)
					}
				}
			}
			sheets = append(sheets, sheet)
		}
	}
	return sheets
}

// cautions lists, once each, the warnings about water, fuel, supplies and the
// people of the household. Those about the foods stand in the plan.
func (s *Stockpile) cautions(r *Request, plan *Plan) []Caution {
	in := stores.Situation{
		People: r.People, Pets: r.Pets,
		Tags: []stores.Tag{stores.AnyWater, stores.DoubtfulWater, stores.Bleach, stores.Sanitation},
	}
	if plan.Totals.HeatMJ > 0 {
		in.Stoves = []string{s.Heat.Stove}
	}
	if len(r.Ill) > 0 {
		in.Tags = append(in.Tags, stores.Illness)
	}
	return cautionsOf(in)
}

// cautionsOf lists the cautions of a situation as a plan carries them.
func cautionsOf(s stores.Situation) []Caution {
	var list []Caution
	for _, c := range s.Cautions() {
		list = append(list, Caution{
			ID: c.ID, Severity: c.Severity, Text: c.Text + " " + c.Action,
			Source: sourceOf(c.Source, c.Verified), People: c.People,
		})
	}
	return list
}

package stockpile

import (
	"fmt"
	"time"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// StoredWater is the water to store, and what to keep it in.
type StoredWater struct {
	PlanL  float64 `json:"plan_l"`              // counted in the plan
	OnHand float64 `json:"on_hand_l,omitempty"` // of it

	// Short is what to do where nothing comes to what is on hand; nil where nothing is
	// known of that, or it suffices.
	Short *stores.Shortage `json:"short,omitempty"`

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

// renewalMonths is how far ahead renewals are listed.
const renewalMonths = 18

// WaterInputOf returns what the stored water of a plan is computed from.
func WaterInputOf(req *ration.Request, plan *ration.Plan) stores.WaterInput {
	return rules.WaterInput(req, plan.People)
}

func storedWater(r *ration.Request, plan *ration.Plan, container *stores.Container) (StoredWater, error) {
	w := StoredWater{
		PlanL: plan.Totals.WaterL, OnHand: plan.Totals.OwnWaterL,
		WaterAdvice: stores.Recommend(stores.ComputeWater(WaterInputOf(r, plan)), plan.Totals.WaterL),
		PlanCount:   rules.ContainersFor(plan.Totals.WaterL, container),
	}
	if r.StockWaterL != nil {
		if short := rules.WaterShort(r, plan.People, *r.StockWaterL); short.MissingL > 0 {
			w.Short = &short
		}
	}
	for _, c := range stores.WaterContainers() {
		f, err := c.Fill(w.Recommended)
		if err != nil {
			return w, err
		}
		if f.Count == 0 {
			continue
		}
		choice := ContainerChoice{
			FilledContainer: f, EachKg: c.GrossG() / 1000, EachL: c.NetML / 1000,
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

package foods

import (
	"fmt"
	"strings"

	"rationwright/nutrients/table"
)

// Constants of the heat formula. Source: fuel rules of data/fuel_rules.csv,
// keys named beside each.
const (
	waterHeatKJ    = 4.186 // kJ/kg/K, water_specific_heat: definitional
	heatingK       = 85    // from 15 °C to the boil, energy_to_boil_1_l_from_15c
	steamKJ        = 2257  // kJ/kg, latent_heat_steam
	simmerLidOnW   = 200   // W into a 2 L pot, lid on, simmer_power_lid_on: common practice, no source
	simmerOpenW    = 500   // W into a 2 L open pot or pan, simmer_power_no_lid: common practice, no source
	simmerPotKg    = 2     // contents of the pot that the two powers keep at the boil
	longSimmerMins = 20    // from here on simmering counts as long: the word simmer of --cook
)

// cookClass maps a preparation class of data/preparation.csv and the minutes
// of simmering to the word of --cook.
func cookClass(class string, simmerMin float64) (word string, err error) {
	switch class {
	case "ready to eat", "add cold water", "with milk":
		return "none", nil
	case "heat through":
		return "warm", nil
	case "add boiling water", "add hot water", "add water (label rule)":
		// Infant formula: the water is boiled and the powder mixed at 70 °C or
		// more (WHO/FAO, Safe preparation of powdered infant formula, 2007).
		return "boil", nil
	case "simmer":
		if simmerMin < longSimmerMins {
			return "boil", nil
		}
		return "simmer", nil
	case "bake or fry", "fry":
		return "simmer", nil
	}
	return "", fmt.Errorf("no such class of preparation; write one of ready to eat, add cold water, with milk, heat through, add boiling water, add hot water, add water (label rule), simmer, fry, bake or fry")
}

// usefulHeatMJ returns the useful heat in MJ to make 100 g of a food ready,
// before stove losses:
//
//	E = m·4.186·ΔT/1000 + max(P·60·t·m/2 / 10⁶, 2.257·steam)
//
// with m the kg of food and water in the pot, all counted as water, ΔT = 85 K
// (15 °C to the boil), t the minutes of simmering and P the simmering power of
// a 2 L pot, shared by mass: 200 W under a lid, 500 W open when frying or
// baking. The second term is at least the latent heat of the water that the
// preparation loses as steam. Source: data/fuel_rules.csv, energy_total with
// efficiency 1. Infant formula counts the boiling of its water here.
func usefulHeatMJ(class string, waterML, steamML, simmerMin float64) float64 {
	switch class {
	case "ready to eat", "add cold water", "with milk":
		return 0
	}
	potKg := 0.1 + waterML/1000
	watts := float64(simmerLidOnW)
	if class == "bake or fry" || class == "fry" {
		watts = simmerOpenW
	}
	heating := potKg * waterHeatKJ * heatingK / 1000
	simmering := watts * 60 * simmerMin / 1e6 * potKg / simmerPotKg
	return heating + max(simmering, steamML/1000*steamKJ/1000)
}

// readPreparation returns the preparations of data/preparation.csv by form,
// with the word of --cook and the useful heat worked out.
func readPreparation() (map[string]*Preparation, error) {
	cols := append(filled("form prep_class source verified"),
		columns("cold_ok water_ml_per_100g water_eaten_ml_per_100g water_discarded_ml_per_100g water_lost_steam_ml_per_100g simmer_min simmer_min_if_soaked soak_hours soak_water_ml_per_100g soak_water_discarded stand_min yield_g_per_100g utensils note")...)
	return keyed("preparation.csv", cols, "form", func(row *table.Row) (string, *Preparation) {
		step := row.Text("prep_class")
		p := &Preparation{
			Form:     row.Text("form"),
			ColdOK:   strings.HasPrefix(row.Text("cold_ok"), "yes"),
			Source:   row.Text("source"),
			Verified: row.Text("verified"),
		}
		soakML := 0.0
		row.SetFloat("soak_water_ml_per_100g", 0, mostML, &soakML)
		row.SetFloat("water_ml_per_100g", 0, mostML, &p.WaterML)
		row.SetFloat("water_eaten_ml_per_100g", 0, mostML, &p.EatenML)
		row.SetFloat("water_discarded_ml_per_100g", 0, mostML, &p.DiscardedML)
		row.SetFloat("water_lost_steam_ml_per_100g", 0, mostML, &p.SteamML)
		row.SetFloat("simmer_min", 0, mostML, &p.SimmerMin)
		row.SetFloat("stand_min", 0, mostML, &p.StandMin)
		row.SetFloat("soak_hours", 0, mostML, &p.SoakHours)
		var err error
		if p.Class, err = cookClass(step, p.SimmerMin); err != nil {
			row.Fail("prep_class", err, "")
		}
		p.HeatMJ = usefulHeatMJ(step, p.WaterML, p.SteamML, p.SimmerMin)
		if row.Text("soak_water_discarded") == "yes" {
			// Soaking water that is thrown away is water to be stored, never heated.
			p.WaterML += soakML
			p.DiscardedML += soakML
		}
		return p.Form, p
	})
}

// mostML bounds water and minutes of a preparation: tea takes 12 L in 100 g.
const mostML = 50_000

package sheet

import (
	"rationwright/foods/stores"
)

// Units is the system in which weights and volumes are shown in tables.
// Nutrients keep the units of their requirement tables in both. JSON and CSV
// are always metric.
type Units string

// The words of --units.
const (
	Metric Units = "metric"
	US     Units = "us"
)

// heavyG is where a pack's net weight turns from g to kg and from oz to lb: a
// pack of 1 kg or 2 lb and more.
const (
	heavyG  = 1000
	heavyLb = 2
)

// Net writes the net weight of a pack from grams.
func (u Units) Net(g float64) string {
	if u == US {
		if lb := g / stores.GPerLb; lb >= heavyLb {
			return Amount(lb) + " lb"
		}
		return Decimals(g/stores.GPerOz, 1) + " oz"
	}
	if g >= heavyG {
		return Decimals(g/1000, 2) + " kg"
	}
	return Decimals(g, 0) + " g"
}

// either writes the metric amount with its unit, or that of the other system.
func (u Units) either(metric float64, places int, unit string, us float64, usPlaces int, usUnit string) string {
	if u == US {
		metric, places, unit = us, usPlaces, usUnit
	}
	return Decimals(metric, places) + unit
}

// Portion writes what is eaten, from grams, without its unit: the heading says
// g or oz.
func (u Units) Portion(g float64) string { return u.either(g, 1, "", g/stores.GPerOz, 2, "") }

// Weight writes a weight from kilograms.
func (u Units) Weight(kg float64) string { return u.either(kg, 1, " kg", kg/stores.KgPerLb, 1, " lb") }

// Water writes a volume of liquid from litres.
func (u Units) Water(l float64) string { return u.either(l, 1, " L", l/stores.LPerGallon, 1, " gal") }

// Drink writes a day's drink of one person from litres.
func (u Units) Drink(l float64) string {
	return u.either(l, 2, " L", 1000*l/stores.MLPerFlOz, 0, " fl oz")
}

// Space writes shelf space from litres.
func (u Units) Space(l float64) string {
	return u.either(l, 0, " L", l/stores.LPerCubicFoot, 1, " cu ft")
}

// PackSpace writes the shelf space of one pack from litres.
func (u Units) PackSpace(l float64) string {
	return u.either(l, 2, " L", l/stores.LPerCubicFoot, 3, " cu ft")
}

// Heat writes useful heat from megajoules.
func (u Units) Heat(mj float64) string { return Decimals(mj, 1) + " MJ" }

// Heat2 writes useful heat that may be small.
func (u Units) Heat2(mj float64) string { return Decimals(mj, 2) + " MJ" }

// Height writes metres above the sea.
func (u Units) Height(m float64) string {
	v, unit := stores.Units(u).Height(m)
	return Decimals(v, 0) + " " + unit
}

// Length writes centimetres.
func (u Units) Length(cm float64) string {
	v, unit := stores.Units(u).Length(cm)
	return Decimals(v, 0) + " " + unit
}

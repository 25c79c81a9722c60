package foods

import (
	"math"

	"rationwright/nutrients"
)

// Bounds of the pack checks.
const (
	// Densest wet food in a can: fruit in heavy syrup 1.09, condensed soup 1.08
	// g/mL by USDA cup weights.
	wetDensity = 1.12
	// A food with less water than this does not fill its pack up as wet food does:
	// it lies loose, and needs a weight a cup. Driest wet food of the table: cheese
	// spread, 47.65 g in 100 g.
	wetWaterG = 40
	// A shaken bag holds up to an eighth more than a spooned cup (density.csv: flour
	// spooned 0.53, in the bag about 0.60). It is granted to the user's own packs,
	// which may have been measured; the packs of the table have the room of the cup.
	settling = 1.15
	// In more than ten times the room that the food takes, the litres or the grams
	// are in the wrong unit.
	mostRoom  = 10
	roundingG = 0.6 // tare and net are whole grams
)

// pack checks one pack.
func (v *verifier) pack(p *Pack) {
	if p.NetG <= 0 || p.LabelG <= 0 || p.VolumeL <= 0 || p.TareG < 0 {
		v.addPack(Error, p, "pack", "net weight, label weight and litres must be above 0, tare not below")
		return
	}
	if p.NetG > p.LabelG+roundingG {
		v.addPack(Error, p, "pack", "%.0f g edible of %.0f g on the label", p.NetG, p.LabelG)
	}
	if math.Abs(p.GrossG-p.LabelG-p.TareG) > roundingG {
		v.addPack(Error, p, "pack", "gross %.0f g is not label %.0f g and tare %.0f g", p.GrossG, p.LabelG, p.TareG)
	}
	v.room(p)
	switch {
	case !p.HasPrice && !p.Food.HasTag(TagHumanMilk):
		v.addPack(Warning, p, "price", "no price: it cannot be bought")
	case p.HasPrice && p.Price <= 0:
		v.addPack(Error, p, "price", "the price is %.2f", p.Price)
	}
	if _, ok := v.table.containers[p.Container]; p.Container != "" && !ok {
		v.addPack(Error, p, "container", "%q is not in packages.csv", p.Container)
	}
	if p.Source == "" {
		v.addPack(Error, p, "source", "no source")
	}
}

// room checks that the litres of a pack hold its grams: loose food by its
// weight a cup, wet food by the density of what cans hold.
func (v *verifier) room(p *Pack) {
	density, loose := v.table.looseDensity(p.Food, p.Container)
	if water, known := p.Food.Per100g.Get(nutrients.Water); !loose {
		if known && water < wetWaterG && !p.Food.Own {
			v.addPack(Error, p, "density", "%.1f g water in 100 g lie loose, and cups.csv has no weight a cup", water)
		}
		density = wetDensity
	}
	need, severity := p.LabelG/density/1000, Error
	if p.Own {
		need /= settling
	}
	if p.Food.Own && p.VolumeL*1000*max(wetDensity, density)*settling >= p.LabelG {
		severity = Warning // the density is that of the form, not of the food
	}
	if p.VolumeL < need {
		v.addPack(severity, p, "density", "%.0f g take %.3f L at %.3f g/mL (cups.csv, density.csv), not %.3f L", p.LabelG, need, density, p.VolumeL)
	}
	if p.LabelG*mostRoom < p.VolumeL*1000*density {
		v.addPack(Error, p, "density", "%.0f g in %.3f L at %.3f g/mL: one of them is in the wrong unit", p.LabelG, p.VolumeL, density)
	}
}

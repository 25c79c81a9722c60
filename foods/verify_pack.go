package foods

import "math"

// Bounds of the pack checks.
const (
	// Densest wet food in a can: fruit in heavy syrup 1.09, condensed soup 1.08
	// g/mL by USDA cup weights; forms with a bulk density of their own use that.
	wetDensity = 1.12
	// Scoop weights settle: a shaken bag holds up to an eighth more than a spooned
	// cup (density.csv: flour spooned 0.53, in the bag about 0.60).
	settling = 1.15
	// Below a twentieth of water the litres or the grams are in the wrong unit:
	// the lightest goods, puffed cereals, weigh about 0.1 kg a litre on the shelf.
	leastDensity = 0.05
	roundingG    = 0.6 // tare and net are whole grams
)

// denseForms are forms denser than wet food that density.csv lacks, in g/mL.
// Source: USDA SR26 cup weights, as in data/density.csv for their like.
var denseForms = map[string]float64{
	"syrup":     1.45, // honey 1.43
	"jam_jelly": 1.45, // jam 320 g a cup = 1.35
}

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
	density := math.Max(wetDensity, v.table.density[p.Food.Form]*settling)
	if d, ok := denseForms[p.Food.Form]; ok {
		density = math.Max(density, d)
	}
	if p.LabelG > p.VolumeL*1000*density {
		v.addPack(Error, p, "density", "%.0f g do not fit into %.3f L at %.2f g/mL", p.LabelG, p.VolumeL, density)
	}
	if p.LabelG < p.VolumeL*1000*leastDensity {
		v.addPack(Error, p, "density", "%.0f g in %.3f L: one of them is in the wrong unit", p.LabelG, p.VolumeL)
	}
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

package stores

import (
	"math"
	"sync"

	"rationwright/foods"
)

// Load is one kind of pack to put on shelves: Count upright boxes alike.
type Load struct {
	Key      string  `json:"pack"`
	Name     string  `json:"name"`
	Count    int     `json:"count"`
	LengthMM int     `json:"length_mm"` // outer size, rounded up; a round pack is its square
	WidthMM  int     `json:"width_mm"`
	HeightMM int     `json:"height_mm"`
	Kg       float64 `json:"kg"`    // one pack, full
	Tiers    int     `json:"tiers"` // most packs on one another; 0: by height only
	Liquid   bool    `json:"liquid"`
	Glass    bool    `json:"glass"`
	Guessed  bool    `json:"size_from_volume"` // no size in the table: from the pack's shelf litres
}

// BoxL is the volume of all boxes of the load in litres.
func (l *Load) BoxL() float64 {
	return float64(l.Count) * float64(l.LengthMM) * float64(l.WidthMM) * float64(l.HeightMM) / mm3PerLitre
}

// stackTiers is how many packs of a kind may stand on one another: a row of
// stacking.csv, common practice without a source.
var stackTiers = sync.OnceValue(func() map[string]int {
	tiers := map[string]int{}
	for _, r := range rows("stacking") {
		tiers[r.Text("kind")] = int(r.must("tiers"))
	}
	return tiers
})

// stackable is the one container made to be stacked when full.
const stackable = "can_water_5gal"

// LoadOfContainer returns count full containers as a load.
func LoadOfContainer(c *Container, count int) Load {
	l := Load{
		Key: c.Key, Name: c.Name, Count: count, Kg: c.GrossG() / 1000,
		LengthMM: ceilMM(c.LengthMM), WidthMM: ceilMM(c.WidthMM), HeightMM: ceilMM(c.HeightMM),
		Glass: c.Glass(), Liquid: c.Kind == "bottle" || c.Kind == "carton" || c.Holds == "water",
		Tiers: stackTiers()[c.Kind],
	}
	if c.Key == stackable {
		l.Tiers = stackTiers()["stackable"]
	}
	return l
}

// LoadOfPack returns count packs as a load: the size of the pack's container,
// stretched alike on all sides where the pack's shelf litres are others than
// the container's, and the pack's own gross mass; a cube of its shelf litres
// where the table does not know the container.
func LoadOfPack(p *foods.Pack, count int) Load {
	name := p.Key
	if p.Food != nil {
		name = p.Food.Name
	}
	l := Load{}
	if c, ok := ContainerByKey(p.Container); ok {
		own := *c
		if ratio := p.VolumeL / c.BoxL; p.VolumeL > 0 && math.Abs(ratio-1) > sameSize {
			side := math.Cbrt(ratio)
			own.LengthMM, own.WidthMM, own.HeightMM = c.LengthMM*side, c.WidthMM*side, c.HeightMM*side
			l.Guessed = true
		}
		guessed := l.Guessed
		l = LoadOfContainer(&own, count)
		l.Guessed = guessed
	} else {
		side := ceilMM(math.Cbrt(p.VolumeL * mm3PerLitre))
		l = Load{Count: count, LengthMM: side, WidthMM: side, HeightMM: side, Guessed: true}
	}
	l.Key, l.Name, l.Kg = p.Key, name, p.GrossG/1000
	return l
}

// LoadOfFuel returns count packs of a fuel as a load. Its size is from memory.
func LoadOfFuel(s *Stove, count int) Load {
	return Load{
		Key: s.Name, Name: s.Fuel + ", " + s.Pack, Count: count, Kg: s.GrossG / 1000, Guessed: true,
		LengthMM: ceilMM(s.LengthMM), WidthMM: ceilMM(s.WidthMM), HeightMM: ceilMM(s.HeightMM),
	}
}

// sameSize is how far a pack's shelf litres may be from its container's box and
// still be it: the table's rounding to a millilitre and to a tenth of a mm.
const sameSize = 0.02

// ceilMM rounds a length up to whole mm.
func ceilMM(mm float64) int { return int(math.Ceil(mm - roundingSlack)) }

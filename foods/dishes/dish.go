package dishes

import (
	"slices"

	"rationwright/foods"
)

// Slot is a place in the day at which a dish is eaten.
type Slot string

// The slots of a day. A drink goes with a meal or a snack.
const (
	Breakfast Slot = "breakfast"
	Midday    Slot = "midday"
	Evening   Slot = "evening"
	Snack     Slot = "snack"
	Drink     Slot = "drink"
)

// Fortnight is the days that TimesUsual and TimesMax count for.
const Fortnight = 14

// Dish is something that people sit down to. Amounts are those of an adult's usual
// serving; a dish for infants or toddlers (UnderMonths > 0) has the child's own.
type Dish struct {
	Key, Name   string
	Core        bool // of the smaller set in which every food still has a dish
	Slots       []Slot
	FromMonths  int // full months of age from which it is served
	UnderMonths int // and under which; 0: no upper end
	Cooking     string
	ColdOnly    bool    // better hot: for households and days that heat nothing
	SimmerMin   float64 // minutes at the boil
	StandMin    float64
	SoakHours   float64 // before it is cooked
	Minutes     float64 // in all, soaking apart
	Pots        int
	Texture     string // puree, soft, regular or hard
	TimesUsual  int    // in fourteen days, gladly
	TimesMax    int    // in fourteen days, at most
	How         string // two or three sentences
	Own         bool   // of the user's own file

	Parts []*Part
}

// Part is a part of a dish. Grams are of its first food; a substitute takes grams ×
// its factor. All are on the basis of the food's row, as packed.
type Part struct {
	Ref                string // the kind or NDB number as written
	Name               string
	Role               string // base, protein, vegetable, fat, flavour or liquid
	MinG, UsualG, MaxG float64
	Optional           bool
	Options            []Option    // foods that make it, those of the part itself first
	EatenAs            string      // what is done to it for the mouth: mashed, soaked, ground
	WaterML            *float64    // water per 100 g in this dish; nil: as the food is prepared
	ReckonedAs         *foods.Food // the food that the figures are computed with
	Note               string
}

// Option is a food that makes a part.
type Option struct {
	Food       *foods.Food
	Factor     float64 // grams of Food for one gram of the part
	Substitute bool
}

// Has reports whether the dish is served at the slot.
func (d *Dish) Has(s Slot) bool { return slices.Contains(d.Slots, s) }

// ServedTo reports whether the dish is meant for someone of so many full months.
func (d *Dish) ServedTo(months int) bool {
	return months >= d.FromMonths && (d.UnderMonths == 0 || months < d.UnderMonths)
}

// Makes returns grams of f for one gram of the part; ok is false where f does not
// make it.
func (p *Part) Makes(f *foods.Food) (factor float64, ok bool) {
	for _, o := range p.Options {
		if o.Food == f {
			return o.Factor, true
		}
	}
	return 0, false
}

// Required returns the parts that the dish cannot do without.
func (d *Dish) Required() []*Part {
	return slices.DeleteFunc(slices.Clone(d.Parts), func(p *Part) bool { return p.Optional })
}

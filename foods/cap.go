package foods

import (
	"fmt"
	"slices"

	"rationwright/nutrients"
)

// capFor returns the smallest amount that key sets for p; ok is false when no
// row is about p.
func capFor(p *nutrients.Person, key string) (value float64, why Reason, ok bool) {
	rows, err := embeddedCaps()
	if err != nil {
		return 0, Reason{}, false
	}
	for i := range rows {
		r := &rows[i]
		if r.Rule != key || p.AgeMonths < r.from || r.under > 0 && p.AgeMonths >= r.under || !r.who.selects(p, nil) {
			continue
		}
		if !ok || r.value < value {
			value, why, ok = r.value, r.Reason, true
		}
	}
	return value, why, ok
}

// Cap returns the most of f that p eats at one occasion and in a day, in grams
// on f's basis, and where the figures come from. They are the adult's figures
// of the food table times the portion scale for p's age; for infants the
// amounts of complementary feeding, counted as eaten; for infant formula and
// human milk one feed, and the ceiling of the day's feed. Where no amount a day is known it
// is two sittings. What is published as the most of a day is the most of a day of each food
// that counts in it. Both are 0 only where the table has no figure at all, which
// Verify reports; such a food is not to be planned.
func Cap(p *nutrients.Person, f *Food) (occasionG, dayG float64, why Reason) {
	if f.feed() {
		dayML, why, ok := capFor(p, "feed-day")
		feedML, _, _ := capFor(p, "feed-once")
		if !ok {
			return 0, 0, Reason{}
		}
		perG := feedMLPerG(p, f)
		return feedML / perG, dayML / perG, why
	}
	occasionG, dayG = f.OccasionG, f.DayG
	if dayG <= 0 {
		sittings, _, _ := capFor(p, "second-sitting")
		dayG = sittings * occasionG
	}
	if occasionG <= 0 {
		occasionG = dayG
	}
	why = Reason{Text: "the most that is eaten at a sitting and in a day", Source: f.CapSource, Verified: f.Verified}
	if p.AgeMonths < infantMonths {
		meal, reason, _ := capFor(p, "infant-meal") // 0 under 6 months: no food
		meals, _, _ := capFor(p, "infant-meals")
		// 1 mL of mashed food is taken as 1 g; a dry food swells by what it takes up.
		g := meal / f.eatenPerGram()
		return min(occasionG, g), min(dayG, g*meals), reason
	}
	scale, reason, ok := capFor(p, "portion-scale")
	if ok && scale < 1 && !f.HasTag(TagInfantFood) { // whose figures are a child's already
		adultG := dayG
		why = reason
		occasionG, dayG = occasionG*scale, dayG*scale
		if usual, reason, ok := usualMilk(p, f); ok {
			why, dayG = reason, min(adultG, usual)
		}
	}
	if most, reason, ok := publishedDay(p, f); ok && most < dayG {
		why, dayG = reason, most
	}
	return min(occasionG, dayG), dayG, why
}

// usualMilk is the milk of a day, in grams of f on its basis, that is published for a
// small child itself, of milk and of what counts as milk: it stands where else a part of an
// adult's milk would.
func usualMilk(p *nutrients.Person, f *Food) (dayG float64, why Reason, ok bool) {
	perGram := f.PerGram("dairy") * mLPerUS
	if !f.HasTag(TagDairyDrink) || perGram <= 0 {
		return 0, Reason{}, false
	}
	mL, why, ok := capFor(p, "milk-usual")
	return mL / perGram, why, ok
}

// publishedDay is the most of f alone, in grams on its basis, that a publication lets p
// have in a day: of fruit juice and milk for children, of lactose, of caffeine.
func publishedDay(p *nutrients.Person, f *Food) (most float64, why Reason, ok bool) {
	hold := func(key string, perGram float64) {
		if perGram <= 0 {
			return
		}
		if v, reason, found := capFor(p, key); found && (!ok || v/perGram < most) {
			most, why, ok = v/perGram, reason, true
		}
	}
	if f.HasTag(TagJuice) {
		hold("juice-day", 1)
	}
	if f.HasTag(TagDairyDrink) {
		hold("milk-day", f.PerGram("dairy")*mLPerUS)
	}
	if f.HasTag(TagCaffeine) {
		hold("caffeine-day", caffeine(p)(f))
	}
	if _, _, few := capFor(p, "lactose-day"); few {
		hold("lactose-day", f.lactosePerGram())
	}
	return most, why, ok
}

// eatenPerGram returns the grams on the plate for one gram on f's basis: the
// food and the water that it is eaten with.
func (f *Food) eatenPerGram() float64 {
	if f.Preparation == nil {
		return 1
	}
	return 1 + f.Preparation.EatenML/100
}

// feedMLPerG returns the mL of ready feed from one gram of f: powder by the
// strength of the label, everything else as it is.
func feedMLPerG(p *nutrients.Person, f *Food) float64 {
	if f.Form != "infant_formula_powder" {
		return f.eatenPerGram()
	}
	g, _, _ := capFor(p, "feed-powder") // for every age that is fed
	return 1 / g
}

// sittingHours is how long a pack must keep once open for a day's cap to be
// eaten of it; under that only one sitting. Planning rule of this program, common
// practice, no source.
const sittingHours = 6

// WindowG returns the most of f, in grams on its basis, that p eats from one
// pack between opening it and the end of its keeping time without
// refrigeration, within days: one sitting under 6 h, else the day's cap on each
// of its [Keeping.OpenDays], at most days times the cap. A food without a
// keeping time after opening keeps for one sitting.
func WindowG(p *nutrients.Person, f *Food, days int) float64 {
	occasion, day, _ := Cap(p, f)
	if f.Keeping == nil || f.Keeping.AfterOpenHours < sittingHours {
		return min(occasion, float64(days)*day)
	}
	return day * float64(min(f.Keeping.OpenDays(), days))
}

// GroupCap limits what a person eats of several foods together. It is a linear
// row: the sum over foods of Coefficient(f) × grams per day is at most PerDay.
type GroupCap struct {
	Name   string // plain words, "fish, counted by its mercury,"
	PerDay float64
	Unit   string // of PerDay
	Reason
	// Coefficient returns what one gram of a food, on its basis, counts towards the
	// cap, in its Unit; 0 means that it is not counted.
	Coefficient func(*Food) float64
}

// Conversion factors of the group caps. Source: exact definitions of the US
// customary units.
const (
	gPerOz  = 28.349523125
	mLPerUS = 236.5882365 // US cup, the cup-eq of dairy
)

// GroupCaps returns the caps of p over several foods: fish by mercury class,
// fruit juice and milk of children, bare fat and bare sugar, caffeine, lactose,
// and the complementary food of infants. Every cap carries its source.
func GroupCaps(p *nutrients.Person) []GroupCap {
	var caps []GroupCap
	add := func(name, key, unit string, perUnit, days float64, coefficient func(*Food) float64) {
		if v, why, ok := capFor(p, key); ok {
			caps = append(caps, GroupCap{Name: name, PerDay: v * perUnit / days, Unit: unit, Reason: why, Coefficient: coefficient})
		}
	}
	scale, _, _ := capFor(p, "portion-scale")
	add("fish, counted by its mercury,", "fish-week", "g before cooking", gPerOz, 7, fishCoefficient(p))
	// 1 g of juice counts as 1 mL: it is denser.
	add("fruit juice", "juice-day", "mL", 1, 1, one(func(f *Food) bool { return f.HasTag(TagJuice) }))
	add("milk", "milk-day", "mL", 1, 1, func(f *Food) float64 {
		if !f.HasTag(TagDairyDrink) {
			return 0
		}
		return f.PerGram("dairy") * mLPerUS
	})
	add("oil and fat as such", "fat-day", "g", scale, 1, one(func(f *Food) bool { return slices.Contains(bareFats, f.Form) }))
	add("sugar and jam as such", "sugar-day", "g", scale, 1, one(func(f *Food) bool { return slices.Contains(bareSugars, f.Form) }))
	add("caffeine", "caffeine-day", "mg", 1, 1, caffeine(p))
	add("lactose", "lactose-day", "g", 1, 1, (*Food).lactosePerGram)
	if meal, why, ok := capFor(p, "infant-meal"); ok {
		meals, _, _ := capFor(p, "infant-meals")
		why.Text = fmt.Sprintf("%s, %.0f times a day at most", why.Text, meals)
		caps = append(caps, GroupCap{Name: "complementary food", PerDay: meal * meals, Unit: "g as eaten", Reason: why,
			Coefficient: func(f *Food) float64 {
				if f.feed() {
					return 0
				}
				return f.eatenPerGram()
			}})
	}
	return caps
}

// bareFats and bareSugars are the forms of food that the cooking rules mean by
// oil, butter and shortening, and by sugar, honey, syrup and jam.
var (
	bareFats   = []string{"oil_vegetable", "shortening", "ghee"}
	bareSugars = []string{"sugar_white", "honey", "syrup", "jam_jelly"}
)

// one counts a gram of the foods that are such as one.
func one(is func(*Food) bool) func(*Food) float64 {
	return func(f *Food) float64 {
		if is(f) {
			return 1
		}
		return 0
	}
}

// fishCoefficient counts fish before cooking. A gram of good-choice fish
// counts as many as the best-choice week holds more, so that one serving of it
// leaves no room for other fish.
func fishCoefficient(p *nutrients.Person) func(*Food) float64 {
	raw, _, _ := capFor(p, "fish-raw-per-canned")
	week, _, _ := capFor(p, "fish-week")
	good := week // not eligible at this age: counted like the week's whole share
	if oz, _, ok := capFor(p, "fish-good-week"); ok {
		good = week / oz
	}
	return func(f *Food) float64 {
		switch f.Mercury {
		case "best":
			return raw
		case "good":
			return raw * good
		}
		return 0
	}
}

// caffeineForms are the forms whose caffeine data/caps.csv gives, with the key
// of the figure; every other food with the tag takes caffeine-other.
var caffeineForms = map[string]string{
	"coffee_instant": "caffeine-coffee",
	"tea_bags":       "caffeine-tea",
	"cocoa_powder":   "caffeine-cocoa",
	"chocolate":      "caffeine-chocolate",
}

func caffeine(p *nutrients.Person) func(*Food) float64 {
	mgPerG := map[string]float64{}
	for form, key := range caffeineForms {
		mgPerG[form], _, _ = capFor(p, key)
	}
	other, _, _ := capFor(p, "caffeine-other")
	return func(f *Food) float64 {
		if !f.HasTag(TagCaffeine) {
			return 0
		}
		if mg, ok := mgPerG[f.Form]; ok {
			return mg
		}
		return other
	}
}

// LactoseAtMost returns the most lactose that 100 g of f can hold, in g: the
// figure where there is one, nothing without milk, else all its sugars, else
// all its carbohydrate, else all of it.
func (f *Food) LactoseAtMost() float64 {
	if f.HasLactose {
		return f.LactoseG
	}
	if !slices.Contains(f.Allergens, "milk") {
		return 0
	}
	for _, n := range []nutrients.Nutrient{nutrients.Sugars, nutrients.Carbohydrate} {
		if v, known := f.Per100g.Get(n); known {
			return v
		}
	}
	return 100
}

func (f *Food) lactosePerGram() float64 { return f.LactoseAtMost() / 100 }

package foods

import "rationwright/nutrients"

// Forms and servings by which iron-rich infant food is known.
const (
	infantCerealForm = "baby_cereal_dry"
	// plainMeatOzEq is the least protein food, in ounce-equivalents an ounce, of
	// what counts as plain meat: an ounce is one (Dietary Guidelines
	// equivalents); a dinner of meat and vegetables is under a half.
	plainMeatOzEq = 0.9
)

// IsPuree reports whether f is fruit or vegetables made for infants: nothing with meat.
func (f *Food) IsPuree() bool {
	return f.HasTag(TagInfantFood) && !f.HasTag(TagMeat) && !f.HasTag(TagPoultry) && f.PerGram("fruits")+f.PerGram("vegetables") > 0
}

// IsInfantMeat reports whether f is plain meat or poultry made for infants: no dinner
// of it with vegetables.
func (f *Food) IsInfantMeat() bool {
	return f.HasTag(TagInfantFood) && (f.HasTag(TagMeat) || f.HasTag(TagPoultry)) && f.PerGram("protein")*gPerOz >= plainMeatOzEq
}

// IronServings returns how many servings of iron-rich infant food one gram of
// f, on its basis, is for an infant p: iron-fortified infant cereal by its dry
// serving, plain strained or junior meat by its own. It is 0 for every other
// food, and for people for whom data/caps.csv has no serving.
func IronServings(p *nutrients.Person, f *Food) float64 {
	key := ""
	switch {
	case f.Form == infantCerealForm:
		key = "iron-serving-cereal"
	case f.IsInfantMeat():
		key = "iron-serving-meat"
	default:
		return 0
	}
	grams, _, ok := capFor(p, key)
	if !ok {
		return 0
	}
	return 1 / grams
}

package nutrients

import "slices"

// General Atwater factors, kcal per g, with which shares of energy are turned
// into grams. From memory, as in the requirement tables.
const (
	kcalPerGProtein      = 4
	kcalPerGCarbohydrate = 4
	kcalPerGFat          = 9
)

// Edges of the energy band as multiples of the requirement. Least cost sits on
// the lower edge, so the lower edge is the requirement itself. Planning rule of
// this program.
const (
	bandFloor     = 1.00
	bandLeanFloor = 0.97
	bandCeiling   = 1.10
)

// belowCeiling is how near to a ceiling, or to the top of a share of energy, an
// adjusted floor may come: between the two there must be room for food.
// Planning rule of this program.
const belowCeiling = 0.9

// builder gathers the needs of one person.
type builder struct {
	d      *published
	p      *Person
	o      Options
	stage  stage
	state  bodyState
	list   [Count]*Need
	shares [Count]*Share
	needs  Needs

	refused []error // rules that cannot be obeyed
}

// need returns the need of n, made when there is none.
func (b *builder) need(n Nutrient) *Need {
	if b.list[n] == nil {
		b.list[n] = &Need{Nutrient: n}
	}
	return b.list[n]
}

func (b *builder) note(text string, f figure) { b.needs.say(text, f.Source, f.Verified) }

// finish puts the needs in the order of the food table's columns and drops
// those without any limit.
func (b *builder) finish() {
	for _, need := range b.list {
		if need != nil && (need.Floor != nil || need.Ceiling != nil || need.Target != nil || need.Upper != nil) {
			b.needs.List = append(b.needs.List, *need)
		}
	}
	for _, share := range b.shares {
		if share != nil && (share.Min != nil || share.Max != nil) {
			b.needs.Shares = append(b.needs.Shares, *share)
		}
	}
	b.needs.NotChecked = slices.Clone(notChecked)
}

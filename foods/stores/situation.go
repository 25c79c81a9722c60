package stores

import (
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
)

// Tag is one word about a household or its store that decides which cautions
// and supplies apply.
type Tag string

// Tags of people. [PersonTags] finds those that a household file can tell; the
// others the caller adds to Situation.Tags.
const (
	Infant       Tag = "infant" // under 12 months
	InfantUnder6 Tag = "infant-under-6-months"
	FormulaFed   Tag = "formula-fed"
	NoMilk       Tag = "no-milk" // 12 to 23 months, who may have no milk: [Situation.NoMilk]
	Under4       Tag = "under-4" // under 48 months, choking
	Child        Tag = "child"   // under 18 years
	Pregnant     Tag = "pregnant"
	Nursing      Tag = "nursing"
	Older        Tag = "older" // 65 years and over
	Diabetes     Tag = "diabetes"
	LowSugarDrug Tag = "low-sugar-drugs" // insulin or another drug that may cause low sugar
	AllergyTag   Tag = "allergy"
	Coeliac      Tag = "coeliac"
	SoftFood     Tag = "soft-food"
	Kidney       Tag = "kidney"
	Heart        Tag = "heart"
	Dysphagia    Tag = "dysphagia"
	InbornError  Tag = "inborn-error"
	TubeFeeding  Tag = "tube-feeding"
	Menstruating Tag = "menstruating"

	Pets         Tag = "pets"
	Frail        Tag = "frail"
	Ill          Tag = "ill"
	Prescription Tag = "prescription"
	Gout         Tag = "gout"
	Warfarin     Tag = "warfarin"
	MAOInhibitor Tag = "mao-inhibitor"
	Refeeding    Tag = "refeeding" // starved or near-fasting, eating disorder, alcohol dependence
)

// Tags of things. [Situation.AllTags] finds those of foods, packs and stoves,
// the rows of things.csv; the others the caller adds to Situation.Tags.
const (
	AnyFood        Tag = "food"
	AnyWater       Tag = "water"
	Cooking        Tag = "cooking"         // something is cooked or heated
	DoubtfulWater  Tag = "doubtful-water"  // water that must be disinfected
	WellWater      Tag = "well-water"      // a private well
	Bleach         Tag = "bleach"          // water is treated with bleach
	Iodine         Tag = "iodine"          // water is treated with iodine
	Flame          Tag = "flame"           // any open flame
	CarbonMonoxide Tag = "carbon-monoxide" // charcoal, gas or liquid fuel, generator
	StoredFuel     Tag = "stored-fuel"     // gas, alcohol or liquid fuel kept in store
	HomeCanned     Tag = "home-canned"
	Flood          Tag = "flood"
	Illness        Tag = "illness"
	Sanitation     Tag = "sanitation"
	Supplements    Tag = "supplements"
	Alcohol        Tag = "alcohol"
	Rationing      Tag = "rationing"  // food is stretched
	LowEnergy      Tag = "low-energy" // the plan lies under the stated energy need
)

// olderYears is the age from which a person counts as older: common practice,
// no source.
const olderYears = 65

// Menstruation is planned for from 10 to 54 years, wide on the safe side, as a
// spare pack costs little and a missing one cannot be bought: common practice,
// no source. In the first two trimesters none is planned; in the third the
// birth may come.
const menstruationFromYears, menstruationToYears = 10, 54

// conditionTags are the tags that a condition of the household file brings.
// Type 2 diabetes without drugs brings no low-sugar tag.
var conditionTags = map[nutrients.Condition][]Tag{
	nutrients.Diabetes1:         {Diabetes, LowSugarDrug},
	nutrients.Diabetes2:         {Diabetes, LowSugarDrug},
	nutrients.DiabetesPregnancy: {Diabetes, LowSugarDrug},
	nutrients.Diabetes2Diet:     {Diabetes},
	nutrients.SoftFood:          {SoftFood},
	nutrients.Coeliac:           {Coeliac},
	nutrients.KidneyDisease:     {Kidney},
	nutrients.HeartFailure:      {Heart},
	nutrients.LowSodium:         {Heart}, // the caution on salt is theirs too
	nutrients.Dysphagia:         {Dysphagia},
	nutrients.InbornError:       {InbornError},
	nutrients.TubeFeeding:       {TubeFeeding},
}

// PersonTags returns the tags that p's household row tells.
func PersonTags(p *nutrients.Person) []Tag {
	var tags []Tag
	add := func(when bool, t ...Tag) {
		if when {
			tags = append(tags, t...)
		}
	}
	years := p.AgeMonths / 12
	add(p.AgeMonths < 12, Infant)
	add(p.AgeMonths < 6, InfantUnder6)
	add(p.AgeMonths < 12 && (p.Feeding == nutrients.FormulaFed || p.Feeding == nutrients.MixedFed), FormulaFed)
	add(p.AgeMonths < 48, Under4)
	add(years < 18, Child)
	add(p.Pregnant(), Pregnant)
	add(p.Lactating(), Nursing)
	add(years >= olderYears, Older)
	add(len(p.Allergies) > 0, AllergyTag)
	add(p.Sex == nutrients.Female && years >= menstruationFromYears && years <= menstruationToYears &&
		p.State != nutrients.Pregnant1 && p.State != nutrients.Pregnant2, Menstruating)
	for _, c := range p.Conditions {
		add(true, conditionTags[c]...)
	}
	return tags
}

// Situation is a household and its store, as far as cautions and supplies ask.
type Situation struct {
	People []nutrients.Person
	Foods  []*foods.Food // foods in the plan or store
	Packs  []*foods.Pack // packs in the plan or store; their foods count as Foods
	Stoves []string      // stoves in use, by the names of [Stoves]
	Pets   int
	Tags   []Tag // what else is known

	// NoMilk says who, at 12 to 23 months, may have no milk; nil: nobody. It goes by the
	// foods there are and by the whole house: [foods.NoMilk].
	NoMilk func(*nutrients.Person) bool
}

// tagsOf returns the tags of p, one of s.People.
func (s *Situation) tagsOf(p *nutrients.Person) []Tag {
	tags := PersonTags(p)
	if s.NoMilk != nil && s.NoMilk(p) {
		tags = append(tags, NoMilk)
	}
	return tags
}

// thing says which foods and containers bring a tag.
type thing struct {
	tag              Tag
	forms, foodTags  []string // of foods
	kinds, materials []string // of containers
}

var things = tableOf("things", func(r row) thing {
	return thing{Tag(r.Text("thing")), r.List("forms"), r.List("food_tags"), r.List("kinds"), r.List("materials")}
})

// AllTags returns every tag of s, each once: people first, then things, then
// s.Tags.
func (s Situation) AllTags() []Tag {
	var tags []Tag
	add := func(t ...Tag) {
		for _, t := range t {
			if !slices.Contains(tags, t) {
				tags = append(tags, t)
			}
		}
	}
	for i := range s.People {
		add(s.tagsOf(&s.People[i])...)
	}
	if s.Pets > 0 {
		add(Pets)
	}
	all := slices.Clone(s.Foods)
	for _, p := range s.Packs {
		if p.Food != nil {
			all = append(all, p.Food)
		}
	}
	if len(all) > 0 {
		add(AnyFood)
	}
	for _, t := range things() {
		for _, f := range all {
			if slices.Contains(t.forms, f.Form) || slices.ContainsFunc(t.foodTags, f.HasTag) {
				add(t.tag)
			}
		}
		for _, p := range s.Packs {
			if c, ok := ContainerByKey(p.Container); ok &&
				(slices.Contains(t.kinds, c.Kind) || slices.Contains(t.materials, c.Material)) {
				add(t.tag)
			}
		}
	}
	for _, name := range s.Stoves {
		add(Flame, Cooking)
		if st, err := StoveByName(name); err == nil {
			add(st.Tags...)
		}
	}
	add(s.Tags...)
	return tags
}

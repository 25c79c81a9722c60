package foods

import (
	"slices"
	"sync"

	"rationwright/nutrients/table"
)

// usualFoods reads data/usual.csv, once: the food that a kind's name on a shelf list
// stands for where it says no more.
var usualFoods = sync.OnceValues(func() (map[string]string, error) {
	return keyed("usual.csv", filled("kind ndb source"), "kind", func(row *table.Row) (kind, ndb string) {
		return row.Text("kind"), row.Text("ndb")
	})
})

// usualOf returns which of several foods of a kind is meant where nothing more is
// said, nil where that must be asked: where the table names none, and where another
// of them holds an allergen or bears a mark that the usual one does not, so that
// someone could be given what harms them. What makers of the others may put in
// beyond that is in [tracesBeyond].
func usualOf(kind string, among []*Food) *Food {
	all, err := usualFoods()
	if err != nil {
		return nil
	}
	i := slices.IndexFunc(among, func(f *Food) bool { return f.NDB == all[kind] })
	if i < 0 {
		return nil
	}
	usual := among[i]
	for _, other := range among {
		for _, a := range other.Allergens {
			if !slices.Contains(usual.Allergens, a) { // traces do not count: some may eat those
				return nil
			}
		}
		for _, tag := range other.Tags {
			if slices.Contains(barring, tag) && !usual.HasTag(tag) {
				return nil
			}
		}
	}
	return usual
}

// tracesBeyond returns the allergens that some makers' packs of the others hold, and
// those of f do not.
func tracesBeyond(f *Food, among []*Food) []string {
	var beyond []string
	for _, other := range among {
		for _, a := range other.MayContain {
			if !slices.Contains(f.Allergens, a) && !slices.Contains(f.MayContain, a) && !slices.Contains(beyond, a) {
				beyond = append(beyond, a)
			}
		}
	}
	return beyond
}

// barring are the tags that keep a food from someone whatever its figures; see
// data/tags.csv.
var barring = []string{TagMeat, TagPoultry, "fish", "animal", "gelatin", "rennet", "meat-stock", "bones", "liver", "gluten", "oats", "honey", "caffeine", "sweetener", "alcohol", "choking", "egg-raw", "infant-food", TagInfantFormula, TagHumanMilk}

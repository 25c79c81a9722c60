package nutrients

import (
	"errors"
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// Allergens are the nine major allergens, in the words of household.csv.
// Source: US FALCPA (2004) and FASTER Act (2021), in data/special.csv.
var Allergens = []string{"milk", "egg", "fish", "shellfish", "tree-nut", "wheat", "peanut", "soy", "sesame"}

// Allergy is one of the nine major allergens that a person must not eat.
type Allergy struct {
	Allergen string // milk egg fish shellfish tree-nut wheat peanut soy sesame
	Level    AllergyLevel
}

// AllergyLevel says how far an allergy reaches. The zero level is the usual
// one.
type AllergyLevel int

// The levels. Food that contains the allergen is barred for the person at each
// of them.
const (
	AllergyStrict    AllergyLevel = iota // so is food that may contain it
	AllergyTraces                        // written with "~": food that may contain it is allowed, on a clinician's word
	AllergyHousehold                     // written with "!": both are barred for everybody in the house
)

var allergyMarks = map[AllergyLevel]string{AllergyStrict: "", AllergyTraces: "~", AllergyHousehold: "!"}

// String returns the allergy as household.csv writes it.
func (a Allergy) String() string { return a.Allergen + allergyMarks[a.Level] }

func readAllergies(row *table.Row) []Allergy {
	var all []Allergy
	for _, part := range row.List("allergies") {
		a := Allergy{Allergen: part}
		for level, mark := range allergyMarks {
			if word, ok := strings.CutSuffix(part, mark); ok && mark != "" {
				a = Allergy{Allergen: word, Level: level}
			}
		}
		a.Allergen = strings.ToLower(strings.TrimSpace(a.Allergen))
		switch {
		case !slices.Contains(Allergens, a.Allergen):
			fix := "known are: " + strings.Join(Allergens, " ")
			if near := table.Suggest(a.Allergen, Allergens); near != "" {
				fix = near + " " + fix
			}
			row.FailValue("allergies", part, table.ErrUnknownWord, fix+"; for another food write the rule: no FOOD")
		case slices.ContainsFunc(all, func(b Allergy) bool { return b.Allergen == a.Allergen }):
			row.FailValue("allergies", part, errors.New("written twice"), "leave one")
		default:
			all = append(all, a)
		}
	}
	return all
}

// allergic reports whether p must not eat an allergen.
func (p *Person) allergic(allergen string) bool {
	return slices.ContainsFunc(p.Allergies, func(a Allergy) bool { return a.Allergen == allergen })
}

package rationtest

import (
	"fmt"
	"math/rand/v2"

	"rationwright/nutrients"
)

// Kitchen draws a household of one to five with what makes kitchens differ.
func Kitchen(rng *rand.Rand) []nutrients.Person {
	var people []nutrients.Person
	for i := range 1 + rng.IntN(5) {
		p := nutrients.Person{Name: fmt.Sprintf("P%d", i+1), Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1}
		if rng.IntN(2) == 0 {
			p.Sex = nutrients.Male
		}
		switch k := rng.IntN(12); {
		case k == 0 && i > 0:
			p.AgeMonths, p.Feeding = rng.IntN(12), nutrients.FormulaFed
			if p.AgeMonths < 6 {
				p.WeightKg = 6
			}
		case k < 3 && i > 0:
			p.AgeMonths = 12 + rng.IntN(36)
		case k < 5 && i > 0:
			p.AgeMonths = 48 + rng.IntN(12*14)
		case k < 7:
			p.AgeMonths = 12 * (65 + rng.IntN(25))
		default:
			p.AgeMonths = 12 * (19 + rng.IntN(45))
		}
		if p.AgeMonths >= 12*19 && rng.IntN(3) == 0 {
			special := []nutrients.Condition{nutrients.Diabetes2, nutrients.Coeliac, nutrients.SoftFood, nutrients.Vegetarian, nutrients.Lactose, nutrients.LowSodium}
			p.Conditions = []nutrients.Condition{special[rng.IntN(len(special))]}
		}
		if p.AgeMonths >= 48 && rng.IntN(6) == 0 {
			words := []string{"milk", "egg", "fish", "peanut", "wheat", "soy"}
			p.Allergies = []nutrients.Allergy{{Allergen: words[rng.IntN(len(words))]}}
		}
		people = append(people, p)
	}
	return people
}

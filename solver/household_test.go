package solver

import (
	"fmt"
	"math/rand/v2"

	"rationwright/nutrients"
)

// randomHousehold draws one to six people of all ages, states, feedings,
// conditions, allergies, dislikes and rules that a household file may hold.
// Names are plain words: the people are invented.
func randomHousehold(rng *rand.Rand) []nutrients.Person {
	people := make([]nutrients.Person, 1+rng.IntN(6))
	for i := range people {
		people[i] = randomPerson(rng, fmt.Sprintf("person %d", i+1))
	}
	return people
}

func randomPerson(rng *rand.Rand, name string) nutrients.Person {
	p := nutrients.Person{Name: name, Count: 1, Activity: nutrients.LowActive, Sex: nutrients.Female}
	if rng.IntN(2) == 0 {
		p.Sex = nutrients.Male
	}
	switch rng.IntN(10) {
	case 0:
		p.AgeMonths = rng.IntN(12)
		p.Feeding = []nutrients.Feeding{nutrients.BreastFed, nutrients.FormulaFed, nutrients.MixedFed}[rng.IntN(3)]
		if rng.IntN(5) == 0 {
			p.Allergies = []nutrients.Allergy{{Allergen: "soy"}}
		}
		return p
	case 1:
		p.AgeMonths = 12 + rng.IntN(36)
	case 2:
		p.AgeMonths = 48 + rng.IntN(120)
	case 3, 4:
		p.AgeMonths, p.YearsOnly = 12*(65+rng.IntN(36)), true
	default:
		p.AgeMonths, p.YearsOnly = 12*(14+rng.IntN(51)), true
	}
	p.Activity = []nutrients.Activity{
		nutrients.Inactive, nutrients.LowActive, nutrients.LowActive, nutrients.Active, nutrients.VeryActive,
	}[rng.IntN(5)]
	if years := p.AgeMonths / 12; p.Sex == nutrients.Female && years >= 14 && years <= 50 && rng.IntN(3) == 0 {
		p.State = []nutrients.State{
			nutrients.Pregnant1, nutrients.Pregnant2, nutrients.Pregnant3, nutrients.Lactating1, nutrients.Lactating2,
		}[rng.IntN(5)]
	}
	p.Conditions = randomConditions(rng, &p)
	if rng.IntN(4) == 0 {
		all := []string{"milk", "egg", "fish", "shellfish", "tree-nut", "wheat", "peanut", "soy", "sesame"}
		p.Allergies = []nutrients.Allergy{{Allergen: all[rng.IntN(len(all))], Household: rng.IntN(4) == 0}}
	}
	if rng.IntN(4) == 0 {
		p.Dislikes = []string{[]string{"canned fish", "soups", "juice", "canned beans"}[rng.IntN(4)]}
	}
	if rng.IntN(8) == 0 {
		p.Count = 2
	}
	return p
}

// randomConditions draws up to two conditions that can stand together.
func randomConditions(rng *rand.Rand, p *nutrients.Person) []nutrients.Condition {
	var list []nutrients.Condition
	add := func(chance int, c nutrients.Condition) {
		if len(list) < 2 && rng.IntN(chance) == 0 {
			list = append(list, c)
		}
	}
	if p.AgeMonths >= 18*12 && p.State == nutrients.NoState {
		add(12, nutrients.Diabetes1)
		if len(list) == 0 {
			add(10, nutrients.Diabetes2)
		}
		if len(list) == 0 {
			add(12, nutrients.Diabetes2Diet)
		}
	}
	if p.Pregnant() {
		add(4, nutrients.DiabetesPregnancy)
	}
	if p.AgeMonths >= 14*12 {
		add(10, nutrients.LowSodium)
		add(10, nutrients.SoftFood)
	}
	add(12, nutrients.Coeliac)
	add(12, nutrients.Lactose)
	add(10, nutrients.Vegetarian)
	if p.AgeMonths >= 14*12 && len(list) == 0 {
		add(12, nutrients.Vegan)
	}
	add(30, nutrients.KidneyDisease)
	add(40, nutrients.Dysphagia)
	return list
}

package rationtest

import (
	"fmt"
	"math"
	"math/rand/v2"

	"rationwright/nutrients"
	"rationwright/solver/rules"
)

// RandomHousehold draws one to six people of all ages, states, feedings,
// conditions, allergies, dislikes and rules that a household file may hold.
// Names are plain words: the people are invented. Whoever the reader of the
// household file would not accept is drawn again.
func RandomHousehold(rng *rand.Rand) []nutrients.Person {
	people := make([]nutrients.Person, 1+rng.IntN(6))
	for i := range people {
		name := fmt.Sprintf("person %d", i+1)
		for people[i] = randomPerson(rng, name); !valid(people[i]); {
			people[i] = randomPerson(rng, name)
		}
	}
	return people
}

// valid reports whether p is a row that a household file may hold.
func valid(p nutrients.Person) bool {
	_, _, err := nutrients.ReadHouseholdRows("random", nutrients.HouseholdRows([]nutrients.Person{p}))
	return err == nil
}

// oneOf draws a word of a list.
func oneOf[T any](rng *rand.Rand, list ...T) T { return list[rng.IntN(len(list))] }

// chance is true once in n times.
func chance(rng *rand.Rand, n int) bool { return rng.IntN(n) == 0 }

func randomPerson(rng *rand.Rand, name string) nutrients.Person {
	p := nutrients.Person{Name: name, Count: 1, Activity: nutrients.LowActive, Sex: oneOf(rng, nutrients.Female, nutrients.Male)}
	switch rng.IntN(10) {
	case 0:
		p.AgeMonths = rng.IntN(12)
		p.Feeding = oneOf(rng, nutrients.BreastFed, nutrients.FormulaFed, nutrients.MixedFed)
		if chance(rng, 2) {
			p.WeightKg = math.Round(10*(3.3+0.5*float64(p.AgeMonths)*(0.8+0.5*rng.Float64()))) / 10
		}
	case 1:
		p.AgeMonths = 12 + rng.IntN(36)
	case 2:
		p.AgeMonths = 48 + rng.IntN(120)
	case 3, 4:
		p.AgeMonths, p.YearsOnly = 12*(65+rng.IntN(36)), true
	default:
		p.AgeMonths, p.YearsOnly = 12*(14+rng.IntN(51)), true
	}
	if p.AgeMonths >= 12 {
		p.Activity = oneOf(rng, nutrients.Inactive, nutrients.LowActive, nutrients.LowActive, nutrients.Active, nutrients.VeryActive)
	}
	if p.AgeMonths >= 18*12 && chance(rng, 3) {
		p.HeightCm = math.Round(150 + 45*rng.Float64())
		p.WeightKg = math.Round((18 + 17*rng.Float64()) * p.HeightCm * p.HeightCm / 10000)
	}
	if years := p.AgeMonths / 12; p.Sex == nutrients.Female && years >= 14 && years <= 50 && chance(rng, 3) {
		p.State = oneOf(rng, nutrients.Pregnant1, nutrients.Pregnant2, nutrients.Pregnant3, nutrients.Lactating1, nutrients.Lactating2)
	}
	p.Conditions = randomConditions(rng, &p)
	for _, once := range []int{4, 16} {
		if chance(rng, once) {
			a := nutrients.Allergy{Allergen: oneOf(rng, nutrients.Allergens...), Level: nutrients.AllergyLevel(rng.IntN(3))}
			if len(p.Allergies) == 0 || p.Allergies[0].Allergen != a.Allergen {
				p.Allergies = append(p.Allergies, a)
			}
		}
	}
	if p.AgeMonths >= 12 && chance(rng, 4) {
		p.Dislikes = []string{oneOf(rng, "canned fish", "soups", "juice", "canned beans", "milk", "sauerkraut, canned")}
	}
	if p.AgeMonths >= 12 && chance(rng, 5) {
		p.Rules = randomRules(rng, &p)
	}
	if chance(rng, 8) {
		p.Count = 2
	}
	return p
}

// randomRules draws one or two rules of the household file.
func randomRules(rng *rand.Rand, p *nutrients.Person) []nutrients.Rule {
	var texts []string
	if len(p.Conditions) > 0 && rules.HasDiabetes(p) && chance(rng, 2) {
		texts = append(texts, oneOf(rng, "carbohydrate 45-60 g/meal", "carbohydrate 60-75 g/meal"))
	}
	texts = append(texts, oneOf(rng,
		"no rolled oats", "no canned fish", "most whole milk, vitamin D, long-life 200 g/day", "least rolled oats 20 g/day",
		"floor iron 20 mg", "floor fibre 35 g", "ceiling sodium 1800 mg", "ceiling saturated_fat 15 g",
		"floor vitamin_d 20 µg", "ceiling vitamin_k 90 µg", "floor protein 90 g", "ceiling cholesterol 200 mg",
	))
	var list []nutrients.Rule
	for _, text := range texts {
		if rule, _, err := nutrients.ParseRule(text); err == nil {
			list = append(list, rule)
		}
	}
	return list
}

// randomConditions draws up to three conditions that can stand together.
func randomConditions(rng *rand.Rand, p *nutrients.Person) []nutrients.Condition {
	var list []nutrients.Condition
	add := func(once int, c nutrients.Condition) {
		if len(list) < 3 && chance(rng, once) {
			list = append(list, c)
		}
	}
	switch {
	case p.Pregnant():
		add(4, nutrients.DiabetesPregnancy)
	case p.AgeMonths >= 18*12:
		add(4, oneOf(rng, nutrients.Diabetes1, nutrients.Diabetes2, nutrients.Diabetes2Diet))
	case p.AgeMonths >= 24:
		add(12, nutrients.Diabetes1)
	}
	if p.AgeMonths >= 8*12 {
		add(10, nutrients.LowSodium)
		add(10, nutrients.SoftFood)
	}
	add(12, nutrients.Coeliac)
	add(12, nutrients.Lactose)
	add(8, oneOf(rng, nutrients.Vegetarian, nutrients.Vegetarian, nutrients.Vegan))
	add(20, oneOf(rng, nutrients.KidneyDisease, nutrients.HeartFailure, nutrients.Dysphagia, nutrients.InbornError, nutrients.TubeFeeding))
	return list
}

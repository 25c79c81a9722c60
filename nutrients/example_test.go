package nutrients_test

import (
	"fmt"
	"strings"

	"rationwright/nutrients"
)

func ExampleFor() {
	woman := nutrients.Person{Name: "Runa", AgeMonths: 34 * 12, Sex: nutrients.Female, Activity: nutrients.LowActive}
	needs, err := nutrients.For(woman, nutrients.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, need := range needs.List {
		if need.Nutrient == nutrients.Iron {
			fmt.Printf("%s: at least %g %s (%s), at most %g (%s)\n", need.Nutrient, need.Floor.Amount, need.Nutrient.Unit(), need.Floor.Kind, need.Ceiling.Amount, need.Ceiling.Kind)
			fmt.Println(need.Floor.Source)
		}
	}
	// Output:
	// iron: at least 18 mg (RDA), at most 45 (UL)
	// IOM DRI: Vitamin A, Vitamin K, Arsenic, Boron, Chromium, Copper, Iodine, Iron, Manganese, Molybdenum, Nickel, Silicon, Vanadium, and Zinc (2001)
}

func ExampleReadHousehold() {
	file := "name,age_years,age_months,sex,feeding,allergies\nRuna,34,,f,,\nOdd,,5,m,formula,\nLin,6,,g,,penut!\n"
	people, _, err := nutrients.ReadHousehold("household.csv", strings.NewReader(file))
	fmt.Println(len(people), "people")
	fmt.Println(err)
	// Output:
	// 0 people
	// household.csv:4:8: sex "g": unknown word; write one of: f m
	// household.csv:4:11: allergies "penut!": unknown word; did you mean "peanut"? known are: milk egg fish shellfish tree-nut wheat peanut soy sesame; for another food write the rule: no FOOD
}

func ExampleHouseholdRows() {
	people := []nutrients.Person{{
		Name: "Odd", AgeMonths: 5, Sex: nutrients.Male, Activity: nutrients.LowActive, Feeding: nutrients.FormulaFed, Count: 1,
	}}
	for _, row := range nutrients.HouseholdRows(people) {
		fmt.Println(strings.Join(row, ","))
	}
	// Output:
	// name,age_years,age_months,sex,height_cm,weight_kg,activity,state,feeding,conditions,allergies,dislikes,rules,orders,supplements,count
	// Odd,,5,m,,,low-active,,formula,,,,,,,1
}

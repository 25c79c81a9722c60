package foods_test

import (
	"fmt"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// An infant of eight months gets no honey, and the reason has a source.
func ExampleEligible() {
	table, err := foods.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	honey, err := table.Food("honey")
	if err != nil {
		fmt.Println(err)
		return
	}
	infant := nutrients.Person{Name: "Nils", AgeMonths: 8, Feeding: nutrients.FormulaFed}
	ok, why := foods.Eligible(infant, []nutrients.Person{infant}, honey)
	fmt.Println(ok)
	fmt.Println(why.Text)
	fmt.Println(why.Source)
	// Output:
	// false
	// no honey, raw or cooked, under 12 months: infant botulism
	// CDC / AAP / WHO
}

// A child of five eats 0.6 of an adult's portion.
func ExampleCap() {
	table, err := foods.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	rice, err := table.Food("20044")
	if err != nil {
		fmt.Println(err)
		return
	}
	child := nutrients.Person{Name: "Siri", AgeMonths: 60}
	occasion, day, _ := foods.Cap(&child, rice)
	fmt.Printf("%.1f g dry at one sitting, %.0f g in a day\n", occasion, day)
	// Output: 67.5 g dry at one sitting, 120 g in a day
}

// Every fault of a file is told in one run.
func ExampleTable_ReadStock() {
	table, err := foods.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	_, err = table.ReadStock("stock.csv", strings.NewReader("food,grams,best_before\nhoney,\"0,5\",2027-02-30\n"))
	fmt.Println(err)
	// Output:
	// stock.csv:2:7: grams "0,5": not a number: it has a decimal comma; write 0.5
	// stock.csv:2:13: best_before "2027-02-30": not a date; write year-month-day, such as 2026-01-31
}

package stores_test

import (
	"fmt"
	"os"

	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// Twelve litres of cloudy water and a bottle of 5.25 percent bleach.
func ExampleDisinfect() {
	dose, err := stores.Disinfect("bleach", "5.25", 12, stores.CloudyWater)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s; wait %d minutes\n", dose.Text, dose.WaitMin)
	_, err = stores.Disinfect("bleach", "12", 12, stores.ClearWater)
	fmt.Println(err)
	// Output:
	// 52 drops, or 3/4 teaspoon (3.2 mL); first settle and filter the water until it is clear; wait 30 minutes
	// bleach "12": strength not in the table: over 9 percent it is no household bleach but pool or industrial chlorine, of which a slip of a drop is dangerous and no drinking dose is published; the nearest is "8.25 percent", the table has 5-6 percent, 8.25 percent, 1 percent
}

// Water for two people, and what to keep it in that one person can lift.
func ExampleRecommend() {
	need := stores.ComputeWater(stores.WaterInput{
		People:       []stores.WaterPerson{{Name: "two adults", Count: 2, DrinkLPerDay: 2}},
		Days:         14,
		PreparationL: 10,
	})
	advice := stores.Recommend(need, need.Litres)
	fmt.Printf("computed %.1f L, recommended %.1f L: %s\n", need.Litres, advice.Recommended, advice.Because)
	for _, c := range stores.WaterContainers() {
		f, err := c.Fill(advice.Recommended)
		if err != nil {
			fmt.Println(err)
			return
		}
		if c.NetML > 12_000 && c.GrossG() <= stores.LiftKg*1000 {
			fmt.Printf("%d × %s, %.1f kg full: %s\n", f.Count, c.Name, f.WeightKg, f.Renewal)
		}
	}
	// Output:
	// computed 100.6 L, recommended 100.6 L: the computed need, as the plan counts it; the published allowance is 5 L more, for washing and cooking of any kind
	// 6 × Water container 5 US gal stackable, 118.4 kg full: empty and refill every 6 months
	// 6 × Water container 20 L, 127.2 kg full: empty and refill every 6 months
}

func ExampleSituation_Cautions() {
	s := stores.Situation{
		People: []nutrients.Person{{Name: "baby", AgeMonths: 3, Sex: nutrients.Female, Feeding: nutrients.BreastFed}},
		Stoves: []string{"charcoal"},
	}
	for _, c := range s.Cautions() {
		if c.Severity == "stop" {
			fmt.Println(c.ID, c.Topic, c.People)
		}
	}
	// Output:
	// C16 carbon_monoxide []
	// C19 honey [baby]
	// C26 infant_water [baby]
}

// A shelf file, a load of cans and water, and where it all stands.
func ExampleFitShelves() {
	file, err := os.Open("../../testdata/stores/shelves.csv")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer file.Close()
	shelves, _, err := stores.ReadShelves("shelves.csv", file)
	if err != nil {
		fmt.Println(err)
		return
	}
	var loads []stores.Load
	for _, l := range []struct {
		key   string
		count int
	}{{"can_303", 60}, {"can_water_20", 6}, {"box_cereal_12", 6}} {
		c, _ := stores.ContainerByKey(l.key)
		loads = append(loads, stores.LoadOfContainer(c, l.count))
	}
	fit := stores.FitShelves(shelves, loads)
	for _, p := range fit.Places {
		fmt.Printf("%s: %d × %s\n", p.Shelf, p.Count, p.Name)
	}
	fmt.Println("left over:", len(fit.Left), "faults:", len(stores.CheckFit(shelves, loads, fit)))
	// Output:
	// cellar floor: 6 × Water container 20 L
	// cellar floor: 60 × No. 303
	// cellar floor: 6 × Cereal box 12 oz
	// left over: 0 faults: 0
}

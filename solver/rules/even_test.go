package rules

import (
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestOneOpeningIsLittleOfTheMean: of who takes a medicine that asks for an even intake,
// an opening of what does not keep holds at most two fifths (own planning rule) of the AI:
// sodium 1,500 mg (NASEM, DRI for sodium and potassium, 2019), vitamin K 90 µg for women
// from 19 (IOM, DRI for vitamin A, vitamin K …, 2001). What keeps is eaten a little every
// day, and what a stock is worth is judged by needs alone.
func TestOneOpeningIsLittleOfTheMean(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		medicine nutrients.Condition
		of       nutrients.Nutrient
		ai       float64
	}{{nutrients.Lithium, nutrients.Sodium, 1500}, {nutrients.Warfarin, nutrients.VitaminK, 90}} {
		serve := func(ignore bool) map[*foods.Food]Appetite {
			p := nutrients.Person{Name: "A", AgeMonths: 12 * 40, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 1, Conditions: []nutrients.Condition{c.medicine}}
			needs, err := nutrients.For(p, nutrients.Options{})
			if err != nil {
				t.Fatal(err)
			}
			k, err := OpenKitchen(&ration.Request{Table: table, Days: 14, People: []nutrients.Person{p}, IgnoreEatable: ignore}, true)
			if err != nil {
				t.Fatal(err)
			}
			list, _, err := k.Serve(&needs)
			if err != nil {
				t.Fatal(err)
			}
			of := map[*foods.Food]Appetite{}
			for _, a := range list {
				of[a.Food] = a
			}
			return of
		}
		even, plain := serve(false), serve(true)
		less, kept := 0, 0
		for f, a := range even {
			days := f.Keeping.OpenDays()
			if days >= 14 {
				if kept++; a.WindowG != plain[f].WindowG {
					t.Errorf("%s: %s keeps and its window is %g g, %g g without", c.medicine, f.Name, a.WindowG, plain[f].WindowG)
				}
				continue
			}
			if got := a.WindowG / 100 * f.Per100g.Known(c.of); got > 0.4*c.ai*float64(days)*(1+1e-9) {
				t.Errorf("%s: an opening of %s holds %.0f %s, at most two fifths of %g on each of %d days", c.medicine, f.Name, got, c.of.Unit(), c.ai, days)
			}
			if a.WindowG < plain[f].WindowG {
				less++
			}
		}
		if less == 0 || kept == 0 {
			t.Errorf("%s: %d foods have a smaller window, %d keep: the test shows nothing", c.medicine, less, kept)
		}
	}
}

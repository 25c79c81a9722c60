package ration

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"rationwright/nutrients/table"
)

// MainsInFortnight is how many different mains people are to have in fourteen days: own
// planning rule, no source.
const MainsInFortnight = 7

// MainsIn is how many different mains are asked for in so many days.
func MainsIn(days float64) int {
	const fortnight = 14
	return int(math.Round(MainsInFortnight * math.Min(1, days/fortnight)))
}

// Main is a sort of main dish: what fills the plate and what brings the protein, each a
// kind of food that no other of its column has a food of, and the least class of cooking
// of a dish made of both. data/mains.csv holds them, as the dishes have them.
type Main struct {
	Base, Protein, Cooking string
}

// AllMains returns the mains of data/mains.csv, parsed once. They must not be changed. An
// error means that the embedded data are broken.
var AllMains = sync.OnceValues(func() ([]Main, error) {
	const file = "data/mains.csv"
	f, err := data.Open(file)
	if err != nil {
		return nil, fmt.Errorf("ration: %w", err)
	}
	defer f.Close()
	in, err := table.Read("solver/ration/"+file, f, []table.Column{
		{Name: "base", Presence: table.Filled}, {Name: "protein", Presence: table.Filled}, {Name: "cooking", Presence: table.Filled}, {Name: "dish"}, {Name: "source"},
	})
	if in == nil {
		return nil, err
	}
	var list []Main
	for _, row := range in.Rows {
		list = append(list, Main{row.Text("base"), row.Text("protein"), row.Choice("cooking", string(CookNone), string(CookWarm), string(CookBoil), string(CookSimmer))})
	}
	return list, in.Err()
})

// Mains are those of the list that can be cooked in a class of cooking.
func Mains(cook Cook) []Main {
	all, err := AllMains()
	if err != nil {
		return nil // a test reads them
	}
	return slices.DeleteFunc(slices.Clone(all), func(m Main) bool { return CookRank[m.Cooking] > CookRank[string(cook)] })
}

// DifferentMains is how many mains can be made where there are foods of the kinds that
// has reports.
func DifferentMains(cook Cook, has func(kind string) bool) int {
	n := 0
	for _, m := range Mains(cook) {
		if has(m.Base) && has(m.Protein) {
			n++
		}
	}
	return n
}

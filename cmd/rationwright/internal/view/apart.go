package view

import (
	"strings"

	"rationwright/solver/ration"
)

// apart says which foods of the list somebody must not have, in the words of the list.
func apart(who string, in *ration.Apart, list []Aisle) string {
	names := map[string]string{}
	for _, a := range list {
		for _, f := range a.Foods {
			names[f.Food] = f.Name
		}
	}
	words := func(foods []string) string {
		var said []string
		for _, food := range foods {
			if name, ok := names[food]; ok {
				food = name
			}
			said = append(said, food)
		}
		return strings.Join(said, "; ")
	}
	text := "Not for " + who + " (" + in.Allergen + "). "
	switch {
	case len(in.MayHold) == 0:
		text += "It is in: " + words(in.Holds)
	case len(in.Holds) == 0:
		text += "It may be in: " + words(in.MayHold)
	default:
		text += "It is in: " + words(in.Holds) + ". It may be in: " + words(in.MayHold)
	}
	return text + ". Keep these apart."
}

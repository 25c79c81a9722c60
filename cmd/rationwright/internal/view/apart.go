package view

import (
	"cmp"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
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
			said = append(said, cmp.Or(names[food], food))
		}
		return strings.Join(said, "; ")
	}
	lines := sheet.Lines{"Not for " + who + " (" + in.Allergen + ")"}
	lines.If(len(in.Holds) > 0, "It is in: %s", words(in.Holds))
	lines.If(len(in.MayHold) > 0, "It may be in: %s", words(in.MayHold))
	return strings.Join(append(lines, "Keep these apart."), ". ")
}

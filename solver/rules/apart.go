package rules

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Apart says, for each allergen that a person must not have and for gluten in
// coeliac disease, what in the store of the household holds it or may hold it, and
// asks for separate utensils: a plan keeps it off the person's plate, not out of
// the kitchen.
func Apart(req *ration.Request, p *nutrients.Person, packs []ration.PlanPack) []ration.RuleNote {
	var stored []*foods.Food
	for _, line := range packs {
		if k := ration.FindPack(req, line.Pack); k != nil && !slices.Contains(stored, k.Food) {
			stored = append(stored, k.Food)
		}
	}
	var list []ration.RuleNote
	tell := func(what string, holds, may func(*foods.Food) bool) {
		in := ration.Apart{Allergen: what, Holds: named(stored, holds), MayHold: named(stored, func(f *foods.Food) bool { return may(f) && !holds(f) })}
		note := ration.RuleNote{Text: apartText(p.Name, &in), Source: "own planning rule; FDA: statements of traces are voluntary (from memory)"}
		if len(in.Holds)+len(in.MayHold) > 0 {
			note.Apart = &in
		}
		list = append(list, note)
	}
	for _, a := range p.Allergies {
		tell(ration.Spaced(a.Allergen), func(f *foods.Food) bool { return slices.Contains(f.Allergens, a.Allergen) },
			func(f *foods.Food) bool { return slices.Contains(f.MayContain, a.Allergen) })
	}
	if p.Has(nutrients.Coeliac) {
		tell("gluten", func(f *foods.Food) bool { return f.HasTag(foods.TagGluten) || slices.Contains(f.Allergens, "wheat") },
			func(f *foods.Food) bool { return slices.Contains(f.MayContain, "wheat") })
	}
	return list
}

func apartText(name string, in *ration.Apart) string {
	what, holds, may := in.Allergen, in.Holds, in.MayHold
	if len(holds)+len(may) == 0 {
		return fmt.Sprintf("No food of this store holds %s or may hold it, by the table. Read every label all the same.", what)
	}
	var parts []string
	if len(holds) > 0 {
		parts = append(parts, fmt.Sprintf("In this store, holding %s: %s.", what, strings.Join(holds, "; ")))
	}
	if len(may) > 0 {
		parts = append(parts, fmt.Sprintf("Packs that may hold %s: %s.", what, strings.Join(may, "; ")))
	}
	return strings.Join(parts, " ") + fmt.Sprintf(" Keep them apart and closed; pot, board, knife and spoon of its own for the food of %s, made first with washed hands. Read every label.", name)
}

func named(list []*foods.Food, is func(*foods.Food) bool) []string {
	var names []string
	for _, f := range list {
		if is(f) {
			names = append(names, f.Name)
		}
	}
	return names
}

package foods

import (
	"io"

	"rationwright/foods/kinds"
	"rationwright/nutrients"
)

// KindCaps returns the limits on kinds of food that bind p, see [kinds.Caps.For].
// The foods of a cap are those with its kind among their Kinds; all together
// count, each by [Food.Counts].
func (t *Table) KindCaps(p *nutrients.Person) []kinds.Cap {
	e := kinds.Eater{AgeMonths: p.AgeMonths}
	if p.Pregnant() {
		e.Is = append(e.Is, "pregnant")
	}
	if p.Lactating() {
		e.Is = append(e.Is, "lactating")
	}
	for _, c := range p.Conditions {
		e.Is = append(e.Is, string(c))
	}
	return t.caps.For(e)
}

// HouseholdCaps returns the limits on kinds of food of a household of so many
// people: pack sizes and different foods.
func (t *Table) HouseholdCaps(people int) []kinds.Cap { return t.caps.Household(people) }

// KindCapRows returns the rows behind [Table.KindCaps] and [Table.HouseholdCaps].
func (t *Table) KindCapRows() []kinds.CapRow { return t.caps.Rows }

// ReadKindCaps puts the rows of a user's file in place of the planning rules for
// the same kinds and measures, see [kinds.Caps.Edit]. On an error the table is
// unchanged.
func (t *Table) ReadKindCaps(file string, r io.Reader) (warnings []string, err error) {
	edited, warnings, err := t.caps.Edit(file, r)
	if err != nil {
		return nil, err
	}
	t.caps = edited
	return warnings, nil
}

// Counts returns what one gram of f, on its basis, counts towards a cap in unit:
// itself in grams, cup equivalents of milk or of beans, or mg of caffeine. It is 0
// for the units that are not amounts of food.
func (f *Food) Counts(unit string) float64 {
	switch unit {
	case kinds.Grams:
		return 1
	case kinds.CupEq:
		return max(f.PerGram("dairy"), f.PerGram("beans"))
	case kinds.MgCaffeine:
		return caffeine(&nutrients.Person{})(f)
	}
	return 0
}

package page

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"time"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

// ErrNoMenu says that there is no menu to print.
var ErrNoMenu = errors.New("the plan has no menu")

// Strip is one day of the menu.
type Strip struct {
	Title   string
	Cold    bool // nothing is heated
	Meals   []StripMeal
	Tonight []string // what is soaked in the evening
}

// StripMeal is one meal: what is on the table, and which packs are opened for it.
type StripMeal struct {
	Name   string
	Dishes []string
	Opens  []string
}

// AddMenu spreads p, the plan of req, over its days, with the dishes of the
// program. Where the time of ctx ends first, the report says so instead.
func (r *Report) AddMenu(ctx context.Context, p *ration.Plan, req *ration.Request) error {
	m, err := menu.Of(ctx, p, req)
	if errors.Is(err, menu.ErrTime) {
		r.NoMenu = "the menu is left out: " + err.Error() + "; with more --time it is there"
		r.Lead = append(r.Lead, sheet.Sentence(r.NoMenu))
		return nil
	}
	if err != nil {
		return err
	}
	r.addStrips(m)
	return nil
}

// addStrips adds the days of m and what is said of it.
func (r *Report) addStrips(m *menu.Menu) {
	packs := map[string]string{} // what each of the shopping list is in words, by key
	for _, a := range r.Shopping {
		for _, f := range a.Foods {
			for _, k := range f.Packs {
				packs[k.Key] = f.Name + " " + k.Size
			}
		}
	}
	for _, d := range m.Days {
		s := Strip{Title: fmt.Sprintf("Day %d", d.Day), Cold: d.Cold, Tonight: d.Tonight}
		if day, err := time.Parse(time.DateOnly, d.Date); err == nil {
			s.Title += day.Format(", Monday 2 January")
		}
		for _, meal := range d.Meals {
			line := StripMeal{Name: meal.Meal}
			for _, x := range meal.Dishes {
				line.Dishes = append(line.Dishes, x.Name+sheet.Around(" (", sheet.Names(x.For), ")"))
			}
			line.Opens = opened(meal.Opens, packs)
			s.Meals = append(s.Meals, line)
		}
		r.Strips = append(r.Strips, s)
	}
	r.MenuSays = append(r.MenuSays, m.Notice)
	for _, x := range m.Misfits {
		r.MenuSays = append(r.MenuSays, sheet.Around("", facts.Printable(x.Person), ": ")+sheet.Sentence(x.Text))
	}
	r.Kitchen = m.Cautions
}

// opened counts packs that are opened, in order of first appearance.
func opened(keys []string, words map[string]string) []string {
	var order []string
	n := map[string]int{}
	for _, key := range keys {
		if n[key]++; n[key] == 1 {
			order = append(order, key)
		}
	}
	for i, key := range order {
		order[i] = fmt.Sprintf("%d × %s", n[key], cmp.Or(words[key], facts.Printable(key)))
	}
	return order
}

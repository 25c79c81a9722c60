package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

// MenuPart says which part of a menu is shown.
type MenuPart string

// The words of menu --only.
const (
	MenuAll      MenuPart = "all"
	MenuOverview MenuPart = "overview"
	MenuDays     MenuPart = "days"
)

// Menu lays out a menu: what does not fit, one overview of all days, a section a day.
func Menu(m *menu.Menu, p *ration.Plan, part MenuPart, u sheet.Units) *sheet.Sheet {
	s := &sheet.Sheet{Alerts: headline.Plan(p).Lines()}
	if part != MenuDays {
		menuHead(s, m, u)
		s.Add(menuOverview(m, u))
	}
	if part != MenuOverview {
		names := shortFoodNames(m)
		for i := range m.Days {
			s.Add(menuDay(&m.Days[i], names, u))
		}
	}
	return s
}

func menuHead(s *sheet.Sheet, m *menu.Menu, u sheet.Units) {
	head := sheet.Section{Lead: []string{m.Notice}}
	for _, x := range m.Misfits {
		head.Notes.Say("- %s%s.", sheet.Around("", facts.Printable(x.Person), ": "), x.Text)
	}
	head.Lead = append(head.Lead, fmt.Sprintf("Into food go %s of water over these days, and %s of useful heat; drinking water comes on top.", u.Water(m.WaterL), u.Heat(m.HeatMJ)))
	s.Add(head)
	kitchen := sheet.Section{Title: "Rules of the kitchen"}
	for _, c := range m.Cautions {
		kitchen.Lead.Say("- %s", c)
	}
	s.Add(kitchen)
}

func menuOverview(m *menu.Menu, u sheet.Units) sheet.Section {
	g := sheet.NewGrid(">day", "~breakfast", "~midday", "~evening", ">water", ">heat")
	for _, d := range m.Days {
		row := []string{fmt.Sprint(d.Day), "", "", "", u.Water(d.WaterL), u.Heat(d.HeatMJ)}
		for _, meal := range d.Meals {
			if c := slices.Index([]string{"breakfast", "midday", "evening"}, meal.Meal); c >= 0 {
				row[c+1] = mainDish(meal)
			}
		}
		g.Row("", row...)
	}
	return sheet.Section{Title: "All days", Table: g}
}

// mainDish is the name of the dish of the household at a meal.
func mainDish(meal menu.Meal) string {
	switch {
	case len(meal.Dishes) == 0:
		return "what there is, by itself"
	case len(meal.Dishes[0].For) > 0 && len(meal.Dishes[0].For)*2 < len(meal.People):
		return "each a dish of their own"
	}
	return meal.Dishes[0].Name
}

// menuDay is the page of one day.
func menuDay(d *menu.Day, names map[string]string, u sheet.Units) sheet.Section {
	title := fmt.Sprintf("Day %d", d.Day)
	if date, err := time.Parse(time.DateOnly, d.Date); err == nil {
		title += date.Format(", Monday 2 January 2006")
	}
	sec := sheet.Section{Title: title, Lead: []string{fmt.Sprintf("Water into food %s, useful heat %s.", u.Water(d.WaterL), u.Heat(d.HeatMJ))}}
	if d.Cold {
		sec.Lead[0] += " A cold day: nothing is heated."
	}
	for _, meal := range d.Meals {
		sec.Notes.Say("")
		var dishes []string
		for _, x := range meal.Dishes {
			dishes = append(dishes, x.Name+sheet.Around(" (", facts.Printable(strings.Join(x.For, ", ")), ")"))
		}
		if len(dishes) == 0 {
			dishes = []string{"what there is, by itself"}
		}
		sec.Notes.Say("%s: %s.", strings.ToUpper(meal.Meal), strings.Join(dishes, "; "))
		sec.Notes.If(len(meal.Opens) > 0, "Open: %s.", packList(meal))
		for _, x := range meal.Dishes {
			sec.Notes.Say("- %s: %s (%s%s)", x.Name, x.How, sheet.Count(int(math.Round(x.Minutes)), "minute", "minutes"), dishWater(x, u))
		}
		for _, p := range meal.People {
			sec.Notes.Say("- %s: %s.", facts.Printable(p.Name), servedText(p, meal.Dishes, names, u))
		}
	}
	for _, soak := range d.Tonight {
		sec.Notes.Say("TONIGHT: %s.", soak)
	}
	return sec
}

func dishWater(x menu.Dish, u sheet.Units) string {
	if x.WaterML < 10 {
		return ""
	}
	return ", " + u.Drink(x.WaterML/1000) + " water for all who have it"
}

// packList names what is opened at a meal, and by when it is finished.
func packList(meal menu.Meal) string {
	until := map[string]string{}
	for _, k := range meal.Keeps {
		until[k.Pack] = k.Until
	}
	var list []string
	for i := 0; i < len(meal.Opens); {
		n := 1
		for i+n < len(meal.Opens) && meal.Opens[i+n] == meal.Opens[i] {
			n++
		}
		list = append(list, fmt.Sprintf("%d %s%s", n, meal.Opens[i], sheet.Around(" (finish by ", until[meal.Opens[i]], ")")))
		i += n
	}
	return strings.Join(list, ", ")
}

// servedText says what a person gets in each dish, named where there is more than one on the
// table, and beside them.
func servedText(p menu.Served, dishes []menu.Dish, names map[string]string, u sheet.Units) string {
	var order []string
	in := map[string][]string{}
	for _, a := range p.Foods {
		if in[a.Dish] == nil {
			order = append(order, a.Dish)
		}
		in[a.Dish] = append(in[a.Dish], names[a.Food]+" "+served(u, a.Grams)+sheet.Around(" (", a.Measure, ")"))
	}
	var parts []string
	for _, key := range order {
		text := strings.Join(in[key], "; ")
		if i := slices.IndexFunc(dishes, func(x menu.Dish) bool { return x.Key == key }); i >= 0 && (len(dishes) > 1 || len(order) > 1) {
			text = dishes[i].Name + ": " + text
		} else if key == "" && len(order) > 1 {
			text = "beside: " + text
		}
		if len(parts) > 0 {
			text = sheet.Capital(text)
		}
		parts = append(parts, text)
	}
	if len(p.EatenAs) > 0 {
		parts = append(parts, "Serve it so: "+strings.TrimSuffix(facts.Printable(strings.Join(p.EatenAs, "; ")), "."))
	}
	return strings.Join(parts, ". ")
}

// served writes what is on a plate, from grams, as a kitchen scale shows it.
func served(u sheet.Units, g float64) string {
	switch {
	case u == sheet.US:
		return u.Net(g)
	case g < 10:
		return sheet.Decimals(g, 1) + " g"
	}
	return sheet.Decimals(g, 0) + " g"
}

// shortFoodNames calls each food of a menu by its short name, where no other food of the menu
// is called so.
func shortFoodNames(m *menu.Menu) map[string]string {
	users := map[string][]string{}
	for _, d := range m.Days {
		for _, meal := range d.Meals {
			for _, p := range meal.People {
				for _, a := range p.Foods {
					short := shortFoodName(a.Food)
					users[short] = addOnce(users[short], a.Food)
				}
			}
		}
	}
	names := map[string]string{}
	for short, list := range users {
		for _, food := range list {
			names[food] = facts.Printable(short)
			if len(list) > 1 {
				names[food] = facts.Printable(food)
			}
		}
	}
	return names
}

// shortFoodName is the part of a food's name before the first comma, what it stands for
// where the name says that, and that it is dried: 14 g of dried egg are no egg.
func shortFoodName(name string) string {
	if _, as, ok := strings.Cut(name, "(as "); ok {
		if as, rest, ok := strings.Cut(as, ")"); ok && rest == "" {
			return as
		}
	}
	head, rest, _ := strings.Cut(name, ",")
	for part := range strings.SplitSeq(rest, ",") {
		if word := strings.TrimSpace(part); word == "dried" || word == "dry" {
			return head + ", " + word
		}
	}
	return head
}

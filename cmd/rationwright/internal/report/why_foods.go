package report

import (
	"math"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
	"rationwright/solver/why"
)

// whyFoods tells at what prices foods leave the plan in parts of packs, or come
// in: by the pack that decides, or by every pack.
func whyFoods(w *why.Why, chosen, every bool) sheet.Section {
	worth := "price"
	if w.Least != ration.LeastCost {
		worth = string(w.Least)
	}
	title, price := "What the plan would hold if packs could be split, and up to what "+worth, "drops out above"
	notes := sheet.Lines{
		"\"all its packs\": by how much the " + worth + " of all packs of the food may rise together before it goes.",
		"Packs are bought whole, so that a food of these may be in the plan more or less often, or not at all.",
	}
	if !chosen {
		title, price = "What it leaves out, and the "+worth+" at which that comes in", "comes in below"
		notes = sheet.Lines{
			"\"all its packs\": by how much the " + worth + " of all packs of the food must fall together before it comes in.",
			"Packs are bought whole, so that some of these are in the plan all the same.",
		}
	}
	g := sheet.NewGrid("~food", "^packs in plan", "=pack",
		"^if packs split", ">"+strings.TrimSuffix("now, "+facts.Printable(w.Unit), ", "), "^"+price, "^all its packs")
	for _, f := range w.Foods {
		if f.Chosen != chosen {
			continue
		}
		shown := f.Packs
		if k := decisive(&f); !every && k >= 0 {
			shown = f.Packs[k : k+1]
		}
		name, inPlan, all := f.Food, strconv.Itoa(f.InPlan), change(&f)
		for _, p := range shown {
			parts := "none"
			if p.Chosen > 0 {
				parts = sheet.Amount(p.Chosen)
			}
			g.Row("", name, inPlan, p.Pack, parts, worthOf(w, p.Price), turns(w, &p, chosen), all)
			name, inPlan, all = "", "", "" // a food with several packs is named once
		}
	}
	notes.If(!every, "Each food is shown by the pack that decides; --food, csv or json show every pack.")
	return sheet.Section{Title: title, Table: g, Notes: notes}
}

// turns is the price at which a pack goes, or comes in.
func turns(w *why.Why, p *why.PackPrice, chosen bool) string {
	switch {
	case p.Leaves != nil:
		return worthOf(w, *p.Leaves)
	case p.Chosen > 0:
		return "at no price"
	case p.Enters != nil && *p.Enters > 0 && !chosen:
		return worthOf(w, *p.Enters)
	case p.Enters != nil && *p.Enters > 0:
		return "in below " + worthOf(w, *p.Enters)
	case chosen:
		return "in at no price"
	default:
		return "at no price"
	}
}

// worthOf writes the price of a pack to the cent, its weight or space to the gram or
// the millilitre; what is smaller to two digits, since little is not nothing.
func worthOf(w *why.Why, v float64) string {
	switch {
	case v > 0 && v < 0.1:
		return marginal(v)
	case w.Least == ration.LeastCost:
		return sheet.Money(v)
	default:
		return sheet.Decimals(v, 3)
	}
}

// decisive is the pack that is chosen, or of those that are not the one nearest
// to it; -1 where there is none.
func decisive(f *why.FoodPrice) int {
	best, near := -1, 0.0
	for k, p := range f.Packs {
		switch {
		case p.Chosen > 0:
			return k
		case p.Enters != nil && p.Price > 0 && *p.Enters/p.Price > near:
			best, near = k, *p.Enters/p.Price
		}
	}
	return best
}

// change writes by how much all prices of a food must change for it to come in or
// go.
func change(f *why.FoodPrice) string {
	if f.Factor == nil {
		return "at no price"
	}
	v, places := 100*(*f.Factor-1), 0
	if math.Abs(v) < 1 {
		places = 1
	}
	return sheet.Signed(sheet.Decimals(v, places), v) + " %"
}

package view

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/solver/ration"
)

// SetAside is the aisle of what is bought and never eaten as ration.
const SetAside = "set aside, not part of the ration: fast sugar for low blood sugar"

// aisles gathers the packs of p by shop group and food, both in order of first
// appearance, what is set aside last.
func aisles(p *ration.Plan) []Aisle {
	var open, aside []Aisle
	for _, k := range p.Packs {
		to, name := &open, k.Group
		switch {
		case k.Reserve:
			to, name = &aside, SetAside
		case name == "":
			name = "other"
		}
		a := slices.IndexFunc(*to, func(a Aisle) bool { return a.Name == name })
		if a < 0 {
			*to, a = append(*to, Aisle{Name: name}), len(*to)
		}
		foods := &(*to)[a].Foods
		f := slices.IndexFunc(*foods, func(f Food) bool { return f.Food == k.Food })
		if f < 0 {
			*foods, f = append(*foods, Food{Food: k.Food, Name: everyday(k.Food, name), Reserve: k.Reserve}), len(*foods)
		}
		(*foods)[f].Packs = append((*foods)[f].Packs, Packs{Key: k.Pack, Size: size(k.Pack), Buy: k.Count - k.FromStock, Own: k.FromStock, NetG: k.NetG,
			Cost: k.Cost, Kg: k.WeightKg, Hands: p.WeakHands && !k.EasyOpen})
	}
	return append(open, aside...)
}

// packKey finds size and container at the end of a pack's key.
var packKey = regexp.MustCompile(`-([0-9]+(?:\.[0-9]+)?)(g|kg|ml|l)-([a-z]+)$`)

// size is what the key of a pack says of it, as a shop does: "907 g bag",
// "1 L carton".
func size(key string) string {
	m := packKey.FindStringSubmatch(key)
	if m == nil {
		return ""
	}
	number, unit := m[1], map[string]string{"g": "g", "kg": "kg", "ml": "mL", "l": "L"}[m[2]]
	if v, err := strconv.ParseFloat(number, 64); err == nil && v >= 1000 && (unit == "g" || unit == "mL") {
		number, unit = strconv.FormatFloat(v/1000, 'f', -1, 64), map[string]string{"g": "kg", "mL": "L"}[unit]
	}
	return number + " " + unit + " " + m[3]
}

// everyday is the name of a food as people say it in an aisle: without what is
// done to it only after it is bought, and without the word that the aisle says
// already. What makes the food another one to buy, as added vitamins, stays.
func everyday(food, aisle string) string {
	parts := strings.Split(facts.Printable(food), ", ")
	kept := slices.Clone(parts[:1])
	for _, part := range parts[1:] {
		said := part == "drained" || (part == "canned" || part == "dried" || part == "dry") && strings.Contains(aisle, part)
		if !said {
			kept = append(kept, part)
		}
	}
	if len(kept) == 2 && len(strings.Fields(kept[1])) == 1 && len(strings.Fields(kept[0])) == 1 { // "sugar, brown"
		return kept[1] + " " + kept[0]
	}
	return strings.Join(kept, ", ")
}

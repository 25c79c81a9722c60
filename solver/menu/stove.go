package menu

import "rationwright/foods/dishes"

// stoveMin is how many minutes at one stove all that is heated for a meal takes at most,
// one pot after the other. Own planning rule, no source.
const stoveMin = 90

// stove is the minutes at the stove for all that is on the table at t.
func (l layout) stove(t int) float64 {
	minutes := 0.0
	for _, d := range l.heated(t) {
		minutes += d.Minutes
	}
	return minutes
}

// heated lists what is heated for t, each once.
func (l layout) heated(t int) []*dishes.Dish {
	var list []*dishes.Dish
	seen := map[*dishes.Dish]bool{}
	add := func(c *choice) {
		if c != nil && c.dish.Cooking != "none" && !seen[c.dish] {
			seen[c.dish] = true
			list = append(list, c.dish)
		}
	}
	add(l[t].main)
	for _, c := range l[t].drinks {
		add(c)
	}
	for _, c := range l[t].instead {
		add(c)
	}
	for _, o := range l[t].own {
		add(o.choice)
	}
	return list
}

// hasTimeFor reports whether d can be made for t beside what is made there.
func (l layout) hasTimeFor(t int, d *dishes.Dish) bool {
	if d.Cooking == "none" {
		return true
	}
	for _, other := range l.heated(t) {
		if other == d {
			return true
		}
	}
	return l.stove(t)+d.Minutes <= stoveMin
}

package dishes

import (
	"strings"

	"rationwright/foods"
)

// cookRank orders the classes of cooking.
var cookRank = map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}

// classCounts in the note of a part says that what the dish does to it counts: starch
// in a sauce is boiled, though by itself it is simmered for long.
const classCounts = "class of the dish counts"

// Cooks reports whether the cooking of d, of which p is a part, makes f ready.
func (p *Part) Cooks(d *Dish, f *foods.Food) bool {
	return f.Preparation == nil || f.Preparation.ColdOK || cookRank[f.Preparation.Class] <= cookRank[d.Cooking] || strings.Contains(p.Note, classCounts)
}

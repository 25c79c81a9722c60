package nutrients

import "fmt"

const (
	// fibrePer1000 is what the AI of total fibre is derived from, in g per 1,000 kcal
	// (IOM DRI: Energy, Carbohydrate, Fiber, ... (2002/2005); the remark in data/dri.csv).
	fibrePer1000 = 14
	// fibreByEnergyBelow is the age in months under which the AI is held to a person's own
	// energy: a small child cannot eat by volume what a larger one does. Own planning rule.
	fibreByEnergyBelow = 48
)

// fibreOfEnergy is the floor of fibre in g of a person with this requirement of energy
// in kcal. The AI of one to three years, 19 g, is that of an intake of some 1,360 kcal;
// at 800 kcal it asks for two pounds of vegetables, or for bran.
func fibreOfEnergy(ai Limit, p *Person, eer float64) Limit {
	own := fibrePer1000 * eer / 1000
	if p.AgeMonths >= fibreByEnergyBelow || own >= ai.Amount {
		return ai
	}
	ai.Note = fmt.Sprintf("%d g per 1,000 kcal, which the AI of %g g is derived from", fibrePer1000, ai.Amount)
	ai.Amount = own
	return ai
}

package answer

import (
	"fmt"
	"math"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// withoutSupplements says what the ration would take more if food had to give what
// the supplements do. The relaxation's value is convex in a floor, so that its
// shadow price times the dose is the least of it: a need that a dose covers whole
// has no row any more and is not counted.
func withoutSupplements(m *model.Model, result search.Result) []string {
	if len(result.RootDual) != len(m.Rows) {
		return nil
	}
	more := 0.0
	for i, info := range m.Rows {
		if info.Kind != model.RowNutrient || result.RootDual[i] <= 0 {
			continue
		}
		for _, s := range m.Eaters[info.Eater].Needs.Supplements {
			for _, dose := range s.Doses {
				if dose.Column == info.Nutrient {
					more += result.RootDual[i] * dose.Amount * m.Days()
				}
			}
		}
	}
	switch {
	case more <= ration.SmallestStep(m.Request.Least):
		return nil
	case more > math.Abs(result.Value):
		return []string{"The supplements listed are counted; without them the ration would be more than twice as large, or fall short."}
	}
	return []string{fmt.Sprintf("The supplements listed are counted; without them the ration would take at least about %.2f %s more, or fall short.", more, m.Unit())}
}

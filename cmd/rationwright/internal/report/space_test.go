package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// To list the floor is advised only where it is not listed.
func TestFloorIsAdvisedOnlyWhereItIsMissing(t *testing.T) {
	for lowest, want := range map[string]bool{"board": true, "floor": false, "Cellar floor": false} {
		fit := &ration.ShelfFit{Fit: stores.Fit{
			Use:  []stores.ShelfUse{{Shelf: lowest}, {Shelf: "high"}},
			Left: []stores.LeftOver{{Pack: "can_water_20", Name: "Water container 20 L", Count: 2, Reason: "no room"}},
		}}
		got := text(t, &sheet.Sheet{Sections: ShelfFit(fit, sheet.Metric)})
		if !strings.Contains(got, "WHAT FOUND NO PLACE") {
			t.Fatalf("nothing is left in\n%s", got)
		}
		if strings.Contains(got, "list it as the first shelf") != want {
			t.Errorf("lowest shelf %q: advised %v, want %v", lowest, !want, want)
		}
	}
}

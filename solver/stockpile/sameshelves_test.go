package stockpile

import (
	"testing"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// TestSameShelves: an arrangement is that of the plan where its shelves are these, all of
// them, in this order.
func TestSameShelves(t *testing.T) {
	a, b := stores.Shelf{Name: "a", WidthCm: 100}, stores.Shelf{Name: "b", WidthCm: 80}
	wider := a
	wider.WidthCm = 101
	for _, c := range []struct {
		name        string
		these, plan []stores.Shelf
		want        bool
	}{
		{"alike", []stores.Shelf{a, b}, []stores.Shelf{a, b}, true}, {"another order", []stores.Shelf{a, b}, []stores.Shelf{b, a}, false},
		{"one fewer", []stores.Shelf{a}, []stores.Shelf{a, b}, false}, {"one more", []stores.Shelf{a, b}, []stores.Shelf{a}, false},
		{"one wider", []stores.Shelf{a, b}, []stores.Shelf{wider, b}, false}, {"the second is another", []stores.Shelf{a, b}, []stores.Shelf{a, wider}, false},
	} {
		if got := sameShelves(c.these, &ration.Plan{Request: &ration.RequestRecord{Shelves: c.plan}}); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if sameShelves([]stores.Shelf{a}, &ration.Plan{}) {
		t.Error("a plan without a request was made for the shelves")
	}
}

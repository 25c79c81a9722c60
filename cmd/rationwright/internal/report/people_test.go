package report

import (
	"slices"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// TestWhereAnAmountStands: at a limit, short of it or over it, to a ten-thousandth; as a part
// of what is needed, rounded down.
func TestWhereAnAmountStands(t *testing.T) {
	for _, c := range []struct {
		n          ration.PersonNeed
		short      bool
		mark, of   string
		least, top string
	}{
		{ration.PersonNeed{Amount: 99.98, Floor: ptr(100)}, false, "SHORT", "99", "100", ""},
		{ration.PersonNeed{Amount: 99.995, Floor: ptr(100)}, false, "at the floor", "99", "100", ""},
		{ration.PersonNeed{Amount: 100.005, Floor: ptr(100)}, false, "at the floor", "100", "100", ""},
		{ration.PersonNeed{Amount: 100 * (1 + touching), Floor: ptr(100)}, false, "at the floor", "100", "100", ""},
		{ration.PersonNeed{Amount: 100.02, Floor: ptr(100)}, false, "", "100", "100", ""},
		{ration.PersonNeed{Amount: 130, Floor: ptr(100), Ceiling: ptr(150), Unknown: true}, false, "some foods unknown", "130", "100", "150"},
		{ration.PersonNeed{Amount: 150.02, Floor: ptr(100), Ceiling: ptr(150)}, false, "OVER", "150", "100", "150"},
		{ration.PersonNeed{Amount: 150.01, Ceiling: ptr(150)}, false, "at the ceiling", "", "", "150"},
		{ration.PersonNeed{Amount: 149.99, Ceiling: ptr(150)}, false, "at the ceiling", "", "", "150"},
		{ration.PersonNeed{Amount: 149.9, Ceiling: ptr(150)}, false, "", "", "", "150"},
		{ration.PersonNeed{Amount: 0, Ceiling: ptr(0)}, false, "", "", "", "0"},
		{ration.PersonNeed{Amount: 3, Target: ptr(4)}, false, "for information", "75", "(4)", ""},
		{ration.PersonNeed{Amount: 3, Target: ptr(4)}, true, "SHORT, for information", "75", "(4)", ""},
		{ration.PersonNeed{Amount: 3, Floor: ptr(0), Target: ptr(0)}, false, "", "", "0", ""},
	} {
		got := []string{mark(&c.n, c.short), ofNeed(&c.n), atLeast(&c.n), optional(c.n.Ceiling)}
		if want := []string{c.mark, c.of, c.least, c.top}; !slices.Equal(got, want) {
			t.Errorf("%+v: %q, want %q", c.n, got, want)
		}
	}
	for heads, want := range map[int]string{1: "What Maja gets a day", 2: "What each of the 2 people of row Maja gets a day"} {
		if got := Person(&ration.PlanPerson{Name: "Maja", Count: heads}, &ration.Plan{}, sheet.Metric); got.Title != want || len(got.Notes) != 0 {
			t.Errorf("%q, %q, want %q", got.Title, got.Notes, want)
		}
	}
}

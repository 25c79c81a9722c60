package report

import (
	"fmt"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// TestWhoEatsWhat: six people stand abreast, foods in the order of the list, then of first
// appearance; the refused eat nothing; what nobody of a table eats is not in it.
func TestWhoEatsWhat(t *testing.T) {
	v := &view.Plan{Shopping: []view.Aisle{{Foods: []view.Food{{Food: "salt"}, {Food: "rice"}, {Food: "spice"}}}}, People: []view.Person{{Name: "Arne", Refused: &ration.Refused{}}}}
	for i := range 7 {
		v.People = append(v.People, view.Person{Name: fmt.Sprint("P", i), Eats: []view.Portion{{Food: "own", Grams: 1.25}, {Food: "rice", Grams: float64(10 * i)}}})
	}
	v.People[1].Eats = append(v.People[1].Eats, view.Portion{Food: "salt", Grams: 3})
	got := Eats(v, sheet.Metric)
	if len(got) != 2 || headings(got[0].Table) != "food|P0|P1|P2|P3|P4|P5" || headings(got[1].Table) != "food|P6" || len(got[0].Notes) != 0 || len(got[1].Notes) != 1 {
		t.Fatalf("%+v", got)
	}
	lines(t, "six abreast", barred(got[0].Table), "salt|3.0|||||", "rice|0.0|10.0|20.0|30.0|40.0|50.0", "own|1.2|1.2|1.2|1.2|1.2|1.2")
	lines(t, "the seventh", barred(got[1].Table), "rice|60.0", "own|1.2")
	v.People = v.People[:2]
	if got := Eats(v, sheet.Metric); len(got) != 1 || len(got[0].Notes) != 1 {
		t.Errorf("%+v", got)
	}
	if got := Eats(&view.Plan{}, sheet.Metric); len(got) != 0 {
		t.Errorf("nobody eats: %+v", got)
	}
}

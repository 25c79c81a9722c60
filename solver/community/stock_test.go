package community

import (
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestEveryPackOfTheStockIsCommon: each column that takes packs of a line of the common
// stock, to eat or to set aside for a low of blood sugar, is charged to that line, the first
// too; no other column is. A price of a line is paid for its packs alone.
func TestEveryPackOfTheStockIsCommon(t *testing.T) {
	person := rationtest.Adult("Ola", 40, nutrients.Male)
	person.Conditions = []nutrients.Condition{nutrients.Diabetes1}
	req := rationtest.Request(t, person, rationtest.Adult("Aud", 40, nutrients.Female))
	req.Stock = rationtest.StockOf(t, req.Table, "sugar-454g-bag,3,2028-01-01,,,", "white-rice-907g-bag,3,2028-01-01,,,").Lines
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	p := newProgram(m)
	priced, free := p.costs(price{packs: []float64{100, 1000}}), p.costs(price{packs: []float64{0, 0}})
	ofLine, seen := regexp.MustCompile(`^(reserve-)?stock\[(\d+):`), map[string]int{}
	for j, c := range p.problem.Cols {
		want := 0.0
		if at := ofLine.FindStringSubmatch(c.Name); at != nil {
			n, _ := strconv.Atoi(at[2])
			want = []float64{100, 1000}[n-1]
			seen[at[0]]++
		}
		if got := priced[j] - free[j]; got != want {
			t.Errorf("%s costs %g more at 100 for a pack of the first line and 1000 for one of the second, want %g", c.Name, got, want)
		}
	}
	if fmt.Sprint(seen) != "map[reserve-stock[1::1 stock[1::1 stock[2::1]" {
		t.Errorf("columns of the stock: %v; the test needs both lines, and the first set aside as well", seen)
	}
}

// TestPartOfAPackIsNotShared: half a pack beside whole ones changes nothing of a share, not
// its bounds either.
func TestPartOfAPackIsNotShared(t *testing.T) {
	shared := func(count float64) *Share {
		budget := 20.0
		req := &Request{Households: small(t, 1, "white-rice-907g-bag,2,2028-01-01,,,", "canned-kidney-beans-439g-can,2,2028-01-01,,,"), Budget: &budget, byParts: true}
		for _, h := range req.Households {
			h.Time, h.Work = 0, 300
			h.Stock[0].Count = count
		}
		s, err := Make(t.Context(), req)
		if err != nil {
			t.Fatal(err)
		}
		s.Plans = nil // what was asked for stands in them
		return s
	}
	whole, part := shared(2), shared(2.5)
	if !reflect.DeepEqual(whole, part) {
		t.Errorf("of 2 packs %+v, of 2.5 %+v", whole, part)
	}
	if whole.Level >= 1 || whole.Left[0] != 0 {
		t.Errorf("level %g, %d left: the stock is not scarce, so that the test shows nothing", whole.Level, whole.Left[0])
	}
}

package branch

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
)

// The columns in use are the packs of the foods that a point buys and what people
// eat of them, as their names tell.
func TestColumnsInUse(t *testing.T) {
	const people, foods = 3, 30
	p := rationLike(2, people, foods, 8)
	s := &space{program: newProgram(p)}
	r, err := newRelaxation(s, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	h := newLNS(s, s.newGuide(r.solve(context.Background(), math.Inf(1), 0)), 1)
	x := make([]float64, s.n)
	if got := h.columnsInUse(x); got != 0 {
		t.Errorf("%d columns are in use where nothing is bought, want 0", got)
	}
	want := 0
	for _, f := range []int{3, 17, 29} {
		want += people
		bought := false
		for j, c := range p.Cols {
			if !strings.HasPrefix(c.Name, fmt.Sprintf("buy[%d,", f)) {
				continue
			}
			want++
			if !bought {
				x[j], bought = 1, true
			}
		}
		if !bought {
			t.Fatalf("food %d has no pack", f)
		}
	}
	if got := h.columnsInUse(x); got != want {
		t.Errorf("%d columns are in use, want %d: three foods for %d people and their packs", got, want, people)
	}
}

package branch

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

// The groups in use are those of the foods that a point buys: one each, with its packs
// and what people eat of it, as their names tell.
func TestGroupsInUse(t *testing.T) {
	p := rationLike(2, 3, 30, 8)
	s := &space{program: newProgram(p)}
	r, err := newRelaxation(s, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	h := newLNS(s, s.newGuide(r.solve(context.Background(), math.Inf(1), 0)), 1)
	x := make([]float64, s.n)
	if slices.Contains(h.inUse(x), true) {
		t.Error("groups are in use where nothing is bought")
	}
	want := make([]bool, h.groups)
	for _, f := range []int{3, 17, 29} {
		bought := false
		for j, c := range p.Cols {
			if !strings.HasPrefix(c.Name, fmt.Sprintf("buy[%d,", f)) {
				continue
			}
			if want[h.group[j]] = true; !bought {
				x[j], bought = 1, true
			}
		}
		if !bought {
			t.Fatalf("food %d has no pack", f)
		}
	}
	if got := h.inUse(x); !slices.Equal(got, want) {
		t.Errorf("in use %v, want %v", got, want)
	}
	count := 0
	for _, used := range h.inUse(x) {
		if used {
			count++
		}
	}
	if count != 3 {
		t.Errorf("%d groups are in use, want those of three foods", count)
	}
}

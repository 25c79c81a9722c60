package conflict

import (
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestRowsLeftOutOneByOne: of all needs beside a budget that is too small those stay without
// which there is no conflict, and no others; the same as where each is tried by itself.
func TestRowsLeftOutOneByOne(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	budget := 9.0
	req.Limits.Budget, req.IgnoreEatable = &budget, true
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	f := newFinder(m)
	all := f.everything()
	var rows []conflictLimit
	for _, l := range all {
		if l.row >= 0 && m.Rows[l.row].Class == model.Requirement {
			rows = append(rows, l)
		}
	}
	if f.verdict(t.Context(), all) != stillConflicts || len(rows) < 4 {
		t.Fatalf("%d needs: nothing conflicts", len(rows))
	}
	set, singles := conflictSet{limits: slices.Clone(all), proven: true}, conflictSet{limits: slices.Clone(all), proven: true}
	f.filterRows(t.Context(), &set, rows)
	f.filter(t.Context(), &singles, singly(rows))
	if f.verdict(t.Context(), set.limits) != stillConflicts {
		t.Errorf("what is left, %v, does not conflict", f.inWords(set))
	}
	kept := 0
	for _, l := range rows {
		if !slices.Contains(set.limits, l) {
			continue
		}
		kept++
		if rest := slices.DeleteFunc(slices.Clone(set.limits), func(o conflictLimit) bool { return o == l }); f.verdict(t.Context(), rest) == stillConflicts {
			t.Errorf("without %s it conflicts as well", m.Problem.Rows[l.row].Name)
		}
	}
	if kept == 0 || kept == len(rows) || len(set.limits) != len(singles.limits) {
		t.Errorf("%d of %d needs are kept, %d limits in all, one by one %d", kept, len(rows), len(set.limits), len(singles.limits))
	}
}

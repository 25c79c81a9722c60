package foods

import (
	"slices"
	"testing"
)

// load returns the embedded table for a test to change.
func load(t testing.TB) *Table {
	t.Helper()
	table, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestLoadOrder(t *testing.T) {
	tab := load(t)
	tab.Sell(SizesAll)
	if !slices.IsSortedFunc(tab.Foods, func(a, b *Food) int { return compare(a.NDB, b.NDB) }) {
		t.Error("foods are not in order of NDB number")
	}
	if !slices.IsSortedFunc(tab.Packs, func(a, b *Pack) int { return compare(a.Key, b.Key) }) {
		t.Error("packs are not in order of key")
	}
	for _, p := range tab.Packs {
		if !slices.Contains(p.Food.Packs, p) || !slices.Contains(tab.Foods, p.Food) {
			t.Errorf("pack %s is not among the packs of a food of the table", p.Key)
		}
	}
	for _, f := range tab.Foods {
		if f.Keeping == nil || f.Preparation == nil {
			t.Errorf("%s (%s) has no keeping or no preparation for form %s", f.Name, f.NDB, f.Form)
		}
	}
}

func compare(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

func TestLoadGivesCopies(t *testing.T) {
	a, b := load(t), load(t)
	a.Foods[0].Name = "changed"
	a.Packs[0].Price = -1
	a.Foods = a.Foods[1:]
	if b.Foods[0].Name == "changed" || b.Packs[0].Price < 0 {
		t.Error("a change to one loaded table shows in another")
	}
	for _, p := range b.Packs {
		if !slices.Contains(b.Foods, p.Food) {
			t.Fatalf("pack %s points into another table", p.Key)
		}
	}
}

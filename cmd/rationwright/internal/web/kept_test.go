package web

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"rationwright/solver/ration"
)

// TestLimit: a limit is a number above nothing, with a comma or a point; an empty one is
// none.
func TestLimit(t *testing.T) {
	for text, want := range map[string]float64{"150": 150, " 99.50 ": 99.5, "99,5": 99.5, "0.01": 0.01, "999999999": 999999999} {
		if got, err := limit(text, "budget"); err != nil || got == nil || *got != want {
			t.Errorf("%q: %v, %v, want %g", text, got, err, want)
		}
	}
	for _, text := range []string{"0", "0.0", "-0", "-1", "1e9", "NaN", "inf", "x", "1 000"} {
		if got, err := limit(text, "budget"); err == nil {
			t.Errorf("%q is taken as %v", text, got)
		}
	}
	if got, err := limit("  ", "budget"); got != nil || err != nil {
		t.Errorf("nothing: %v, %v", got, err)
	}
}

// TestUndoHoldsTwenty: plans that the user changed can be taken back, the last twenty of
// them; one that a search bettered by itself is not one of them.
func TestUndoHoldsTwenty(t *testing.T) {
	s := &Server{}
	for k := range 25 {
		s.replace(&made{plan: &ration.Plan{Days: k}}, true)
		s.replace(&made{plan: &ration.Plan{Days: 100 + k}}, false)
	}
	if len(s.before) != 20 {
		t.Fatalf("%d plans can be taken back, want 20", len(s.before))
	}
	for k, m := range s.before { // what stood before the sixth change is the first that is left
		if want := 100 + 4 + k; m.plan.Days != want {
			t.Errorf("place %d holds plan %d, want %d", k, m.plan.Days, want)
		}
	}
	if s.made.plan.Days != 124 || s.version != 50 {
		t.Errorf("plan %d, version %d", s.made.plan.Days, s.version)
	}
}

// TestKeptForTheOwner: what is kept of people's health is read by who owns the folder
// alone, is replaced whole, and leaves nothing beside it.
func TestKeptForTheOwner(t *testing.T) {
	dir := t.TempDir()
	f, err := openFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	for k := range 3 {
		text := fmt.Sprintf("entered for the %d. time", k)
		if err := f.write(enteredFile, []byte(text)); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(filepath.Join(dir, enteredFile))
		if err != nil {
			t.Fatal(err)
		}
		if mode := info.Mode().Perm(); mode != 0o600 {
			t.Errorf("the file may be read and written by %v, want its owner alone", mode)
		}
		if got, err := f.read(enteredFile); err != nil || string(got) != text {
			t.Errorf("read back %q, %v", got, err)
		}
	}
	if list, err := os.ReadDir(dir); err != nil || len(list) != 1 {
		t.Errorf("the folder holds %v, %v, want one file", list, err)
	}
}

// TestWishesForWhoIsThere: more water is wished for people of the household; with nobody
// entered yet names are not looked at.
func TestWishesForWhoIsThere(t *testing.T) {
	for _, c := range []struct {
		people []string
		ill    string
		fails  bool
	}{{nil, "Maja", false}, {[]string{"Maja"}, "Maja", false}, {[]string{"Maja"}, "Ola", true}, {[]string{"Maja", "Ola"}, "Ola", false}} {
		s := newServer(t, Options{})
		s.entered.Household = [][]string{{"name", "age_years", "sex"}}
		for _, name := range c.people {
			s.entered.Household = append(s.entered.Household, []string{name, "38", "f"})
		}
		err := changes{s}.setWishes(wishes{start: "2026-01-05", ill: []string{c.ill}}, nil)
		if (err != nil) != c.fails || (err == nil) != (len(s.entered.Ill) == 1) {
			t.Errorf("%s is ill among %v: %v, kept %v", c.ill, c.people, err, s.entered.Ill)
		}
	}
}

// TestPricesOfRows: a row with a pack and a price is a price in the currency of the form;
// one without either is none, and without any the prices are the invented ones again.
func TestPricesOfRows(t *testing.T) {
	x := serve(t, Options{})
	packs := x.table.Packs
	form := func() url.Values {
		return url.Values{"rows": {"3"}, "currency": {" EUR "}, "c0.pack": {packs[0].Key}, "c0.price": {"2.5"}, "c1.pack": {packs[1].Key}, "c1.price": {""}, "c2.pack": {""}, "c2.price": {""}}
	}
	x.post(t, "/prices", form())
	if rows := x.entered.Prices; len(rows) != 2 || !slices.Contains(rows[1], packs[0].Key) || !slices.Contains(rows[1], "2.5") || !slices.Contains(rows[1], "EUR") {
		t.Errorf("%q, want one price", rows)
	}
	x.post(t, "/prices", url.Values{"rows": {"1"}, "c0.pack": {packs[0].Key}, "c0.price": {""}})
	if x.entered.Prices != nil {
		t.Errorf("%q, want no price", x.entered.Prices)
	}
}

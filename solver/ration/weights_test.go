package ration

import (
	"strings"
	"testing"
)

// TestWeightsByKind: a kind has the weight of its own row, or else that of the row for all;
// a part is never weighed by another's row.
func TestWeightsByKind(t *testing.T) {
	w := Weights{{AimSize, nil, 1}, {AimVariety, []string{"beans", "fish"}, 4}, {AimTreat, []string{"sweets"}, 9}, {AimVariety, nil, 2}, {AimOften, []string{"rice"}, 7}}
	for _, c := range []struct {
		part AimPart
		kind string
		want float64
	}{
		{AimVariety, "beans", 4}, {AimVariety, "fish", 4}, {AimVariety, "sweets", 2}, {AimVariety, "rice", 2}, {AimVariety, "", 2},
		{AimTreat, "sweets", 9}, {AimTreat, "beans", 0}, {AimOften, "rice", 7}, {AimOften, "fish", 0}, {AimSize, "beans", 1}, {AimBare, "beans", 0},
	} {
		if got := w.OfKind(c.part, c.kind); got != c.want {
			t.Errorf("%s of %q is %g, want %g", c.part, c.kind, got, c.want)
		}
	}
	if w.Of(AimVariety) != 2 || w.Of(AimTreat) != 0 || w.Of(AimSize) != 1 || w.Of(AimPrice) != 0 {
		t.Errorf("for all: variety %g, treat %g, size %g, price %g", w.Of(AimVariety), w.Of(AimTreat), w.Of(AimSize), w.Of(AimPrice))
	}
}

// TestOwnWeights: rows of a user's file stand in place of all built-in ones of the same aim,
// and the others stay; a weight is 0 to 1000.
func TestOwnWeights(t *testing.T) {
	built, err := DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	own, _, err := ReadWeights("w.csv", strings.NewReader("aim,weight,kind\nvariety,0,\ncrumb,1000,\n"))
	if err != nil {
		t.Fatal(err)
	}
	if built.OfKind(AimVariety, "side vegetables") == 0 || own.OfKind(AimVariety, "side vegetables") != 0 || own.Of(AimCrumb) != 1000 || own.Of(AimSize) != built.Of(AimSize) || built.Of(AimSize) == 0 {
		t.Errorf("built-in %v, with a file %v", built, own)
	}
	for _, row := range []string{"crumb,1001,", "crumb,-1,", "crumb,1,beans", "treat,1,", "treat,1,nosuchkind", "nosuchaim,1,"} {
		if w, _, err := ReadWeights("w.csv", strings.NewReader("aim,weight,kind\n"+row+"\n")); err == nil {
			t.Errorf("%s was taken as %v", row, w)
		}
	}
}

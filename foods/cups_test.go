package foods

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// usdaMeasures are the rows of the USDA SR26 weight table (testdata/usda) by
// NDB number.
func usdaMeasures(t *testing.T) map[string][]map[string]string {
	t.Helper()
	all := map[string][]map[string]string{}
	for _, row := range readCSV(t, "../testdata/usda/measures.csv") {
		all[row["ndb"]] = append(all[row["ndb"]], row)
	}
	return all
}

// Every weight a cup is the one of the USDA weight table, and every pack that
// the table sells has the room that its food takes at that weight: 1 cup is
// 236.588 mL, 16 tbsp, 48 tsp, 8 fl oz.
func TestPacksHaveTheRoomOfTheUSDACup(t *testing.T) {
	measures := usdaMeasures(t)
	perML := map[string]float64{} // loose, g/mL
	for _, row := range readCSV(t, "data/cups.csv") {
		if row["container"] != "" {
			continue
		}
		found := false
		for _, m := range measures[row["of_ndb"]] {
			found = found || m["amount"] == row["amount"] && m["measure"] == row["measure"] && m["grams"] == row["grams"]
		}
		if !found {
			t.Errorf("%s: the weight table has no %s %s = %s g of NDB %s", row["ndb"], row["amount"], row["measure"], row["grams"], row["of_ndb"])
		}
		ml := 0.0
		switch strings.FieldsFunc(row["measure"], func(r rune) bool { return r == ' ' || r == ',' })[0] {
		case "cup":
			ml = 236.588
		case "tbsp":
			ml = 236.588 / 16
		case "tsp":
			ml = 236.588 / 48
		case "fl":
			ml = 236.588 / 8
		}
		perML[row["ndb"]] = number(t, row["grams"]) / number(t, row["amount"]) / ml
	}
	worked := map[string]bool{} // the litres of its pack are net over the weight a cup
	for _, row := range readCSV(t, "data/packs.csv") {
		worked[row["pack"]] = strings.HasSuffix(row["note"], "litres: net over its weight a cup, cups.csv")
	}
	checked := 0
	for _, p := range load(t).Packs {
		d, ok := perML[p.Food.NDB]
		if !ok || p.Container == "box_spaghetti_1" && strings.Contains(p.Food.Name, "spaghetti") || p.Container == "box_spaghetti_1" && p.Food.NDB == "20120" {
			continue // long pasta lies side by side: packages.csv has the box
		}
		checked++
		need := p.LabelG / d / 1000
		if p.VolumeL < need-0.0005 || worked[p.Key] && p.VolumeL > 1.003*need+0.001 { // up to a whole mL
			t.Errorf("%s: %.0f g in %.3f L, the USDA weight a cup asks for %.3f L", p.Key, p.LabelG, p.VolumeL, need)
		}
	}
	if checked < 200 {
		t.Errorf("only %d packs were checked", checked)
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Worked by hand from the USDA weight table: puffed wheat, 12 g a cup of
// 236.588 mL, 170 g take 3.352 L; egg noodles 38 g a cup, 454 g take 2.827 L.
// Verify accepts that room and refuses 1 % less.
func TestVerifyRoomOfLightFood(t *testing.T) {
	for _, test := range []struct {
		pack    string
		gPerCup float64
	}{
		{"puffed-wheat-170g-bag", 12}, {"egg-noodles-454g-bag", 38}, {"wheat-bran-227g-bag", 58},
		{"soy-meat-extender-283g-bag", 88}, {"textured-soy-protein-500g-bag", 105},
		{"marshmallows-283g-bag", 50}, {"dried-apples-454g-bag", 86},
	} {
		for _, share := range []float64{1.001, 0.99} {
			tab := load(t)
			p, err := tab.Pack(test.pack)
			if err != nil {
				t.Fatal(err)
			}
			p.VolumeL = share * p.LabelG / test.gPerCup * 0.236588
			found := false
			for _, f := range Verify(tab) {
				found = found || f.Pack == p && f.Check == "density" && f.Severity == Error
			}
			if found != (share < 1) {
				t.Errorf("%s in %.3f L: an error %v, want %v", p.Key, p.VolumeL, found, share < 1)
			}
		}
	}
	if p, err := load(t).Pack("puffed-wheat-170g-bag"); err != nil || math.Abs(p.VolumeL-3.352) > 0.001 {
		t.Errorf("170 g puffed wheat in %v, want 3.352 L (%v)", p, err)
	}
}

// A food without a weight a cup may not hide behind the bound of wet food.
func TestDryFoodNeedsAWeightACup(t *testing.T) {
	tab := load(t)
	f := food(t, tab, "08157")
	tab.cups, tab.density = map[cupKey]float64{}, map[string]float64{}
	for _, finding := range Verify(tab) {
		if finding.Food == f && finding.Check == "density" && finding.Severity == Error {
			return
		}
	}
	t.Error("puffed wheat without a weight a cup passes")
}

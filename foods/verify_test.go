package foods

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// The embedded table has no error and no warning: what the release itself has
// out of tolerance is listed with its reason in data/exceptions.csv.
func TestVerifyEmbedded(t *testing.T) {
	for _, f := range Verify(load(t)) {
		if f.Severity != Info {
			t.Errorf("%v", f)
		}
	}
}

// An exception that nothing needs any more hides the next error.
func TestExceptionsAreNeeded(t *testing.T) {
	accepted, err := embeddedAcceptances()
	if err != nil {
		t.Fatal(err)
	}
	used := map[acceptedKey]bool{}
	for _, f := range Verify(load(t)) {
		if f.Food != nil && strings.Contains(f.Text, "; accepted: ") {
			used[acceptedKey{f.Food.NDB, f.Check}] = true
		}
	}
	for k := range accepted {
		if !used[k] {
			t.Errorf("the exception for %s, %s is not needed", k.ndb, k.check)
		}
	}
}

// Proximates and energy over all foods, worked here apart from Verify: water,
// protein, fat, ash and carbohydrate make 100 g within rounding where
// carbohydrate is by difference, and the factors of the release give its
// energy (usda README).
func TestProximatesAndEnergy(t *testing.T) {
	sums, energies := 0, 0
	for _, row := range readCSV(t, "data/composition.csv") {
		get := func(column string) float64 {
			if row[column] == "" {
				return math.NaN()
			}
			v, err := strconv.ParseFloat(row[column], 64)
			if err != nil {
				t.Fatalf("%s: %s: %v", row["ndb"], column, err)
			}
			return v
		}
		protein, fat, carbohydrate, kcal := get("protein_g"), get("fat_g"), get("carbohydrate_g"), get("energy_kcal")
		sum := get("water_g") + protein + fat + get("ash_g") + carbohydrate
		if carbohydrate > 0 && !math.IsNaN(sum) {
			sums++
			if math.Abs(sum-100) > 0.6 && !isAccepted(t, row["ndb"], "proximates") {
				t.Errorf("%s %s: proximates make %.2f g", row["ndb"], row["description"], sum)
			}
		}
		want := get("protein_factor")*protein + get("fat_factor")*fat + get("carbohydrate_factor")*carbohydrate
		if math.IsNaN(want) {
			continue
		}
		energies++
		if math.Abs(want-kcal) > math.Max(2, 0.01*kcal) && !isAccepted(t, row["ndb"], "energy") {
			t.Errorf("%s %s: %.0f kcal, factors give %.1f", row["ndb"], row["description"], kcal, want)
		}
	}
	if sums < 200 || energies < 150 {
		t.Errorf("only %d sums and %d energies were checked", sums, energies)
	}
}

func isAccepted(t *testing.T, ndb, check string) bool {
	t.Helper()
	accepted, err := embeddedAcceptances()
	if err != nil {
		t.Fatal(err)
	}
	return accepted[acceptedKey{ndb, check}] != ""
}

// Each check finds the slip that it is for.
func TestVerifyFindsSlips(t *testing.T) {
	for _, test := range []struct {
		check string
		ndb   string // food to spoil
		spoil func(*Table, *Food)
	}{
		{"proximates", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Water] += 2 }},
		{"energy", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Energy] *= 1.05 }},
		{"energy", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Energy] *= 4.184 }}, // kJ
		{"vitamin D", "01090", func(_ *Table, f *Food) { f.Per100g[nutrients.VitaminD] *= 40 }},
		{"folate", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Folate] += 10 }},
		{"folate", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.FolateTotal] += 10 }},
		{"vitamin A", "01090", func(_ *Table, f *Food) { f.Per100g[nutrients.VitaminA] /= 0.3 }}, // IU
		{"vitamin A", "01090", func(_ *Table, f *Food) { f.Per100g[nutrients.Retinol] = f.Per100g[nutrients.VitaminA] + 5 }},
		{"parts", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Water] = 101 }},
		{"sugars", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Sugars] = f.Per100g[nutrients.Carbohydrate] + 1 }},
		{"fibre", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Fibre] = f.Per100g[nutrients.Carbohydrate] + 1 }},
		{"fatty acids", "04044", func(_ *Table, f *Food) { f.Per100g[nutrients.SaturatedFat] += 20 }},
		{"added sugars", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.AddedSugars] = 3 }},
		{"lactose", "01090", func(_ *Table, f *Food) { f.LactoseG = 60 }},
		{"gaps", "20044", func(_ *Table, f *Food) { f.Per100g[nutrients.Energy] = math.NaN() }},
		{"keys", "20044", func(tab *Table, f *Food) { f.NDB = tab.Foods[0].NDB }},
		{"keys", "20044", func(tab *Table, f *Food) { f.Name = tab.Foods[0].Name }},
		{"keys", "20044", func(_ *Table, f *Food) { f.NDB = "2044" }},
		{"keys", "20044", func(tab *Table, f *Food) { f.Packs[0].Key = f.Packs[1].Key }},
		{"keys", "20044", func(tab *Table, f *Food) { f.Packs[0].Key = "white rice" }},
		{"name", "20044", func(_ *Table, f *Food) { f.Name = "" }},
		{"group", "20044", func(_ *Table, f *Food) { f.Group = "grain" }},
		{"texture", "20044", func(_ *Table, f *Food) { f.Texture = "chewy" }},
		{"mercury", "15121", func(_ *Table, f *Food) { f.Mercury = "" }},
		{"mercury", "15121", func(_ *Table, f *Food) { f.Mercury = "some" }},
		{"allergens", "20120", func(_ *Table, f *Food) { f.Allergens = nil }},                                   // spaghetti
		{"allergens", "01090", func(_ *Table, f *Food) { f.Allergens = nil }},                                   // milk
		{"allergens", "15121", func(_ *Table, f *Food) { f.Allergens = nil }},                                   // tuna
		{"allergens", "16398", func(_ *Table, f *Food) { f.Allergens = nil }},                                   // peanut butter
		{"allergens", "12061", func(_ *Table, f *Food) { f.Allergens = nil }},                                   // almonds
		{"allergens", "20109", func(_ *Table, f *Food) { f.Allergens = []string{"wheat"} }},                     // egg noodles
		{"allergens", "20044", func(_ *Table, f *Food) { f.Allergens = []string{"nuts"} }},                      // no such word
		{"allergens", "20120", func(_ *Table, f *Food) { f.MayContain = append(f.MayContain, f.Allergens...) }}, // twice
		{"tags", "20120", func(_ *Table, f *Food) { f.Tags = nil }},                                             // gluten
		{"tags", "19296", func(_ *Table, f *Food) { f.Tags = []string{"animal", "added-sugar"} }},               // honey
		{"tags", "12061", func(_ *Table, f *Food) { f.Tags = nil }},                                             // choking
		{"tags", "20005", func(_ *Table, f *Food) { f.Tags = nil }},                                             // barley
		{"tags", "08120", func(_ *Table, f *Food) { f.Tags = nil }},                                             // oats
		{"tags", "07045", func(_ *Table, f *Food) { f.Tags = []string{"animal", "added-salt"} }},                // luncheon meat
		{"tags", "05311", func(_ *Table, f *Food) { f.Tags = []string{"animal", "added-salt"} }},                // chicken
		{"tags", "02047", func(_ *Table, f *Food) { f.Tags = []string{"ingredient"} }},                          // salt
		{"tags", "19335", func(_ *Table, f *Food) { f.Tags = []string{"ingredient"} }},                          // sugar
		{"tags", "20044", func(_ *Table, f *Food) { f.Tags = []string{"tasty"} }},
		{"cholesterol", "06931", func(_ *Table, f *Food) { f.Tags = []string{"high-acid", "added-salt"} }},
		{"cholesterol", "06192", func(_ *Table, f *Food) { f.Tags = []string{"animal", "gluten", "added-salt", "added-sugar"} }}, // of what animal?
		{"tags", "06583", func(_ *Table, f *Food) { f.Tags = []string{"animal", "gluten", "added-salt", "low-gi"} }},             // of what animal?
		{"tags", "19116", func(_ *Table, f *Food) { f.Tags = []string{"choking", "sticky", "added-sugar"} }},                     // gelatin
		{"tags", "14242", func(_ *Table, f *Food) { f.Description = "Cocktail of cranberry juice and wine" }},
		{"pieces", "43312", func(_ *Table, f *Food) { f.Tags = nil }},
		{"pieces", "22905", func(_ *Table, f *Food) { f.Tags = []string{"animal", "meat", "gluten", "added-salt"} }},
		{"pieces", "10158", func(_ *Table, f *Food) { f.Tags = []string{"animal", "meat", "added-salt"} }},
		{"serves", "20044", func(_ *Table, f *Food) { f.Serves = []Serving{{Group: "starch", Per100g: 1}} }},
		{"companions", "04044", func(_ *Table, f *Food) { f.Companions = []string{"hope"} }},
		{"companions", "04044", func(_ *Table, f *Food) { f.Companions = nil }},
		{"class", "20044", func(_ *Table, f *Food) { f.Class = "staple" }},
		{"source", "20044", func(_ *Table, f *Food) { f.Source = "" }},
		{"brand", "20044", func(_ *Table, f *Food) { f.Description = "Rice, ACME, long grain" }},
		{"brand", "20044", func(_ *Table, f *Food) { f.Name = "golden® rice" }},
		{"glycaemic index", "20044", func(_ *Table, f *Food) { f.GI, f.GIClass = 73, "low" }},
		{"keeping", "20044", func(_ *Table, f *Food) { f.Keeping = nil }},
		{"preparation", "20044", func(_ *Table, f *Food) { f.Preparation = nil }},
		{"amounts", "20044", func(_ *Table, f *Food) { f.OccasionG = 0 }},
		{"amounts", "20044", func(_ *Table, f *Food) { f.DayG = f.OccasionG / 2 }},
		{"pack", "20044", func(_ *Table, f *Food) { f.Packs[0].NetG = f.Packs[0].LabelG + 5 }},
		{"pack", "20044", func(_ *Table, f *Food) { f.Packs[0].GrossG += 5 }},
		{"pack", "20044", func(_ *Table, f *Food) { f.Packs[0].NetG = 0 }},
		{"density", "20044", func(_ *Table, f *Food) { f.Packs[0].VolumeL /= 4 }},
		{"density", "20044", func(_ *Table, f *Food) { f.Packs[0].VolumeL *= 1000 }},
		{"price", "20044", func(_ *Table, f *Food) { f.Packs[0].Price = 0 }},
		{"container", "20044", func(_ *Table, f *Food) { f.Packs[0].Container = "sack" }},
		{"source", "20044", func(_ *Table, f *Food) { f.Packs[0].Source = "" }},
	} {
		tab := load(t)
		f := food(t, tab, test.ndb)
		test.spoil(tab, f)
		found := false
		for _, finding := range Verify(tab) {
			found = found || finding.Check == test.check && finding.Severity == Error && finding.Food == f
		}
		if !found {
			t.Errorf("%s of %s spoilt, and Verify does not say so", test.check, test.ndb)
		}
	}
}

// Words within words are no evidence.
func TestContainsWord(t *testing.T) {
	for _, test := range []struct {
		text, word string
		want       bool
	}{
		{"rye wafers", "rye", true},
		{"crackers, rye, plain", "rye", true},
		{"fryer oil", "rye", false},
		{"eggplant", "egg", false},
		{"noodles, egg", "egg", true},
		{"ham", "ham", true},
		{"graham crackers and ham", "ham", true},
		{"graham crackers", "ham", false},
	} {
		if got := containsWord(test.text, test.word); got != test.want {
			t.Errorf("containsWord(%q, %q) = %v, want %v", test.text, test.word, got, test.want)
		}
	}
}

package foods

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
)

// A row of four fields and a like: figures, use, keeping and kinds of the food that
// it is like, the allergens of its own.
func TestFoodLikeAnother(t *testing.T) {
	tab := load(t)
	changes, err := tab.ReadFoods("own.csv", strings.NewReader("name,grams,price,allergens,like\nTernsund rusks,1000,2.10,wheat;milk,rye crispbread\n"))
	if err != nil {
		t.Fatal(err)
	}
	f, like := changes.Added[0], food(t, load(t), changes.Added[0].Like)
	if like.Name != "rye crispbread" {
		t.Fatalf("like %s", like.Name)
	}
	if !sameAmounts(f.Per100g, like.Per100g) || f.Form != like.Form || f.Keeping != like.Keeping || f.Preparation != like.Preparation ||
		f.OccasionG != like.OccasionG || f.DayG != like.DayG || !slices.Equal(f.Kinds, like.Kinds) || f.Group != like.Group {
		t.Errorf("%+v\nis not like %+v", f, like)
	}
	if f.NDB != "U001" || !f.Own || !slices.Equal(f.Allergens, []string{"wheat", "milk"}) || slices.Contains(f.MayContain, "milk") {
		t.Errorf("key %s, own %v, allergens %v, may contain %v", f.NDB, f.Own, f.Allergens, f.MayContain)
	}
	p := changes.Packs[0]
	// Twice the largest pack, of 500 g: twice the box; the tare by the two-thirds power of two.
	near, err := tab.Pack("rye-crispbread-500g-box")
	if err != nil {
		t.Fatal(err)
	}
	if p.NetG != 1000 || p.Price != 2.1 || math.Abs(p.VolumeL-near.VolumeL*2) > 1e-9 || math.Abs(p.TareG-near.TareG*math.Cbrt(4)) > 0.5 {
		t.Errorf("pack %+v of twice %+v", p, near)
	}
	again := load(t)
	back, err := again.ReadFoods("plan", FromRows(changes.Rows))
	if err != nil || back.Added[0].NDB != f.NDB || back.Packs[0].Key != p.Key || back.Packs[0].VolumeL != p.VolumeL {
		t.Errorf("read from its rows it is %+v, %v", back, err)
	}
}

func sameAmounts(a, b nutrients.Amounts) bool {
	for n := range nutrients.Count {
		x, known := a.Get(n)
		y, has := b.Get(n)
		if known != has || known && x != y {
			return false
		}
	}
	return true
}

// What a label does not say is unknown, whatever the food is like; no mark stays that
// lets someone eat what its label does not allow.
func TestFoodByItsLabel(t *testing.T) {
	tab := load(t)
	changes, err := tab.ReadFoods("own.csv", strings.NewReader("name,grams,price,allergens,like,label\n"+
		"Ternsund lentils,400,1.80,none,\"lentils, dry\",\"per 100 g: 1490 kJ, fat 1.1 g, carbohydrate 49 g, fibre 11 g, protein 25 g, salt 0.02 g\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	f := changes.Added[0]
	// 1490 ÷ 4.184 = 356.12 kcal; 49 + 11 = 60 g; 0.02 g ÷ 2.5 = 8 mg.
	for n, want := range map[nutrients.Nutrient]float64{nutrients.Energy: 356.12, nutrients.Carbohydrate: 60, nutrients.Sodium: 8, nutrients.Fibre: 11} {
		if got := f.Per100g[n]; math.Abs(got-want) > 0.005 {
			t.Errorf("%s = %v, want %v", n, got, want)
		}
	}
	for _, n := range []nutrients.Nutrient{nutrients.Iron, nutrients.Sugars, nutrients.SaturatedFat, nutrients.Folate, nutrients.Water} {
		if v, known := f.Per100g.Get(n); known {
			t.Errorf("%s = %v though the label does not say it", n, v)
		}
	}
	if f.HasTag(TagLowGI) || f.GI != 0 {
		t.Error("the label gives it no glycaemic index")
	}
	drinks, err := load(t).ReadFoods("own.csv", strings.NewReader("name,grams,price,allergens,like,label\n"+
		"Ternsund soy drink,1000,1.80,soy,\"soy drink, unsweetened, calcium and vitamins A and D\",\"per 100 g: 160 kJ, fat 2 g, carbohydrate 1 g, protein 3.3 g, salt 0.02 g\"\n"+
		"Ternsund soy drink too,1000,1.80,soy,\"soy drink, unsweetened, calcium and vitamins A and D\",\n"))
	if err != nil {
		t.Fatal(err)
	}
	if drinks.Added[0].HasTag(TagFortifiedSoy) || !drinks.Added[0].HasTag(TagDairyDrink) || !drinks.Added[1].HasTag(TagFortifiedSoy) {
		t.Errorf("tags %v by a label without calcium, %v without a label", drinks.Added[0].Tags, drinks.Added[1].Tags)
	}
}

func TestFaultsOfOwnFoods(t *testing.T) {
	tab := load(t)
	_, err := tab.ReadFoods("own.csv", strings.NewReader("name,grams,price,allergens,like,label\n"+
		"a,400,1,none,lentlis,\n"+
		"b,x,1,none,jam,\n"+
		"c,400,1,,jam,\n"+
		"d,400,1,none,jam,fat 3 g\n"+
		"e,400,1,none,,per 100 g: 250 kcal\n"+
		"f,400,1,milk,C0001,\n"))
	if err == nil {
		t.Fatal("no fault")
	}
	for _, want := range []string{`own.csv:2:14: like "lentlis"`, `own.csv:3:3: grams "x"`, `own.csv:4:9: allergens ""`, `own.csv:5:18: label "fat 3 g"`, `own.csv:6:14: like ""`, `own.csv:7:14: like "C0001"`} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("missing %s in\n%v", want, err)
		}
	}
}

// What a food holds that is like it is said where the row does not name it, and kept
// as possible.
func TestAllergenOfTheLike(t *testing.T) {
	tab := load(t)
	changes, err := tab.ReadFoods("own.csv", strings.NewReader("name,grams,allergens,like\nTernsund maize rusks,250,none,rye crispbread\n"))
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Contains(changes.Added[0].MayContain, "wheat") || !changes.Added[0].HasTag("gluten") {
		t.Error("wheat is forgotten")
	}
	if len(changes.Warnings) == 0 || !strings.Contains(changes.Warnings[0], "own.csv:2:26: rye crispbread holds wheat") {
		t.Errorf("warnings %q", changes.Warnings)
	}
}

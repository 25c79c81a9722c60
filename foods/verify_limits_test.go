package foods

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
)

// figures makes a food of figures per 100 g; what is not among them is unknown.
func figures(of map[nutrients.Nutrient]float64, change ...func(*Food)) *Food {
	f := &Food{NDB: "99999", Name: "test", Per100g: nutrients.Unknown()}
	for n, v := range of {
		f.Per100g[n] = v
	}
	for _, c := range change {
		c(f)
	}
	return f
}

// found is what a check of the verifier finds in a food.
func found(t *testing.T, f *Food, check func(*verifier, *Food)) []Finding {
	t.Helper()
	v := &verifier{table: &Table{}}
	check(v, f)
	return v.findings
}

// Each tolerance of the composition checks has a figure that just keeps it and one
// that just breaks it, on both sides of what the figures of the row give. The limits
// are those named at the head of verify_composition.go, the sums worked beside each case.
func TestLimitsOfComposition(t *testing.T) {
	type of = map[nutrients.Nutrient]float64
	own := func(f *Food) { f.Factors = Factors{Protein: 4, Fat: 9, Carbohydrate: 4} }
	noFat := func(f *Food) { f.Factors = Factors{Protein: 4, Carbohydrate: 4} }
	noProtein := func(f *Food) { f.Factors = Factors{Fat: 9, Carbohydrate: 4} }
	noCarbohydrate := func(f *Food) { f.Factors = Factors{Protein: 4, Fat: 9} }
	wine := func(f *Food) { own(f); f.Tags = []string{"alcohol"} }
	lactose := func(g float64) func(*Food) { return func(f *Food) { f.LactoseG, f.HasLactose = g, true } }
	proximates := func(water, carbohydrate float64) of {
		return of{nutrients.Water: water, nutrients.Protein: 10, nutrients.Fat: 5, nutrients.Ash: 1, nutrients.Carbohydrate: carbohydrate}
	}
	energy := func(kcal, protein, fat, carbohydrate float64) of {
		return of{nutrients.Energy: kcal, nutrients.Protein: protein, nutrients.Fat: fat, nutrients.Carbohydrate: carbohydrate}
	}
	fibrous := func(kcal float64) of {
		a := energy(kcal, 5, 0, 10)
		a[nutrients.Fibre] = 2
		return a
	}
	carotene := func(a float64, retinol, alpha, beta, crypto float64) of {
		return of{nutrients.VitaminA: a, nutrients.Retinol: retinol, nutrients.AlphaCarotene: alpha,
			nutrients.BetaCarotene: beta, nutrients.BetaCryptoxanthin: crypto}
	}
	fats := func(fat, saturated, mono, poly float64) of {
		return of{nutrients.Fat: fat, nutrients.SaturatedFat: saturated, nutrients.MonounsaturatedFat: mono, nutrients.PolyunsaturatedFat: poly}
	}
	for _, test := range []struct {
		name  string
		f     *Food
		check func(*verifier, *Food)
		want  string // the check that finds something, "" none
	}{
		// 10 + 5 + 1 + 34 = 50, and water to 100 ± 0.6.
		{"0.55 g too much", figures(proximates(50.55, 34)), (*verifier).proximates, ""},
		{"0.65 g too much", figures(proximates(50.65, 34)), (*verifier).proximates, "proximates"},
		{"0.55 g too little", figures(proximates(49.45, 34)), (*verifier).proximates, ""},
		{"0.65 g too little", figures(proximates(49.35, 34)), (*verifier).proximates, "proximates"},
		// Without carbohydrate 10 + 5 + 1 = 16, and water to 100 ± 3.
		{"flesh, 2.9 g too much", figures(proximates(86.9, 0)), (*verifier).proximates, ""},
		{"flesh, 3.1 g too much", figures(proximates(87.1, 0)), (*verifier).proximates, "proximates"},
		{"a trace of carbohydrate is some", figures(proximates(86.9, 0.01)), (*verifier).proximates, "proximates"},
		{"nothing is said of a gap", figures(of{nutrients.Water: 200, nutrients.Protein: 10, nutrients.Fat: 5, nutrients.Ash: 1}), (*verifier).proximates, ""},

		// 5 × 4 + 2 × 9 + 10 × 4 = 78 kcal, ± 2 by the row's own factors.
		{"2 kcal over", figures(energy(80, 5, 2, 10), own), (*verifier).energy, ""},
		{"2.1 kcal over", figures(energy(80.1, 5, 2, 10), own), (*verifier).energy, "energy"},
		{"2 kcal under", figures(energy(76, 5, 2, 10), own), (*verifier).energy, ""},
		{"2.1 kcal under", figures(energy(75.9, 5, 2, 10), own), (*verifier).energy, "energy"},
		// 25 × 4 + 50 × 9 + 12.5 × 4 = 600 kcal; 1 % of 606 is 6.06, of 607 6.07.
		{"1 % over", figures(energy(606, 25, 50, 12.5), own), (*verifier).energy, ""},
		{"more than 1 % over", figures(energy(607, 25, 50, 12.5), own), (*verifier).energy, "energy"},
		{"1 % under", figures(energy(594.1, 25, 50, 12.5), own), (*verifier).energy, ""},
		{"more than 1 % under", figures(energy(594, 25, 50, 12.5), own), (*verifier).energy, "energy"},
		// The general factors where one of the row is missing: 78 kcal ± 5.
		{"no factor of fat, 4.9 kcal over", figures(energy(82.9, 5, 2, 10), noFat), (*verifier).energy, ""},
		{"no factor of protein, 4.9 kcal over", figures(energy(82.9, 5, 2, 10), noProtein), (*verifier).energy, ""},
		{"no factor of carbohydrate, 4.9 kcal over", figures(energy(82.9, 5, 2, 10), noCarbohydrate), (*verifier).energy, ""},
		{"no factors, 5 kcal over", figures(energy(83, 5, 2, 10)), (*verifier).energy, ""},
		{"no factors, 5.1 kcal over", figures(energy(83.1, 5, 2, 10)), (*verifier).energy, "energy"},
		{"no factors, 5 kcal under", figures(energy(73, 5, 2, 10)), (*verifier).energy, ""},
		{"no factors, 5.1 kcal under", figures(energy(72.9, 5, 2, 10)), (*verifier).energy, "energy"},
		// 5 % of 631 is 31.55, of 632 31.6.
		{"no factors, 5 % over", figures(energy(631, 25, 50, 12.5)), (*verifier).energy, ""},
		{"no factors, more than 5 % over", figures(energy(632, 25, 50, 12.5)), (*verifier).energy, "energy"},
		// 5 × 4 + 10 × 4 = 60 kcal, ± 5 and 4 for each of 2 g of fibre: down to 47.
		{"fibre counts for less", figures(fibrous(47)), (*verifier).energy, ""},
		{"but for no less than nothing", figures(fibrous(46.9)), (*verifier).energy, "energy"},
		{"alcohol brings energy", figures(energy(200, 5, 2, 10), wine), (*verifier).energy, ""},
		{"and takes none", figures(energy(70, 5, 2, 10), wine), (*verifier).energy, "energy"},
		{"no energy known", figures(of{nutrients.Protein: 5, nutrients.Fat: 2, nutrients.Carbohydrate: 10}), (*verifier).energy, ""},

		// 400 IU ÷ 40 = 10 µg, ± 0.06.
		{"vitamin D 10.05", figures(of{nutrients.VitaminD: 10.05, nutrients.VitaminDIU: 400}), (*verifier).vitamins, ""},
		{"vitamin D 10.07", figures(of{nutrients.VitaminD: 10.07, nutrients.VitaminDIU: 400}), (*verifier).vitamins, "vitamin D"},
		{"vitamin D 9.95", figures(of{nutrients.VitaminD: 9.95, nutrients.VitaminDIU: 400}), (*verifier).vitamins, ""},
		{"vitamin D 9.93", figures(of{nutrients.VitaminD: 9.93, nutrients.VitaminDIU: 400}), (*verifier).vitamins, "vitamin D"},
		// 100 + 30 = 130 µg; 1.7 × 100 + 30 = 200 µg DFE; each ± 2.
		{"folate 132", figures(of{nutrients.FolateTotal: 132, nutrients.FolicAcid: 100, nutrients.FolateFood: 30}), (*verifier).vitamins, ""},
		{"folate 132.1", figures(of{nutrients.FolateTotal: 132.1, nutrients.FolicAcid: 100, nutrients.FolateFood: 30}), (*verifier).vitamins, "folate"},
		{"folate 127.9", figures(of{nutrients.FolateTotal: 127.9, nutrients.FolicAcid: 100, nutrients.FolateFood: 30}), (*verifier).vitamins, "folate"},
		{"DFE 198", figures(of{nutrients.Folate: 198, nutrients.FolicAcid: 100, nutrients.FolateFood: 30}), (*verifier).vitamins, ""},
		{"DFE 202.1", figures(of{nutrients.Folate: 202.1, nutrients.FolicAcid: 100, nutrients.FolateFood: 30}), (*verifier).vitamins, "folate"},
		{"DFE 197.9", figures(of{nutrients.Folate: 197.9, nutrients.FolicAcid: 100, nutrients.FolateFood: 30}), (*verifier).vitamins, "folate"},
		// 20 + 120/12 + (24 + 48)/24 = 33 µg RAE, ± 1.5; 200 + 1200/12 = 300, ± 2 % or 6.
		{"vitamin A 34.5", figures(carotene(34.5, 20, 24, 120, 48)), (*verifier).vitamins, ""},
		{"vitamin A 34.6", figures(carotene(34.6, 20, 24, 120, 48)), (*verifier).vitamins, "vitamin A"},
		{"vitamin A 31.4", figures(carotene(31.4, 20, 24, 120, 48)), (*verifier).vitamins, "vitamin A"},
		{"vitamin A 306", figures(carotene(306, 200, 0, 1200, 0)), (*verifier).vitamins, ""},
		{"vitamin A 306.1", figures(carotene(306.1, 200, 0, 1200, 0)), (*verifier).vitamins, "vitamin A"},

		{"100 g of water", figures(of{nutrients.Water: 100}), (*verifier).parts, ""},
		{"100.1 g of water", figures(of{nutrients.Water: 100.1}), (*verifier).parts, "parts"},
		{"101 mg of sodium", figures(of{nutrients.Sodium: 101}), (*verifier).parts, ""},
		{"sugars 0.3 g over", figures(of{nutrients.Sugars: 20.3, nutrients.Carbohydrate: 20}), (*verifier).parts, ""},
		{"sugars 0.4 g over", figures(of{nutrients.Sugars: 20.4, nutrients.Carbohydrate: 20}), (*verifier).parts, "sugars"},
		{"sugars and fibre 0.9 g over", figures(of{nutrients.Sugars: 15, nutrients.Fibre: 5.9, nutrients.Carbohydrate: 20}), (*verifier).parts, ""},
		{"sugars and fibre 1.1 g over", figures(of{nutrients.Sugars: 15, nutrients.Fibre: 6.1, nutrients.Carbohydrate: 20}), (*verifier).parts, "sugars"},
		{"fibre 0.3 g over", figures(of{nutrients.Fibre: 20.3, nutrients.Carbohydrate: 20}), (*verifier).parts, ""},
		{"fibre 0.4 g over", figures(of{nutrients.Fibre: 20.4, nutrients.Carbohydrate: 20}), (*verifier).parts, "fibre"},
		// 3 + 4 + 3 = 10 g of fatty acids.
		{"fatty acids 0.3 g over", figures(fats(9.7, 3, 4, 3)), (*verifier).parts, ""},
		{"fatty acids 0.4 g over", figures(fats(9.6, 3, 4, 3)), (*verifier).parts, "fatty acids"},
		{"added sugars 0.04 g over", figures(of{nutrients.AddedSugars: 5.04, nutrients.Sugars: 5}), (*verifier).parts, ""},
		{"added sugars 0.06 g over", figures(of{nutrients.AddedSugars: 5.06, nutrients.Sugars: 5}), (*verifier).parts, "added sugars"},
		{"retinol 1.4 µg over", figures(of{nutrients.Retinol: 51.4, nutrients.VitaminA: 50}), (*verifier).parts, ""},
		{"retinol 1.6 µg over", figures(of{nutrients.Retinol: 51.6, nutrients.VitaminA: 50}), (*verifier).parts, "vitamin A"},
		{"lactose 0.3 g over", figures(of{nutrients.Sugars: 5}, lactose(5.3)), (*verifier).parts, ""},
		{"lactose 0.4 g over", figures(of{nutrients.Sugars: 5}, lactose(5.4)), (*verifier).parts, "lactose"},
		{"lactose beside unknown sugars", figures(nil, lactose(5)), (*verifier).parts, ""},
		{"lactose not known", figures(of{nutrients.Sugars: 5}, func(f *Food) { f.LactoseG = 6 }), (*verifier).parts, ""},
	} {
		got := found(t, test.f, test.check)
		switch {
		case test.want == "" && len(got) > 0:
			t.Errorf("%s: %v, want nothing", test.name, got)
		case test.want != "" && !slices.ContainsFunc(got, func(f Finding) bool { return f.Check == test.want && f.Severity == Error }):
			t.Errorf("%s: %v, want an error of %s", test.name, got, test.want)
		}
	}
}

// Low to 55, high from 70, nothing without an index: ISO 26642, as quoted at
// [verifier.glycaemic].
func TestClassesOfTheGlycaemicIndex(t *testing.T) {
	for _, test := range []struct {
		gi    float64
		class string
	}{{0, ""}, {1, "low"}, {55, "low"}, {56, "medium"}, {69, "medium"}, {70, "high"}, {110, "high"}} {
		for _, class := range []string{"low", "medium", "high"} {
			got := found(t, &Food{GI: test.gi, GIClass: class}, (*verifier).glycaemic)
			if wrong := test.gi > 0 && class != test.class; (len(got) > 0) != wrong {
				t.Errorf("index %g called %s: %v", test.gi, class, got)
			}
		}
	}
}

// What every plan rests on may not be unknown; another gap is worth knowing, and is
// named.
func TestGapsOfAFood(t *testing.T) {
	all := map[nutrients.Nutrient]float64{}
	for n := range nutrients.Count {
		all[n] = 1
	}
	if got := found(t, figures(all), (*verifier).gaps); len(got) > 0 {
		t.Errorf("nothing is unknown: %v", got)
	}
	for n := range nutrients.Count {
		f := figures(all)
		f.Per100g[n] = math.NaN()
		got := found(t, f, (*verifier).gaps)
		needed := slices.Contains([]nutrients.Nutrient{nutrients.Energy, nutrients.Protein, nutrients.Fat, nutrients.Carbohydrate}, n)
		errs := slices.IndexFunc(got, func(f Finding) bool { return f.Severity == Error && f.Text == n.Name()+" is unknown" })
		info := slices.IndexFunc(got, func(f Finding) bool {
			return f.Severity == Info && f.Text == "unknown, counted as nothing towards a floor: "+n.Name()
		})
		if info < 0 || (errs >= 0) != needed {
			t.Errorf("without %s: %v, want it named, and an error %v", n.Name(), got, needed)
		}
	}
}

// A pack of 1000 g: tare and net are whole grams, so that 0.6 g is rounding. Wet food
// is at most 1.12 g/mL dense, so that 1000 g take at least 0.893 L; in more than ten
// times the room, 8.93 L, one of them is in the wrong unit.
func TestLimitsOfAPack(t *testing.T) {
	wet := figures(map[nutrients.Nutrient]float64{nutrients.Water: 80})
	tab := &Table{containers: map[string]container{"can_300": {}}, density: map[string]float64{"flour": 0.5}}
	for _, test := range []struct {
		name     string
		change   func(*Pack)
		severity Severity
		check    string // "" nothing
	}{
		{"sound", func(*Pack) {}, "", ""},
		{"no litres", func(p *Pack) { p.VolumeL = 0 }, Error, "pack"},
		{"no label", func(p *Pack) { p.LabelG, p.GrossG = 0, 100 }, Error, "pack"},
		{"no food in it", func(p *Pack) { p.NetG = 0 }, Error, "pack"},
		{"no tare", func(p *Pack) { p.TareG, p.GrossG = 0, 1000 }, "", ""},
		{"tare below 0", func(p *Pack) { p.TareG, p.GrossG = -1, 999 }, Error, "pack"},
		{"0.5 g more edible than on the label", func(p *Pack) { p.NetG = 1000.5 }, "", ""},
		{"0.7 g more edible than on the label", func(p *Pack) { p.NetG = 1000.7 }, Error, "pack"},
		{"gross 0.5 g more", func(p *Pack) { p.GrossG += 0.5 }, "", ""},
		{"gross 0.7 g more", func(p *Pack) { p.GrossG += 0.7 }, Error, "pack"},
		{"gross 0.7 g less", func(p *Pack) { p.GrossG -= 0.7 }, Error, "pack"},
		{"no price", func(p *Pack) { p.HasPrice = false }, Warning, "price"},
		{"no price of human milk", func(p *Pack) { p.HasPrice = false; p.Food.Tags = []string{TagHumanMilk} }, "", ""},
		{"price 0", func(p *Pack) { p.Price = 0 }, Error, "price"},
		{"price of a cent", func(p *Pack) { p.Price = 0.01 }, "", ""},
		{"container of the table", func(p *Pack) { p.Container = "can_300" }, "", ""},
		{"container of no table", func(p *Pack) { p.Container = "sack" }, Error, "container"},
		{"no source", func(p *Pack) { p.Source = "" }, Error, "source"},
		{"just room", func(p *Pack) { p.VolumeL = 0.893 }, "", ""},
		{"no room", func(p *Pack) { p.VolumeL = 0.892 }, Error, "density"},
		{"ten times the room", func(p *Pack) { p.VolumeL = 8.92 }, "", ""},
		{"more than that", func(p *Pack) { p.VolumeL = 8.94 }, Error, "density"},
		// The user's own may be packed closer by 1.15: 0.7764 L.
		{"own pack, just room", func(p *Pack) { p.Own, p.VolumeL = true, 0.7765 }, "", ""},
		{"own pack, no room", func(p *Pack) { p.Own, p.VolumeL = true, 0.7763 }, Error, "density"},
		// Flour at 0.5 g/mL takes 2 L, in a pack of one's own 1.739 L.
		{"flour, just room", func(p *Pack) { p.Food.Form, p.VolumeL = "flour", 2 }, "", ""},
		{"flour, no room", func(p *Pack) { p.Food.Form, p.VolumeL = "flour", 1.99 }, Error, "density"},
		{"flour, ten times the room", func(p *Pack) { p.Food.Form, p.VolumeL = "flour", 20.1 }, Error, "density"},
		{"own pack of flour", func(p *Pack) { p.Own, p.Food.Form, p.VolumeL = true, "flour", 1.74 }, "", ""},
		// A food of the user's own may be denser than its form, never denser than wet food
		// and the settling: 1000 g in 0.7764 L.
		{"own food denser than its form", func(p *Pack) { p.Own, p.Food.Own, p.Food.Form, p.VolumeL = true, true, "flour", 1 }, Warning, "density"},
		{"own food, as dense as can be", func(p *Pack) { p.Own, p.Food.Own, p.Food.Form, p.VolumeL = true, true, "flour", 0.7765 }, Warning, "density"},
		{"own food, denser than that", func(p *Pack) { p.Own, p.Food.Own, p.Food.Form, p.VolumeL = true, true, "flour", 0.7763 }, Error, "density"},
		// Under 40 g of water in 100 g a food lies loose, and its cup must be weighed.
		{"40 g of water", func(p *Pack) { p.Food.Per100g[nutrients.Water] = 40 }, "", ""},
		{"39.9 g of water", func(p *Pack) { p.Food.Per100g[nutrients.Water] = 39.9 }, Error, "density"},
		{"39.9 g of water in one's own food", func(p *Pack) { p.Food.Own = true; p.Food.Per100g[nutrients.Water] = 39.9 }, "", ""},
		{"water not known", func(p *Pack) { p.Food.Per100g[nutrients.Water] = math.NaN() }, "", ""},
	} {
		f := *wet
		p := &Pack{Key: "p", Food: &f, LabelG: 1000, NetG: 1000, TareG: 100, GrossG: 1100, VolumeL: 1.1, Price: 2, HasPrice: true, Source: "test"}
		test.change(p)
		v := &verifier{table: tab}
		v.pack(p)
		switch {
		case test.check == "" && len(v.findings) > 0:
			t.Errorf("%s: %v, want nothing", test.name, v.findings)
		case test.check != "" && (len(v.findings) != 1 || v.findings[0].Severity != test.severity || v.findings[0].Check != test.check || v.findings[0].Pack != p):
			t.Errorf("%s: %v, want one %s of %s", test.name, v.findings, test.severity, test.check)
		}
	}
}

package foods

import (
	"cmp"
	"math"
	"strings"

	"rationwright/nutrients"
)

// Tolerances of the composition checks, each against figures of the published
// table, which are rounded and partly analysed on their own.
const (
	// Proximates are printed to 0.01 g but many were analysed to 0.1 g; five of
	// them round to at most 0.5 g.
	proximateTol = 0.6
	// In flesh, fat and salt the table sets carbohydrate to 0 instead of taking it
	// by difference, so that the errors of four analyses stay in the sum.
	proximateTolNoCarbohydrate = 3.0
	// Energy from the row's own factors: whole kcal, and factors to 0.01 kcal/g.
	factorTolKcal, factorTolShare = 2.0, 0.01
	// Energy from the general factors 4, 9 and 4: specific factors run from 2.4 to
	// 4.3 for protein and 2.5 to 4.2 for carbohydrate, fibre counts for less.
	generalTolKcal, generalTolShare = 5.0, 0.05
	// IU ÷ 40 against µg printed to 0.1.
	vitaminDTol = 0.06
	// Whole µg of up to three summands.
	folateTol = 2.0
	// Whole µg of four summands, and 2 % for factors rounded by the publisher.
	retinolTol, retinolTolShare = 1.5, 0.02
	// Parts are analysed apart from the whole.
	partTol      = 0.35
	fibreTol     = 1.0
	addedTol     = 0.05 // printed to 0.01 g
	atMostPer100 = 100.0
)

// General Atwater factors in kcal per g. Source: W. O. Atwater, as used by
// USDA; requirements amdr.csv.
const (
	kcalProtein, kcalFat, kcalCarbohydrate = 4.0, 9.0, 4.0
)

// proximates checks that water, protein, fat, ash and carbohydrate make 100 g.
func (v *verifier) proximates(f *Food) {
	ns := []nutrients.Nutrient{nutrients.Water, nutrients.Protein, nutrients.Fat, nutrients.Ash, nutrients.Carbohydrate}
	if !f.known(ns...) {
		return // reported as a gap
	}
	sum := 0.0
	for _, n := range ns {
		sum += f.Per100g[n]
	}
	tol := proximateTol
	if f.Per100g[nutrients.Carbohydrate] <= 0 {
		tol = proximateTolNoCarbohydrate
	}
	if math.Abs(sum-100) > tol {
		v.add(Error, f, "proximates", "water, protein, fat, ash and carbohydrate make %.2f g in 100 g, not 100 ± %.1f", sum, tol)
	}
}

// energy checks kcal against protein, fat and carbohydrate.
func (v *verifier) energy(f *Food) {
	if !f.known(nutrients.Energy, nutrients.Protein, nutrients.Fat, nutrients.Carbohydrate) {
		return
	}
	kcal := f.Per100g[nutrients.Energy]
	own := f.Factors.Protein > 0 && f.Factors.Fat > 0 && f.Factors.Carbohydrate > 0
	want := f.Per100g[nutrients.Protein]*cmp.Or(f.Factors.Protein, kcalProtein) +
		f.Per100g[nutrients.Fat]*cmp.Or(f.Factors.Fat, kcalFat) +
		f.Per100g[nutrients.Carbohydrate]*cmp.Or(f.Factors.Carbohydrate, kcalCarbohydrate)
	tol := math.Max(factorTolKcal, factorTolShare*kcal)
	which := "the factors of the row"
	if !own {
		tol = math.Max(generalTolKcal, generalTolShare*kcal) + kcalCarbohydrate*f.Per100g.Known(nutrients.Fibre)
		which = "general factors"
	}
	if kcal > want && f.HasTag("alcohol") {
		return // alcohol brings energy of its own
	}
	if math.Abs(want-kcal) > tol {
		v.add(Error, f, "energy", "%.0f kcal in 100 g, but %s give %.1f ± %.0f", kcal, which, want, tol)
	}
}

// vitamins checks figures that the table gives in two units or in parts.
func (v *verifier) vitamins(f *Food) {
	a := &f.Per100g
	near := func(check string, got, want, tol float64, what string) {
		if math.Abs(got-want) > tol {
			v.add(Error, f, check, "%s: %.2f, but its parts give %.2f ± %.2f", what, got, want, tol)
		}
	}
	if f.known(nutrients.VitaminD, nutrients.VitaminDIU) {
		// 1 IU of vitamin D is 0.025 µg: usda README.
		near("vitamin D", a[nutrients.VitaminD], a[nutrients.VitaminDIU]/40, vitaminDTol, "µg of vitamin D")
	}
	if f.known(nutrients.FolateTotal, nutrients.FolicAcid, nutrients.FolateFood) {
		near("folate", a[nutrients.FolateTotal], a[nutrients.FolicAcid]+a[nutrients.FolateFood], folateTol, "µg of folate")
	}
	if f.known(nutrients.Folate, nutrients.FolicAcid, nutrients.FolateFood) {
		// 1 µg folic acid in food is 1.7 µg DFE: IOM, DRI folate (1998).
		near("folate", a[nutrients.Folate], 1.7*a[nutrients.FolicAcid]+a[nutrients.FolateFood], folateTol, "µg DFE of folate")
	}
	if f.known(nutrients.VitaminA, nutrients.Retinol, nutrients.AlphaCarotene, nutrients.BetaCarotene, nutrients.BetaCryptoxanthin) {
		// RAE = retinol + β/12 + (α + β-cryptoxanthin)/24: IOM, DRI vitamin A (2001).
		want := a[nutrients.Retinol] + a[nutrients.BetaCarotene]/12 + (a[nutrients.AlphaCarotene]+a[nutrients.BetaCryptoxanthin])/24
		near("vitamin A", a[nutrients.VitaminA], want, math.Max(retinolTol, retinolTolShare*want), "µg RAE of vitamin A")
	}
}

// parts checks parts against wholes.
func (v *verifier) parts(f *Food) {
	a := &f.Per100g
	atMost := func(check string, part, whole, tol float64, what string) {
		if part > whole+tol {
			v.add(Error, f, check, "%s: %.2f g of %.2f g", what, part, whole)
		}
	}
	for n := range nutrients.Count {
		if amount, known := a.Get(n); known && n.Unit() == "g" {
			atMost("parts", amount, atMostPer100, 0, n.Name()+" in 100 g")
		}
	}
	if f.known(nutrients.Sugars, nutrients.Carbohydrate) {
		atMost("sugars", a[nutrients.Sugars], a[nutrients.Carbohydrate], partTol, "sugars in carbohydrate")
		atMost("sugars", a[nutrients.Sugars]+a.Known(nutrients.Fibre), a[nutrients.Carbohydrate], fibreTol, "sugars and fibre in carbohydrate")
	}
	if f.known(nutrients.Fibre, nutrients.Carbohydrate) {
		atMost("fibre", a[nutrients.Fibre], a[nutrients.Carbohydrate], partTol, "fibre in carbohydrate")
	}
	if f.known(nutrients.Fat) {
		atMost("fatty acids", a.Known(nutrients.SaturatedFat)+a.Known(nutrients.MonounsaturatedFat)+a.Known(nutrients.PolyunsaturatedFat),
			a[nutrients.Fat], partTol, "fatty acids in fat")
	}
	if f.known(nutrients.AddedSugars, nutrients.Sugars) {
		atMost("added sugars", a[nutrients.AddedSugars], a[nutrients.Sugars], addedTol, "added sugars in sugars")
	}
	if f.known(nutrients.Retinol, nutrients.VitaminA) && a[nutrients.Retinol] > a[nutrients.VitaminA]+retinolTol {
		v.add(Error, f, "vitamin A", "%.0f µg retinol in %.0f µg RAE", a[nutrients.Retinol], a[nutrients.VitaminA])
	}
	if whole, known := a.Get(nutrients.Sugars); f.HasLactose && known {
		atMost("lactose", f.LactoseG, whole, partTol, "lactose in sugars")
	}
}

// gaps lists what the table does not know, and insists on what every plan
// rests on.
func (v *verifier) gaps(f *Food) {
	var unknown []string
	for n := range nutrients.Count {
		if _, known := f.Per100g.Get(n); known {
			continue
		}
		unknown = append(unknown, n.Name())
		switch n {
		case nutrients.Energy, nutrients.Protein, nutrients.Fat, nutrients.Carbohydrate:
			v.add(Error, f, "gaps", "%s is unknown", n.Name())
		}
	}
	if len(unknown) > 0 {
		v.add(Info, f, "gaps", "unknown, counted as nothing towards a floor: %s", strings.Join(unknown, ", "))
	}
}

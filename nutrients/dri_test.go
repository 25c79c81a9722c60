package nutrients

import (
	"math"
	"testing"
)

// Where the figures below were read: the summary tables of the DRI reports, in
// the copies that data/dri.csv names.
const (
	elements  = "IOM/NASEM DRI summary table, elements (NCBI Bookshelf NBK545442, appendix J, table 3)"
	vitamins  = "IOM/NASEM DRI summary table, vitamins (docslib.org/doc/459083, FNB table)"
	macros    = "IOM DRI summary table, total water and macronutrients (yumpu.com document 43281422, FNB table)"
	averages  = "IOM/NASEM DRI summary table, EAR (NCBI Bookshelf NBK545442, appendix J, table 1)"
	levelsUL  = "IOM/NASEM DRI summary table, UL (NCBI Bookshelf NBK545442 and NBK278991)"
	sodium19  = "NASEM DRI, Sodium and Potassium (2019), summary table"
	vitaminD  = "IOM DRI, Calcium and Vitamin D (2011), summary table"
	perKg2005 = "IOM DRI, Energy … Protein (2002/2005), g/kg RDA × reference weight"
)

// Requirements of every life stage as published, in the unit of the food
// table's column.
func TestPublishedRequirementsOfEveryLifeStage(t *testing.T) {
	type want struct {
		n      Nutrient
		amount float64
		source string
	}
	woman := func(years int, s State) Person { return Person{AgeMonths: 12 * years, Sex: Female, State: s} }
	man := func(years int) Person { return Person{AgeMonths: 12 * years, Sex: Male} }
	for _, c := range []struct {
		stage string
		p     Person
		want  []want
	}{
		{"infant_0_6mo", Person{AgeMonths: 3, Sex: Female, Feeding: BreastFed}, []want{{Calcium, 200, vitaminD}, {Iron, 0.27, elements}, {VitaminC, 40, vitamins}, {Sodium, 110, sodium19}, {Copper, 0.2, elements}}},
		{"infant_7_12mo", Person{AgeMonths: 8, Sex: Male, Feeding: FormulaFed}, []want{{Iron, 11, elements}, {Zinc, 3, elements}, {Protein, 11, perKg2005}, {VitaminD, 10, vitaminD}, {Fat, 30, macros}}},
		{"child_1_3y", man(2), []want{{Calcium, 700, vitaminD}, {Iron, 7, elements}, {VitaminA, 300, vitamins}, {Protein, 13, perKg2005}, {Fibre, 19, macros}, {Copper, 0.34, elements}, {Sodium, 800, sodium19}}},
		{"child_4_8y", woman(6, NoState), []want{{Calcium, 1000, vitaminD}, {Iron, 10, elements}, {Folate, 200, vitamins}, {Protein, 19, perKg2005}, {Potassium, 2300, sodium19}, {Fibre, 25, macros}}},
		{"male_9_13y", man(11), []want{{Phosphorus, 1250, elements}, {VitaminA, 600, vitamins}, {Magnesium, 240, elements}, {Fibre, 31, macros}, {Choline, 375, vitamins}}},
		{"male_14_18y", man(16), []want{{Magnesium, 410, elements}, {Zinc, 11, elements}, {Iron, 11, elements}, {Protein, 52, perKg2005}, {Copper, 0.89, elements}, {Potassium, 3000, sodium19}}},
		{"male_19_30y", man(25), []want{{Magnesium, 400, elements}, {VitaminC, 90, vitamins}, {VitaminK, 120, vitamins}, {Protein, 56, perKg2005}, {Potassium, 3400, sodium19}, {Niacin, 16, vitamins}}},
		{"male_31_50y", man(40), []want{{Magnesium, 420, elements}, {Zinc, 11, elements}, {Fibre, 38, macros}, {Carbohydrate, 130, macros}, {Manganese, 2.3, elements}}},
		{"male_51_70y", man(60), []want{{VitaminB6, 1.7, vitamins}, {Fibre, 30, macros}, {Calcium, 1000, vitaminD}, {VitaminD, 15, vitaminD}}},
		{"male_over_70y", man(75), []want{{Calcium, 1200, vitaminD}, {VitaminD, 20, vitaminD}, {Sodium, 1500, sodium19}, {Selenium, 55, elements}}},
		{"female_9_13y", woman(10, NoState), []want{{Iron, 8, elements}, {Fibre, 26, macros}, {Calcium, 1300, vitaminD}, {Manganese, 1.6, elements}, {Potassium, 2300, sodium19}}},
		{"female_14_18y", woman(15, NoState), []want{{Iron, 15, elements}, {Magnesium, 360, elements}, {Protein, 46, perKg2005}, {Choline, 400, vitamins}, {VitaminC, 65, vitamins}}},
		{"female_19_30y", woman(30, NoState), []want{{Iron, 18, elements}, {Magnesium, 310, elements}, {Protein, 46, perKg2005}, {Folate, 400, vitamins}, {VitaminA, 700, vitamins}, {Copper, 0.9, elements}, {VitaminE, 15, vitamins}}},
		{"female_31_50y", woman(45, NoState), []want{{Magnesium, 320, elements}, {Iron, 18, elements}, {Zinc, 8, elements}, {Fibre, 25, macros}}},
		{"female_51_70y", woman(55, NoState), []want{{Iron, 8, elements}, {Calcium, 1200, vitaminD}, {VitaminB6, 1.5, vitamins}, {Fibre, 21, macros}}},
		{"female_over_70y", woman(82, NoState), []want{{VitaminD, 20, vitaminD}, {Calcium, 1200, vitaminD}, {VitaminB12, 2.4, vitamins}, {Potassium, 2600, sodium19}}},
		{"pregnancy_14_18y", woman(17, Pregnant1), []want{{Iron, 27, elements}, {Calcium, 1300, vitaminD}, {VitaminA, 750, vitamins}, {Zinc, 12, elements}, {Magnesium, 400, elements}}},
		{"pregnancy_19_30y", woman(28, Pregnant2), []want{{Folate, 600, vitamins}, {Iron, 27, elements}, {VitaminA, 770, vitamins}, {Choline, 450, vitamins}, {Carbohydrate, 175, macros}, {Protein, 71, perKg2005}}},
		{"pregnancy_31_50y", woman(38, Pregnant3), []want{{Magnesium, 360, elements}, {Iron, 27, elements}, {Fibre, 28, macros}, {Potassium, 2900, sodium19}, {Copper, 1, elements}}},
		{"lactation_14_18y", woman(18, Lactating1), []want{{VitaminA, 1200, vitamins}, {Zinc, 13, elements}, {Iron, 10, elements}, {Potassium, 2500, sodium19}}},
		{"lactation_19_30y", woman(29, Lactating1), []want{{VitaminA, 1300, vitamins}, {VitaminC, 120, vitamins}, {Carbohydrate, 210, macros}, {Iron, 9, elements}, {Choline, 550, vitamins}}},
		{"lactation_31_50y", woman(36, Lactating2), []want{{Folate, 500, vitamins}, {Zinc, 12, elements}, {Magnesium, 320, elements}, {Copper, 1.3, elements}, {Selenium, 70, elements}}},
	} {
		needs := mustFor(t, c.p, Options{})
		if needs.Stage != c.stage {
			t.Errorf("%s of %d months: stage %s, want %s", c.p.Sex, c.p.AgeMonths, needs.Stage, c.stage)
		}
		for _, w := range c.want {
			need := find(&needs, w.n)
			if need == nil || need.Target == nil || math.Abs(need.Target.Amount-w.amount) > 1e-9 {
				t.Errorf("%s: %s target %+v, want %g %s (%s)", c.stage, w.n, need, w.amount, w.n.Unit(), w.source)
				continue
			}
			if w.n == Fibre && c.p.AgeMonths < 48 {
				continue // its floor by the child's own energy: TestFibreOfSmallChildren
			}
			if !need.Shown && (need.Floor == nil || math.Abs(need.Floor.Amount-w.amount) > 1e-9) {
				t.Errorf("%s: %s floor %+v, want %g %s (%s)", c.stage, w.n, need.Floor, w.amount, w.n.Unit(), w.source)
			}
		}
	}
}

// Upper levels, and that only those which count food are enforced.
func TestPublishedUpperLevels(t *testing.T) {
	for _, c := range []struct {
		p      Person
		n      Nutrient
		want   float64 // 0: none may be enforced
		source string
	}{
		{Person{AgeMonths: 24, Sex: Male}, Zinc, 7, levelsUL},
		{Person{AgeMonths: 24, Sex: Male}, Copper, 1, levelsUL},
		{Person{AgeMonths: 24, Sex: Male}, VitaminD, 63, vitaminD},
		{Person{AgeMonths: 24, Sex: Male}, Retinol, 600, levelsUL},
		{Person{AgeMonths: 24, Sex: Male}, Sodium, 1200, sodium19},
		{Person{AgeMonths: 72, Sex: Female}, Manganese, 3, levelsUL},
		{Person{AgeMonths: 120, Sex: Female}, Retinol, 1700, levelsUL},
		{Person{AgeMonths: 120, Sex: Female}, Sodium, 1800, sodium19},
		{Person{AgeMonths: 360, Sex: Female}, Iron, 45, levelsUL},
		{Person{AgeMonths: 360, Sex: Female}, Selenium, 400, levelsUL},
		{Person{AgeMonths: 360, Sex: Female}, Calcium, 2500, vitaminD},
		{Person{AgeMonths: 360, Sex: Female}, Sodium, 2300, sodium19},
		{Person{AgeMonths: 360, Sex: Female}, Copper, 10, levelsUL},
		{Person{AgeMonths: 720, Sex: Male}, Calcium, 2000, vitaminD},
		{Person{AgeMonths: 900, Sex: Male}, Phosphorus, 3000, levelsUL},
		{Person{AgeMonths: 204, Sex: Female, State: Pregnant2}, Retinol, 2800, levelsUL},
		{Person{AgeMonths: 360, Sex: Female, State: Pregnant2}, Retinol, 3000, levelsUL},
		{Person{AgeMonths: 360, Sex: Female, State: Pregnant2}, Phosphorus, 3500, levelsUL},

		{Person{AgeMonths: 360, Sex: Female}, Magnesium, 0, "UL 350 mg: supplements and medicines only"},
		{Person{AgeMonths: 360, Sex: Female}, VitaminE, 0, "UL 1000 mg: supplements and fortificants only"},
		{Person{AgeMonths: 360, Sex: Female}, Niacin, 0, "UL 35 mg: supplements and fortificants only"},
		{Person{AgeMonths: 360, Sex: Female}, Folate, 0, "UL 1000 µg: folic acid only"},
		{Person{AgeMonths: 360, Sex: Female}, VitaminA, 0, "UL 3000 µg: preformed retinol only, see Retinol"},
		{Person{AgeMonths: 360, Sex: Female}, VitaminK, 0, "UL not determinable"},
		{Person{AgeMonths: 360, Sex: Female}, Potassium, 0, "UL not determined (2019)"},
	} {
		needs := mustFor(t, c.p, Options{})
		got := ceilingOf(&needs, c.n)
		if math.IsInf(got, 1) {
			got = 0
		}
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: ceiling of %s = %g, want %g %s (%s)", needs.Stage, c.n, got, c.want, c.n.Unit(), c.source)
		}
	}
}

func TestEARStandard(t *testing.T) {
	for _, c := range []struct {
		p      Person
		n      Nutrient
		want   float64
		source string
	}{
		{Person{AgeMonths: 360, Sex: Female}, Iron, 8.1, averages},
		{Person{AgeMonths: 360, Sex: Female}, VitaminC, 60, averages},
		{Person{AgeMonths: 360, Sex: Female}, Copper, 0.7, averages},
		{Person{AgeMonths: 360, Sex: Female}, Carbohydrate, 100, averages},
		{Person{AgeMonths: 360, Sex: Female, WeightKg: 60}, Protein, 0.66 * 60, averages},
		{Person{AgeMonths: 360, Sex: Female, State: Pregnant3}, Iron, 22, averages},
		{Person{AgeMonths: 120, Sex: Male}, Calcium, 1100, averages},
		{Person{AgeMonths: 360, Sex: Female}, Potassium, 2600, "no EAR: the AI, " + sodium19},
		{Person{AgeMonths: 360, Sex: Female}, Fibre, 25, "no EAR: the AI, " + macros},
	} {
		needs := mustFor(t, c.p, Options{Standard: StandardEAR})
		if got := floorOf(&needs, c.n); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: floor of %s = %g, want %g (%s)", needs.Stage, c.n, got, c.want, c.source)
		}
		if need := find(&needs, c.n); need.Target.Amount < need.Floor.Amount {
			t.Errorf("%s: target %g of %s under the floor %g", needs.Stage, need.Target.Amount, c.n, need.Floor.Amount)
		}
	}
}

// The basic standard asks for energy, protein and water, keeps the upper level
// of retinol, and nothing else of a person without conditions.
func TestBasicStandard(t *testing.T) {
	needs := mustFor(t, Person{AgeMonths: 360, Sex: Female}, Options{Standard: StandardBasic})
	if len(needs.List) != 3 || find(&needs, Energy) == nil || floorOf(&needs, Protein) == 0 || ceilingOf(&needs, Retinol) != 3000 || len(needs.Shares) != 0 {
		t.Errorf("%d needs, %d shares: %+v", len(needs.List), len(needs.Shares), needs.List)
	}
	if needs.Water.Total == nil || needs.Water.Total.Amount != 2.7 {
		t.Errorf("total water %+v, want 2.7 L (%s)", needs.Water.Total, macros)
	}
}

func TestWater(t *testing.T) {
	for _, c := range []struct {
		p             Person
		total, drinks float64
		source        string
	}{
		{Person{AgeMonths: 24, Sex: Male}, 1.3, 0.585, macros},
		{Person{AgeMonths: 360, Sex: Male}, 3.7, 1.665, macros},
		{Person{AgeMonths: 360, Sex: Female}, 2.7, 1.215, macros},
		{Person{AgeMonths: 360, Sex: Female, State: Lactating1}, 3.8, 1.71, macros},
		{Person{AgeMonths: 779, Sex: Female}, 2.7, 1.215, macros},
		{Person{AgeMonths: 780, Sex: Female}, 2.7, 1.6, "ESPEN geriatrics guideline (2018/2022), recommendation 61"},
		{Person{AgeMonths: 960, Sex: Male}, 3.7, 2.0, "ESPEN geriatrics guideline (2018/2022), recommendation 61"},
	} {
		w := mustFor(t, c.p, Options{}).Water
		if math.Abs(w.Total.Amount-c.total) > 1e-9 || math.Abs(w.Drinks.Amount-c.drinks) > 1e-9 {
			t.Errorf("%s of %d months: %g L in all, %g L as drinks; want %g and %g (%s)", c.p.Sex, c.p.AgeMonths, w.Total.Amount, w.Drinks.Amount, c.total, c.drinks, c.source)
		}
	}
}

func TestShares(t *testing.T) {
	for _, c := range []struct {
		months    int
		n         Nutrient
		low, high float64
		source    string
	}{
		{12, Fat, 30, 40, macros}, {47, Fat, 30, 40, macros}, {48, Fat, 25, 35, macros}, {227, Fat, 25, 35, macros}, {228, Fat, 20, 35, macros},
		{12, Protein, 5, 20, macros}, {48, Protein, 10, 30, macros}, {228, Protein, 10, 35, macros},
		{12, Carbohydrate, 45, 65, macros}, {600, Carbohydrate, 45, 65, macros},
	} {
		needs := mustFor(t, Person{AgeMonths: c.months, Sex: Male}, Options{})
		if low, high := shareOf(&needs, c.n); low != c.low || high != c.high {
			t.Errorf("%d months: %s %g to %g %%, want %g to %g (%s)", c.months, c.n, low, high, c.low, c.high, c.source)
		}
	}
}

// The Guidelines' shares are from memory: only that they are there, marked, and
// begin at two years.
func TestGuidelineSharesKeepTheirMark(t *testing.T) {
	toddler := mustFor(t, Person{AgeMonths: 23, Sex: Male}, Options{})
	child := mustFor(t, Person{AgeMonths: 24, Sex: Male}, Options{})
	if got := ceilingOf(&toddler, AddedSugars); got != 0 {
		t.Errorf("added sugars at 23 months: ceiling %g, want 0", got)
	}
	if find(&child, AddedSugars) != nil {
		t.Error("added sugars at 24 months have a ceiling in grams")
	}
	for _, n := range []Nutrient{AddedSugars, SaturatedFat} {
		if _, high := shareOf(&toddler, n); high != 100 {
			t.Errorf("%s at 23 months: %g %%, want no share", n, high)
		}
		marked := false
		for _, s := range child.Shares {
			marked = marked || (s.Nutrient == n && s.Max != nil && s.Max.Verified == "from memory")
		}
		if !marked {
			t.Errorf("%s at 24 months has no share marked from memory", n)
		}
	}
}

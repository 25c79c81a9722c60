package solver

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/verify"
)

// feedOf adds up a feed of a person: grams of powder and of liquid formula over
// the horizon, and mL of ready feed a day. 100 mL of ready feed are 67 kcal
// (label standard of 20 kcal per US fl oz; Codex STAN 72-1981 allows 60 to 70).
func feedOf(t testing.TB, all *foods.Table, p ration.PlanPerson) (powderG, liquidG, mlPerDay float64) {
	t.Helper()
	for _, line := range p.Foods {
		f, err := all.Food(line.Food)
		if err != nil {
			t.Fatal(err)
		}
		if !f.HasTag("infant-formula") {
			continue
		}
		kcal, _ := f.Per100g.Get(nutrients.Energy)
		mlPerDay += line.Grams * kcal / 67 / 14
		if f.Form == "infant_formula_powder" {
			powderG += line.Grams
		} else {
			liquidG += line.Grams
		}
	}
	return powderG, liquidG, mlPerDay
}

// formulaPacksG is the formula in the packs of a plan, powder and liquid, in g.
func formulaPacksG(packs []ration.PlanPack) (powder, liquid float64) {
	for _, k := range packs {
		switch {
		case !strings.HasPrefix(k.Food, "infant formula"):
		case strings.Contains(k.Food, "powder"):
			powder += float64(k.Count) * k.NetG
		default:
			liquid += float64(k.Count) * k.NetG
		}
	}
	return powder, liquid
}

// A formula-fed infant of 5 kg: the volume lies between the published rules,
// one tenth more is bought, and every feed's water is stored and boiled.
func TestFormulaVolumeWaterAndHeat(t *testing.T) {
	req := rationtest.Request(t, rationtest.Infant("Liv", 3, 5, nutrients.FormulaFed))
	plan := plantest.MustMake(t, req)
	powder, liquid, ml := feedOf(t, req.Table, plan.People[0])
	if low, high := 150.0*5, 165.0*5; ml < low || ml > high {
		t.Errorf("%g mL of ready feed a day, want %g to %g (WHO: 150 mL/kg; American Academy of Pediatrics: 75 mL per 453 g)", ml, low, high)
	}
	if liquid > 0 || len(plan.People[0].Foods) != 1 {
		t.Errorf("eats %v, want one powder alone", plan.People[0].Foods)
	}
	if packs, _ := formulaPacksG(plan.Packs); packs < 1.1*powder-1e-6 {
		t.Errorf("%g g of powder in packs, want a tenth over the %g g drunk", packs, powder)
	}
	// 90 mL of water in 100 mL of feed, since powder takes up about 10 mL
	// (common practice), a tenth made and not drunk, a tenth of water spare,
	// and a litre a day for bottles and hands.
	const water = 0.088
	litres := 14*1.0 + 1.1*1.1*water*10*ml/1000*14
	if plan.Totals.WaterL < litres || plan.Totals.WaterL > 1.05*litres {
		t.Errorf("%g L of water stored, want about %g", plan.Totals.WaterL, litres)
	}
	// From 15 °C to boiling: 4.186 kJ/kg/K over 85 K (definitional).
	heat := 1.1 * water * 10 * ml / 1000 * 14 * 4.186 * 85 / 1000
	if plan.Totals.HeatMJ < heat || plan.Totals.HeatMJ > 1.3*heat {
		t.Errorf("%g MJ of heat, want about %g: all water of the feed is boiled", plan.Totals.HeatMJ, heat)
	}
	for _, part := range []string{"boiled water of at least 70 °C", "made fresh; what stands longer than 2 hours", "weaker or stronger", "No honey"} {
		if !saysRule(plan.People[0], part) {
			t.Errorf("no rule says %q", part)
		}
	}
}

// Where there is no heat, no cooking or little water, the feed is ready to
// feed, in the same volume.
func TestReadyToFeedWhereWaterOrHeatIsShort(t *testing.T) {
	household := []nutrients.Person{rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed), rationtest.Adult("Arvid", 35, nutrients.Male)}
	limit := func(v float64) *float64 { return &v }
	base := rationtest.Request(t, household...)
	base.Within = 0.1
	with := plantest.MustMake(t, base)
	wantPowder, _, volume := feedOf(t, base.Table, with.People[0])
	if wantPowder <= 0 {
		t.Fatal("without a limit the feed is no powder: the test shows nothing")
	}
	for _, c := range []struct {
		name   string
		change func(*ration.Request)
	}{
		{"no heat", func(r *ration.Request) { r.Limits.HeatMJ = limit(0) }},
		{"no cooking", func(r *ration.Request) { r.Cook = ration.CookNone }},
		{"little water", func(r *ration.Request) { r.Limits.WaterL = limit(with.Totals.WaterL - 12) }},
		{"powder excluded", func(r *ration.Request) { r.Without = []string{"infant formula powder, milk based, median"} }},
	} {
		t.Run(c.name, func(t *testing.T) {
			req := rationtest.Request(t, household...)
			req.Within = 0.1
			c.change(req)
			plan := plantest.MustMake(t, req)
			if plan.Status == ration.StatusInfeasible {
				t.Fatalf("nothing fits: %v", plan.Conflict)
			}
			powder, liquid, ml := feedOf(t, req.Table, plan.People[0])
			if liquid <= 0 || powder > wantPowder/2 {
				t.Errorf("%g g of powder and %g g of ready-to-feed, want ready-to-feed", powder, liquid)
			}
			if math.Abs(ml-volume) > 1e-6*volume {
				t.Errorf("%g mL a day, %g without the limit: the feed must not change", ml, volume)
			}
			for _, f := range plan.People[0].Foods {
				if strings.Contains(f.Food, "soy") {
					t.Errorf("gets %s beside milk-based formula: kinds are not mixed", f.Food)
				}
			}
		})
	}
}

// No objective and no limit reduces the feed. Under a budget that feeds the
// infant and little else, the closest ration still gives all of it; under one
// that does not even pay for the formula, there is no ration at all.
func TestNoLimitReducesFormula(t *testing.T) {
	household := []nutrients.Person{rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed), rationtest.Adult("Arvid", 35, nutrients.Male)}
	const ml = 163 * 5.5 // AAP: 2.5 US fl oz per pound and day, 163 mL/kg
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
		req := rationtest.Request(t, household...)
		req.Least, req.Within, req.Standard = least, 0.3, nutrients.StandardBasic
		if _, _, got := feedOf(t, req.Table, plantest.MustMake(t, req).People[0]); math.Abs(got-ml) > 1e-6*ml {
			t.Errorf("least %s: %g mL a day, want %g", least, got, ml)
		}
	}
	for _, c := range []struct {
		budget  float64
		closest bool
	}{{90, true}, {20, false}} {
		req := rationtest.Request(t, household...)
		req.Limits.Budget, req.Standard = &c.budget, nutrients.StandardBasic
		plan := plantest.MustMake(t, req)
		if plan.Status != ration.StatusInfeasible || len(plan.Conflict) == 0 {
			t.Fatalf("budget %g: %s, conflict %v; want nothing to fit", c.budget, plan.Status, plan.Conflict)
		}
		if (plan.Closest != nil) != c.closest {
			t.Fatalf("budget %g: closest ration %v, want one: %v", c.budget, plan.Closest != nil, c.closest)
		}
		for _, w := range plan.WaysOut {
			if rationtest.ContainsText(w.Change, "formula") {
				t.Errorf("budget %g: a way out is %q", c.budget, w.Change)
			}
		}
		if !c.closest {
			continue
		}
		powder, liquid, got := feedOf(t, req.Table, plan.Closest.People[0])
		if math.Abs(got-ml) > 1e-5*ml {
			t.Errorf("budget %g: the closest ration gives %g mL of formula a day, want %g", c.budget, got, ml)
		}
		packsPowder, packsLiquid := formulaPacksG(plan.Closest.Packs)
		if packsPowder < 1.1*powder*(1-1e-6) || packsLiquid < 1.1*liquid*(1-1e-6) {
			t.Errorf("budget %g: the closest ration's packs hold %g g of powder for %g drunk", c.budget, packsPowder, powder)
		}
		if slices.ContainsFunc(plan.Closest.Shortfalls, func(s ration.Shortfall) bool { return s.Person == "Liv" }) {
			t.Errorf("budget %g: the closest ration is short for the infant: %v", c.budget, plan.Closest.Shortfalls)
		}
	}
}

// When every formula is excluded, the exclusions give way and the plan says so.
func TestExclusionsLeaveTheInfantMilk(t *testing.T) {
	all := rationtest.Table(t)
	req := rationtest.Request(t, rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed))
	for _, f := range all.Foods {
		if f.HasTag("infant-formula") {
			req.Without = append(req.Without, f.Name)
		}
	}
	plan := plantest.MustMake(t, req)
	if _, _, ml := feedOf(t, all, plan.People[0]); ml < 150*5.5 {
		t.Errorf("%g mL of formula a day, want at least 150 mL/kg (WHO)", ml)
	}
	if !slices.ContainsFunc(plan.Notes, func(n string) bool { return strings.Contains(n, "every milk that Liv can be fed by is excluded") }) {
		t.Errorf("the notes %q do not say that the exclusion does not hold", plan.Notes)
	}
}

// An infant whose family eats vegan is planned soy-based formula, others
// milk-based; a severe allergy in the kitchen brings the other kind in.
func TestKindOfFormula(t *testing.T) {
	vegan := rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed)
	vegan.Conditions = []nutrients.Condition{nutrients.Vegan}
	allergic := rationtest.Adult("Arvid", 35, nutrients.Male)
	allergic.Allergies = []nutrients.Allergy{{Allergen: "milk", Level: nutrients.AllergyHousehold}}
	for _, c := range []struct {
		name   string
		people []nutrients.Person
		soy    bool
	}{
		{"plain", []nutrients.Person{rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed)}, false},
		{"vegan", []nutrients.Person{vegan}, true},
		{"beside a severe milk allergy", []nutrients.Person{rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed), allergic}, true},
	} {
		m, err := model.Build(rationtest.Request(t, c.people...))
		if err != nil {
			t.Fatal(err)
		}
		open := m.OpenTo(m.Eaters[0])
		if len(open) == 0 {
			t.Errorf("%s: no formula", c.name)
		}
		for _, f := range open {
			if soy := !slices.Contains(f.Allergens, "milk"); soy != c.soy {
				t.Errorf("%s: may get %s", c.name, f.Name)
			}
		}
	}
}

// Breast milk comes without pack, water or fuel, and the mother's needs rise:
// 3.8 L of total water instead of 2.7 (IOM 2005), and 500 mL of milk or so that
// her energy pays for. Without a mother in the file the plan asks for her.
func TestBreastFeeding(t *testing.T) {
	child := rationtest.Infant("Liv", 2, 5, nutrients.BreastFed)
	mother := rationtest.Adult("Randi", 29, nutrients.Female)
	nursing := mother
	nursing.State = nutrients.Lactating1
	alone, both := rationtest.Request(t, child, mother), rationtest.Request(t, child, nursing)
	alone.Within, both.Within = 0.1, 0.1
	without, with := plantest.MustMake(t, alone), plantest.MustMake(t, both)
	if len(without.People[0].Foods) != 1 || without.People[0].Foods[0].Food != "human milk" || len(with.Packs) == 0 {
		t.Errorf("the infant gets %v, want human milk alone", without.People[0].Foods)
	}
	for _, k := range with.Packs {
		if k.Food == "human milk" || strings.HasPrefix(k.Food, "infant formula") {
			t.Errorf("buys %s for a breast-fed infant", k.Food)
		}
	}
	if got := *with.People[1].Need("water").Floor; got != 3.8 {
		t.Errorf("the nursing mother's water is %g L, want 3.8 (%s)", got, iomWater)
	}
	if more := *with.People[1].Need("energy").Floor - *without.People[1].Need("energy").Floor; more < 300 {
		t.Errorf("the nursing mother gets %g kcal more, want 300 at least (IOM 2002/2005: 330 in the first half-year)", more)
	}
	asks := func(p *ration.Plan) bool {
		return slices.ContainsFunc(p.Notes, func(n string) bool { return strings.Contains(n, "nobody here is entered as breast-feeding") })
	}
	if !asks(without) || asks(with) {
		t.Errorf("the note about the mother: %v without one, %v with one", asks(without), asks(with))
	}
}

// From six months: milk by age, iron-rich food twice a day and 11 mg of iron
// (IOM 2001), textures by age, no honey, no cow's milk to drink, no salt.
func TestInfantsFromSixMonths(t *testing.T) {
	usda := usdaRows(t)
	vegetarian := rationtest.Infant("Liv", 7, 0, nutrients.FormulaFed)
	vegetarian.Conditions = []nutrients.Condition{nutrients.Vegetarian}
	for _, c := range []struct {
		person    nutrients.Person
		low, high float64 // mL of formula a day
		source    string
	}{
		{rationtest.Infant("Liv", 6, 0, nutrients.FormulaFed), 720, 960, "24 to 32 US fl oz at 6 to 8 months (chelmsfordpediatrics.com food guide)"},
		{vegetarian, 720, 960, "24 to 32 US fl oz at 6 to 8 months (chelmsfordpediatrics.com food guide)"},
		{rationtest.Infant("Liv", 10, 0, nutrients.FormulaFed), 500, 960, "two cups of milk (UNICEF) to 32 US fl oz"},
		{rationtest.Infant("Liv", 10, 0, nutrients.MixedFed), 250, 480, "half of the formula"},
		{rationtest.Infant("Liv", 8, 0, nutrients.BreastFed), 0, 0, "breast-fed"},
	} {
		req := rationtest.Request(t, c.person)
		req.Within = 0.1
		plan := plantest.MustMake(t, req)
		if plan.Status == ration.StatusInfeasible {
			t.Fatalf("%v: nothing fits: %v", c.person, plan.Conflict)
		}
		p := plan.People[0]
		if _, _, ml := feedOf(t, req.Table, p); ml < c.low || ml > c.high {
			t.Errorf("%d months, %s: %g mL of formula a day, want %g to %g (%s)", c.person.AgeMonths, c.person.Feeding, ml, c.low, c.high, c.source)
		}
		cereal, meat, iron, spooned := 0.0, 0.0, 0.0, 0.0
		for _, line := range p.Foods {
			f, err := req.Table.Food(line.Food)
			if err != nil {
				t.Fatal(err)
			}
			perGram, _ := f.Per100g.Get(nutrients.Iron)
			if row := usda[line.NDB]; row != nil {
				perGram = row["iron_mg"]
			}
			iron += perGram * line.Grams / 100 / 14
			switch line.Food {
			case "infant oat cereal, dry", "infant rice cereal, dry":
				cereal += line.Grams / 14
			case "infant beef, strained", "infant chicken, strained", "infant turkey, strained", "infant beef, junior", "infant chicken, junior":
				meat += line.Grams / 14
			}
			for _, word := range []string{"green beans", "carrots", "squash", "sweet potatoes", "applesauce", "peas", "peaches", "pears", "prunes"} {
				if strings.HasPrefix(line.Food, "infant "+word) {
					spooned += line.Grams / 14
				}
			}
			if c.person.AgeMonths < 8 && f.Texture != "puree" && !rules.IsMilkFeed(f) {
				t.Errorf("%d months: gets %s, which is no puree (PAHO/WHO 2003)", c.person.AgeMonths, f.Name)
			}
		}
		if servings := cereal/15 + meat/55; servings < 2*(1-1e-6) {
			t.Errorf("%d months, %s: %g servings of iron-rich food a day, want 2 (AAP and CDC iron advice; 15 g dry cereal by 21 CFR 101.12(b), 55 g meat by 9 CFR 317.312)",
				c.person.AgeMonths, c.person.Feeding, servings)
		}
		if iron < 11*(1-1e-6) {
			t.Errorf("%d months, %s: %g mg of iron a day, want 11 (%s)", c.person.AgeMonths, c.person.Feeding, iron, iom2001)
		}
		if least := map[bool]float64{true: 80, false: 40}[c.person.AgeMonths >= 9]; spooned < least*(1-1e-6) {
			t.Errorf("%d months: %g g of fruit and vegetables a day, want %g (own planning rule)", c.person.AgeMonths, spooned, least)
		}
		if !saysRule(p, "Iron: ") || !saysRule(p, "of it from the milk") {
			t.Errorf("%d months: nothing says where the iron comes from", c.person.AgeMonths)
		}
		rationtest.CheckForbidden(t, req, plan)
		checkSection(t, p)
	}
}

// Where water or heat is short a feed is powder or ready to feed, never some of
// each, and the check finds both beside each other.
func TestFormulaIsOfOneForm(t *testing.T) {
	infant := rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed)
	free := rationtest.Request(t, infant)
	free.Within = 0.1
	with := plantest.MustMake(t, free)
	for _, litres := range []float64{0.5, 1, 3, 6} {
		req := rationtest.Request(t, infant)
		most := with.Totals.WaterL - litres
		req.Limits.WaterL, req.Within = &most, 0.1
		plan := plantest.MustMake(t, req)
		if plan.Status == ration.StatusInfeasible {
			t.Fatalf("%g L less: nothing fits: %v", litres, plan.Conflict)
		}
		powder, liquid, ml := feedOf(t, req.Table, plan.People[0])
		if powder > 1e-6 && liquid > 1e-6 {
			t.Errorf("%g L less: %g g of powder and %g g ready to feed", litres, powder, liquid)
		}
		if liquid <= 0 || math.Abs(ml-163*5.5) > 1e-3 {
			t.Errorf("%g L less: %g g ready to feed, %g mL a day", litres, liquid, ml)
		}
	}
	powder, ready := "infant formula powder, milk based, median", "infant formula, milk based, ready to feed, computed"
	both := *with
	both.People = slices.Clone(with.People)
	both.People[0].Foods = append(slices.Clone(with.People[0].Foods), ration.PersonFood{Food: ready, Grams: 200})
	if with.People[0].Foods[0].Food != powder {
		t.Fatalf("eats %v, want powder", with.People[0].Foods)
	}
	if !slices.ContainsFunc(verify.Check(free, &both), func(v verify.Violation) bool {
		return v.Person == "Liv" && strings.HasPrefix(v.Limit, "formula as powder and ready to feed")
	}) {
		t.Error("the check does not find powder and ready to feed beside each other")
	}
}

// What an infant's milk gives over an upper level is told with the reason, and
// is no limit. UL of zinc at 0 to 6 months 4 mg, at 7 to 12 months 5 mg, of
// retinol 600 µg (IOM DRI 2001).
func TestInfantsPassUpperLevelsInWords(t *testing.T) {
	for _, c := range []struct {
		months int
		kg, ul float64
	}{{3, 6, 4}, {8, 8, 5}} {
		req := rationtest.Request(t, rationtest.Infant("Liv", c.months, c.kg, nutrients.FormulaFed))
		req.Within = 0.1
		p := plantest.MustMake(t, req).People[0]
		zinc := p.Need("zinc")
		if zinc == nil || zinc.Amount <= c.ul || zinc.Ceiling != nil {
			t.Fatalf("%d months: zinc %+v: the test shows nothing", c.months, zinc)
		}
		if !saysRule(p, "over the upper level of "+strconv.FormatFloat(c.ul, 'f', -1, 64)+". It is shown and not enforced") {
			t.Errorf("%d months: nothing says why %g mg of zinc pass %g", c.months, zinc.Amount, c.ul)
		}
		if !saysRule(p, "1 scoop to 30 mL of water") || !saysRule(p, "ready to feed takes no water") {
			t.Errorf("%d months: no water and scoops of a feed", c.months)
		}
	}
}

// The figures that are shown are those of the infant's own weight: an infant of
// 4 kg on the milk of its weight is not told that it lacks what one of the
// reference body of 6 kg (IOM 2002/2005) needs.
func TestShownFiguresGoByOwnWeight(t *testing.T) {
	given, err := nutrients.For(rationtest.Infant("Liv", 3, 4, nutrients.FormulaFed), nutrients.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range given.List {
		// Calcium 200 mg (IOM 2011), protein 9.1 g and 1.52 g a kg (IOM 2002/2005).
		if n.Nutrient == nutrients.Calcium && math.Abs(n.Target.Amount-200*4/6.) > 1e-9 || n.Nutrient == nutrients.Protein && math.Abs(n.Target.Amount-1.52*4) > 0.02 {
			t.Errorf("%s: %g shown for 4 kg", n.Nutrient, n.Target.Amount)
		}
	}
}

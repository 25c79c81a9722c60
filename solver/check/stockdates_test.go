package check

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/verify"
)

// stocked is a request of people who have so many of each pack of a small shop, all
// with one date.
func stocked(t *testing.T, count float64, date string, packs ...string) *ration.Request {
	t.Helper()
	all := rationtest.SmallTable(t, rationtest.SmallShop...)
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Torgeir", 40, nutrients.Male)}, Table: all,
		Start: "2026-11-25", Days: 14, Time: time.Minute, Standard: nutrients.StandardBasic,
	}
	if packs == nil {
		for _, k := range all.Packs {
			packs = append(packs, k.Key)
		}
	}
	for _, key := range packs {
		req.Stock = append(req.Stock, foods.StockLine{Pack: ration.FindPack(&ration.Request{Table: all}, key), Count: count, BestBefore: date})
	}
	return req
}

// However much there is, nobody eats from it after its date: days are counted up
// to the date, and what is bought feeds those after it.
func TestNobodyEatsAheadOfADate(t *testing.T) {
	for _, last := range []int{1, 4, 9} {
		date := fmt.Sprintf("2026-%s", time.Date(2026, 11, 24+last, 0, 0, 0, 0, time.UTC).Format("01-02"))
		req := stocked(t, 200, date)
		out, err := Check(context.Background(), req, nil)
		if err != nil {
			t.Fatal(err)
		}
		if out.Balanced || out.Days != last || out.DaysEnergy != last {
			t.Errorf("200 of each pack dated on day %d: balanced %v, %d days, energy for %d, want %d", last, out.Balanced, out.Days, out.DaysEnergy, last)
		}
		if out.TopUp == nil || out.TopUp.Totals == nil {
			t.Fatalf("day %d: no completion", last)
		}
		for _, v := range verify.Check(req, out.TopUp) {
			t.Errorf("day %d: %v", last, v)
		}
		// What keeps holds the energy of the days that are left, by the table alone.
		for _, p := range out.TopUp.People {
			dated := map[string]float64{}
			for _, d := range p.ByDate {
				dated[d.Food] += d.Grams
			}
			kcal := 0.0
			for _, f := range p.Foods {
				per100, _ := rules.FoodNamed(req.Table, f.Food).Per100g.Get(nutrients.Energy)
				kcal += (f.Grams - dated[f.Food]) * per100 / 100
			}
			want := *p.Need(nutrients.Energy.Name()).Floor * float64(14-last)
			if kcal < want*(1-1e-6) {
				t.Errorf("day %d: %s has %g kcal for the days after it, needs %g", last, p.Name, kcal, want)
			}
		}
	}
}

// A plan that eats dated packs too late is found out by the independent check.
func TestCheckFindsWhatIsEatenTooLate(t *testing.T) {
	req := stocked(t, 200, "2026-11-28")
	out, err := Check(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	p := out.TopUp
	if len(p.People[0].ByDate) == 0 {
		t.Fatal("nothing is eaten by a date")
	}
	for _, spoil := range []struct {
		what string
		do   func(d *ration.DatedFood)
	}{
		{"a later day", func(d *ration.DatedFood) { d.Day += 5 }},
		{"more than is eaten", func(d *ration.DatedFood) { d.Grams *= 50 }},
		{"less than is dated", func(d *ration.DatedFood) { d.Grams = 0 }},
	} {
		was := p.People[0].ByDate[0]
		spoil.do(&p.People[0].ByDate[0])
		if len(verify.Check(req, p)) == 0 {
			t.Errorf("%s of %s is not found", spoil.what, was.Food)
		}
		p.People[0].ByDate[0] = was
	}
}

// A stock outside the shares of a balanced ration still gives what it holds: rice
// alone is no fat and too much carbohydrate, and feeds all the same.
func TestPlainStockGivesWhatItHolds(t *testing.T) {
	req := stocked(t, 2, "", "white-rice-907g-bag")
	out, err := Check(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	pack := req.Stock[0].Pack
	per100, _ := pack.Food.Per100g.Get(nutrients.Energy)
	holds := 2 * pack.NetG * per100 / 100
	gives := 0.0
	for _, p := range out.People {
		gives += p.Need(nutrients.Energy.Name()).Amount * 14
	}
	if math.Abs(gives-holds) > 1e-6*holds {
		t.Errorf("two bags of rice hold %g kcal, the share-out gives %g", holds, gives)
	}
}

// A stock without an infant's milk is judged all the same, whether what is in it
// keeps all days or goes off within them: the milk is what it lacks.
func TestStockWithoutMilkIsJudged(t *testing.T) {
	for _, bestBefore := range []string{"", "2026-11-30"} {
		req := stocked(t, 2, bestBefore, "white-rice-907g-bag")
		odd := rationtest.Infant("Odd", 3, 6, nutrients.FormulaFed)
		req.People = append(req.People, odd)
		out, err := Check(context.Background(), req, nil)
		if err != nil {
			t.Fatalf("rice best before %q: %v", bestBefore, err)
		}
		if out.Balanced || out.Days != 0 || !slices.ContainsFunc(out.Short, func(s StockShort) bool {
			return s.Person == "Odd" && s.Nutrient == "infant formula feed" && s.Amount == 0
		}) {
			t.Errorf("rice best before %q: balanced %v for %d days; short of %v", bestBefore, out.Balanced, out.Days, out.Short)
		}
	}
}

package synthetic

import (
	"math"
	"strconv"
	"testing"

	"rationwright/nutrients"
)

// Everyone drawn is a row that a household file may hold, and the sizes of households
// come in the shares of the table: within four standard deviations of each.
func TestDrawnByShares(t *testing.T) {
	const households = 4000
	all, err := shares()
	if err != nil {
		t.Fatal(err)
	}
	sizes := map[int]int{}
	ages := map[string]int{}
	for n := range households {
		people, err := Household(1, n)
		if err != nil {
			t.Fatal(err)
		}
		sizes[len(people)]++
		if _, _, err := nutrients.ReadHouseholdRows("drawn", nutrients.HouseholdRows(people)); err != nil {
			t.Fatalf("household %d: %v", n, err)
		}
		for _, p := range people {
			switch {
			case p.AgeMonths < 12:
				ages["infants"]++
			case p.AgeMonths >= 65*12:
				ages["older"]++
			}
		}
	}
	total := 0.0
	for _, s := range all[drawSize] {
		total += s.percent
	}
	if math.Abs(total-100) > 0.5 {
		t.Errorf("sizes come to %g %%", total)
	}
	for _, s := range all[drawSize] {
		n, err := strconv.Atoi(s.word)
		if err != nil {
			t.Fatal(err)
		}
		want := s.percent / 100
		if got := float64(sizes[n]) / households; math.Abs(got-want) > 4*math.Sqrt(want*(1-want)/households) {
			t.Errorf("%.2f %% of households have %d people, want about %g", 100*got, n, s.percent)
		}
	}
	if ages["infants"] == 0 || ages["older"] == 0 {
		t.Errorf("no infants or no older people: %v", ages)
	}
}

// Where one of several must be drawn, the shares come to 100 %.
func TestSharesComeToAll(t *testing.T) {
	all, err := shares()
	if err != nil {
		t.Fatal(err)
	}
	for _, what := range []string{drawAlone, drawPair, drawFamily, drawFeeding} {
		total := 0.0
		for _, s := range all[what] {
			total += s.percent
		}
		if total != 100 {
			t.Errorf("%s comes to %g %%", what, total)
		}
	}
}

// A share is about those from one birthday to the day before another, of one sex or both.
func TestSharesFit(t *testing.T) {
	women := share{from: 18, below: 50, sex: "f"}
	for _, c := range []struct {
		years int
		sex   string
		want  bool
	}{{17, "f", false}, {18, "f", true}, {49, "f", true}, {50, "f", false}, {30, "m", false}} {
		if got := women.fits(c.years, c.sex); got != c.want {
			t.Errorf("%s of %d: %v, want %v", c.sex, c.years, got, c.want)
		}
	}
	all := share{from: 0, below: 200}
	if !all.fits(0, "m") || !all.fits(95, "f") {
		t.Error("a share of all is about somebody only")
	}
}

// Men are drawn 14 cm taller than women in the mean (invented, for trials): within four
// standard errors of some hundreds of each.
func TestHeightsBySex(t *testing.T) {
	sum, n := map[nutrients.Sex]float64{}, map[nutrients.Sex]float64{}
	for k := range 3000 {
		people, err := Household(7, k)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range people {
			if p.HeightCm > 0 {
				sum[p.Sex] += p.HeightCm
				n[p.Sex]++
				if bmi := p.WeightKg / p.HeightCm / p.HeightCm * 10000; bmi < 17.5 || bmi > 42.5 {
					t.Errorf("%g kg at %g cm", p.WeightKg, p.HeightCm)
				}
			}
		}
	}
	women, men := n[nutrients.Female], n[nutrients.Male]
	if women < 100 || men < 100 {
		t.Fatalf("%g women and %g men have a height", women, men)
	}
	if more := sum[nutrients.Male]/men - sum[nutrients.Female]/women; math.Abs(more-14) > 4*7*math.Sqrt(1/women+1/men) {
		t.Errorf("men are %.1f cm taller, want about 14", more)
	}
}

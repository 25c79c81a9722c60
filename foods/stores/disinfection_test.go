package stores

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// waterOf is the kind of water that a row's condition stands for.
func waterOf(condition string) Water {
	if strings.HasPrefix(condition, "cloudy") {
		return CloudyWater
	}
	return ClearWater
}

var spoon = regexp.MustCompile(`([0-9]/[0-9]|[0-9]) teaspoon`)

// publishedDoses are the rows of the extract of the published tables, read apart from
// the program and from the file that it reads.
func publishedDoses(t *testing.T) []Disinfection {
	t.Helper()
	file, err := os.Open("../../testdata/stores/extract/disinfection.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []Disinfection
	for _, line := range lines[1:] {
		cell := func(column string) string { return line[slices.Index(lines[0], column)] }
		number := func(column string) float64 {
			if cell(column) == "" {
				return 0
			}
			v, err := strconv.ParseFloat(cell(column), 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		all = append(all, Disinfection{
			Agent: cell("agent_key"), Strength: cell("strength"), Condition: cell("water_condition"), Volume: cell("water_volume"), Dose: cell("dose"),
			Kind: cell("rule_type"), WaterL: number("water_l"), Drops: int(number("dose_drops")), ML: number("dose_ml"), Units: int(number("dose_units")),
			WaitMin: int(number("wait_min")), Chlorine: number("chlorine_mg_per_l"), Ref: Ref{Source: "extract of the published tables"},
		})
	}
	return all
}

// Every dose equals its published row at the row's own volume: drops, mL, spoons,
// tablets, waiting time and mg/L. The rows are those of CDC, EPA, Red Cross and MSF
// tables, in testdata.
func TestDoseEqualsItsRow(t *testing.T) {
	tried := 0
	for _, r := range publishedDoses(t) {
		if r.Kind != "dose" || r.Agent == "boil" || r.Agent == "sunlight" || r.Agent == "calcium-hypochlorite" || r.Strength == superseded {
			continue
		}
		volumes := []float64{r.WaterL}
		if strings.Contains(r.Volume, "or 1 L") {
			volumes = append(volumes, 1)
		}
		for _, v := range volumes {
			tried++
			got, err := Disinfect(r.Agent, r.Strength, v, waterOf(r.Condition))
			if err != nil {
				t.Errorf("%s %s %g L: %v", r.Agent, r.Strength, v, err)
				continue
			}
			name := r.Agent + ", " + r.Strength + ", " + r.Condition + ", " + r.Volume + " (" + r.Source + ")"
			if r.Drops > 0 && got.Drops != r.Drops {
				t.Errorf("%s: %d drops, want %d", name, got.Drops, r.Drops)
			}
			if r.ML > 0 && math.Abs(got.ML-r.ML) > 1e-12 {
				t.Errorf("%s: %g mL, want %g", name, got.ML, r.ML)
			}
			if m := spoon.FindStringSubmatch(r.Dose); m != nil && got.Teaspoons != m[1] {
				t.Errorf("%s: %q teaspoon, want %q", name, got.Teaspoons, m[1])
			}
			if got.Tablets != r.Units {
				t.Errorf("%s: %d tablets, want %d", name, got.Tablets, r.Units)
			}
			if got.WaitMin != r.WaitMin {
				t.Errorf("%s: wait %d min, want %d", name, got.WaitMin, r.WaitMin)
			}
			// The row's mg/L is rounded to a tenth; spoons are not the drops.
			if r.Drops > 0 && v == r.WaterL && math.Abs(got.ChlorineMgPerL-r.Chlorine) > 0.1 {
				t.Errorf("%s: %g mg/L chlorine, want %g", name, got.ChlorineMgPerL, r.Chlorine)
			}
			if math.Abs(got.TreatL-v) > 1e-12 {
				t.Errorf("%s: treats %g L, want %g", name, got.TreatL, v)
			}
		}
	}
	if tried < 39 {
		t.Errorf("only %d doses were compared with their rows", tried)
	}
}

// The published doses written out, so that a slip in the table shows too.
func TestPublishedDoses(t *testing.T) {
	tests := []struct {
		agent, strength string
		litres          float64
		water           Water
		drops, tablets  int
		teaspoons       string
		source          string
	}{
		{"bleach", "5.25", LPerGallon, ClearWater, 8, 0, "1/8", "CDC, Make Water Safe: 8 drops, scant 1/8 teaspoon, a gallon"},
		{"bleach", "6 percent", LPerGallon, CloudyWater, 16, 0, "1/4", "CDC, Make Water Safe: 16 drops, scant 1/4 teaspoon"},
		{"bleach", "5-6 percent", 5 * LPerGallon, ClearWater, 40, 0, "1/2", "CDC, Make Water Safe; state tables: 40 drops, 1/2 teaspoon for 5 gallons"},
		{"bleach", "5", 5 * LPerGallon, ColdWater, 80, 0, "1", "same: 80 drops, 1 teaspoon when cloudy or very cold"},
		{"bleach", "8.25%", LPerGallon, ClearWater, 6, 0, "1/8", "EPA, Emergency Disinfection: 6 drops a gallon"},
		{"bleach", "8.25", LPerQuart, ClearWater, 2, 0, "", "EPA: 2 drops a quart"},
		{"bleach", "8.25", LPerGallon, CloudyWater, 12, 0, "1/4", "EPA: double if cloudy; CDC leaflet about 1 mL"},
		{"bleach", "1", LPerQuart, ClearWater, 10, 0, "1/8", "EPA, older table: 10 drops a quart"},
		{"iodine", "2", LPerQuart, ClearWater, 5, 0, "", "EPA: 5 drops of 2 percent tincture a quart"},
		{"iodine", "2", LPerQuart, CloudyWater, 10, 0, "1/8", "EPA: 10 drops when cloudy"},
		{"chlorine-tablets", "8.5", 1, ClearWater, 0, 1, "", "Red Cross catalogue: 8.5 mg for 1 L"},
		{"chlorine-tablets", "67 mg", 20, ClearWater, 0, 2, "", "Red Cross catalogue: 67 mg for 10 L"},
		{"chlorine-tablets", "167", 40, CloudyWater, 0, 4, "", "Red Cross: 167 mg for 20 L; twice for cloudy"},
	}
	for _, tt := range tests {
		got, err := Disinfect(tt.agent, tt.strength, tt.litres, tt.water)
		if err != nil {
			t.Errorf("%s %s: %v (%s)", tt.agent, tt.strength, err, tt.source)
			continue
		}
		if got.Drops != tt.drops || got.Tablets != tt.tablets || got.Teaspoons != tt.teaspoons {
			t.Errorf("%s %s, %g L %s = %d drops, %d tablets, %q teaspoon; want %d, %d, %q (%s)", tt.agent, tt.strength,
				tt.litres, tt.water, got.Drops, got.Tablets, got.Teaspoons, tt.drops, tt.tablets, tt.teaspoons, tt.source)
		}
	}
}

// More water never takes less of an agent, no litre gets less than the table's
// weakest row of the strength, and none more than one measure above its
// strongest.
func TestDoseScales(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for _, a := range Agents() {
		for _, strength := range a.Strengths {
			for _, water := range []Water{ClearWater, CloudyWater} {
				if _, err := Disinfect(a.Key, strength, 20, water); err != nil {
					continue
				}
				last := Dose{}
				volume := LeastTreatedL
				for volume < 2000 {
					d, err := Disinfect(a.Key, strength, volume, water)
					if errors.Is(err, ErrNoDose) && last.VolumeL == 0 { // less than one tablet is for
						volume *= 1 + 0.2*random.Float64()
						continue
					}
					if err != nil {
						t.Fatal(err)
					}
					if d.Drops < last.Drops || d.Tablets < last.Tablets || d.ML < last.ML-1e-12 || d.StockML < last.StockML {
						t.Fatalf("%s %s %s: %g L takes less than %g L: %+v", a.Key, strength, water, volume, last.VolumeL, d)
					}
					if d.TreatL < volume {
						t.Fatalf("%s %s: treats %g L of %g", a.Key, strength, d.TreatL, volume)
					}
					low, high := math.Inf(1), 0.0
					for _, r := range d.Rows {
						if r.Drops > 0 {
							low = min(low, float64(r.Drops)/r.upToL)
							high = max(high, float64(r.Drops)/r.WaterL)
						}
					}
					if d.Drops > 0 {
						times := 1.0
						if strings.Contains(d.Rounding, "twice") {
							times = 2
						}
						if rate := float64(d.Drops) / d.TreatL; rate < times*low*(1-1e-3) || float64(d.Drops) > times*(high*d.TreatL+1)+1e-9 {
							t.Fatalf("%s %s %s %g L: %d drops, outside %g to %g a litre", a.Key, strength, water, volume, d.Drops, times*low, times*high)
						}
					}
					last = d
					volume *= 1 + 0.2*random.Float64()
				}
			}
		}
	}
}

func TestStrengthsOutsideTheTableAreRefused(t *testing.T) {
	for _, tt := range []struct{ agent, asked, nearest string }{
		{"bleach", "12", "8.25 percent"},
		{"bleach", "9.1%", "8.25 percent"},
		{"bleach", "0.99", "1 percent"},
		{"bleach", "0.1", "1 percent"},
		{"bleach", "strong", "5-6 percent"},
		{"bleach", "", "5-6 percent"},
		{"bleach", "NaN", "5-6 percent"},
		{"iodine", "10", "2 percent"},
		{"chlorine-tablets", "50", "33 mg tablet (20 mg chlorine)"},
	} {
		_, err := Disinfect(tt.agent, tt.asked, 10, ClearWater)
		var strength *StrengthError
		if !errors.As(err, &strength) || !errors.Is(err, ErrStrength) {
			t.Errorf("%s %q: error %v, want a StrengthError", tt.agent, tt.asked, err)
			continue
		}
		if number := strings.TrimSuffix(tt.asked, "%"); tt.agent == "bleach" && number < "A" && number != "" && strength.Why == "" {
			t.Errorf("bleach of %s: nothing says why it is refused", tt.asked)
		}
		if strength.Nearest != tt.nearest {
			t.Errorf("%s %q: nearest %q, want %q", tt.agent, tt.asked, strength.Nearest, tt.nearest)
		}
	}
	d, err := Disinfect("bleach", "8.25", 10, ClearWater)
	if err != nil || d.Strength != "8.25 percent" {
		t.Errorf("8.25: strength %q, %v", d.Strength, err)
	}
}

// Between 6 and 8.25 percent the chlorine aimed at lies between that of the two
// rows, in proportion, by hand: 8 drops of 0.05 mL of 6 percent, 60 mg/mL, in 3.785 L
// are 6.34 mg/L; 6 drops of 8.25 percent are 6.54; half way it is 6.44.
func TestBleachBetweenTwoStrengths(t *testing.T) {
	for percent, want := range map[string]string{"6": "", "7.125": "computed for 6.4 mg/L", "8.2": "computed for 6.5 mg/L", "6.1": "computed for 6.3 mg/L"} {
		d, err := Disinfect("bleach", percent, LPerGallon, ClearWater)
		if err != nil {
			t.Fatal(err)
		}
		if want != "" && !strings.Contains(d.Rows[0].Dose, want) {
			t.Errorf("%s percent: %q, want it %s", percent, d.Rows[0].Dose, want)
		}
	}
}

// Household bleach between the published strengths, 1, 5 to 6 and 8.25 percent
// (EPA, CDC): never more drops than the next weaker row, never fewer than the
// next stronger, and the chlorine that those rows give, 5.5 to 6.8 mg/L, with
// one drop more at most.
func TestBleachOfAnyStrength(t *testing.T) {
	drops := func(percent, litres float64, water Water) int {
		d, err := Disinfect("bleach", fmt.Sprint(percent), litres, water)
		if err != nil {
			t.Fatalf("%g percent: %v", percent, err)
		}
		return d.Drops
	}
	for _, litres := range []float64{LPerQuart, LPerGallon, 5 * LPerGallon} {
		for tenths := 10; tenths <= 90; tenths++ {
			percent := float64(tenths) / 10
			got := drops(percent, litres, ClearWater)
			most, least := drops(1, litres, ClearWater), drops(8.25, litres, ClearWater)
			switch {
			case percent > 8.25:
				most, least = least, 0
			case percent > 6:
				most = drops(6, litres, ClearWater)
			case percent < 5:
				least = drops(5, litres, ClearWater)
			}
			if got > most || got < least && percent < 8.25 {
				t.Errorf("%g percent, %g L: %d drops, outside %d to %d of the published strengths", percent, litres, got, least, most)
			}
			mgPerL := float64(got) * 0.05 * percent * 10 / litres
			if oneDrop := 0.05 * percent * 10 / litres; mgPerL < 5.2 || mgPerL > 6.8+oneDrop {
				t.Errorf("%g percent, %g L: %d drops give %.1f mg/L, want 5.2 to 6.8 and a drop", percent, litres, got, mgPerL)
			}
			if double := drops(percent, litres, CloudyWater); double != 2*got {
				t.Errorf("%g percent, %g L, cloudy: %d drops, want twice %d", percent, litres, double, got)
			}
		}
	}
	// By hand: 10 drops of 1 percent in a quart and 8 of 5 percent in a gallon
	// are 5.28 mg/L; × 3.785 L ÷ (3 percent × 10 mg/mL × 0.05 mL) = 13.3.
	if got := drops(3, LPerGallon, ClearWater); got != 14 {
		t.Errorf("3 percent, a gallon: %d drops, want 14", got)
	}
}

// Cloudy water has one rule: settle and filter, then twice the dose.
func TestCloudyWaterTakesTwice(t *testing.T) {
	for _, a := range Agents() {
		for _, strength := range a.Strengths {
			clear, err := Disinfect(a.Key, strength, 20, ClearWater)
			if err != nil {
				t.Fatal(err)
			}
			cloudy, err := Disinfect(a.Key, strength, 20, CloudyWater)
			if errors.Is(err, ErrNoDose) {
				continue
			}
			if err != nil || cloudy.Drops != 2*clear.Drops || cloudy.Tablets != 2*clear.Tablets || cloudy.StockML != 2*clear.StockML || !strings.Contains(cloudy.Text, "settle and filter") {
				t.Errorf("%s %s: %+v, want twice %+v, settled and filtered; %v", a.Key, strength, cloudy, clear, err)
			}
		}
	}
}

// One tablet in less water than it is for gives more than is safe to drink.
func TestNoTabletInTooLittleWater(t *testing.T) {
	for _, tt := range []struct {
		agent, strength string
		least           float64
	}{
		{"chlorine-tablets", "8.5", 1}, {"chlorine-tablets", "17", 5}, {"chlorine-tablets", "33", 5}, {"chlorine-tablets", "67", 10},
		{"chlorine-tablets", "167", 20}, {"chlorine-dioxide", "", 1}, {"iodine-tablets", "", 0.946},
	} {
		if _, err := Disinfect(tt.agent, tt.strength, tt.least*0.99, ClearWater); !errors.Is(err, ErrNoDose) || !strings.Contains(err.Error(), fmt.Sprintf("treat at least %g L", tt.least)) {
			t.Errorf("%s %s in %g L: %v, want no dose and the least volume", tt.agent, tt.strength, tt.least*0.99, err)
		}
		if d, err := Disinfect(tt.agent, tt.strength, tt.least, ClearWater); err != nil || d.Tablets != 1 {
			t.Errorf("%s %s in %g L: %d tablets, %v", tt.agent, tt.strength, tt.least, d.Tablets, err)
		}
	}
	// 100 mg of chlorine in 3.8 L are 26 mg/L.
	if _, err := Disinfect("chlorine-tablets", "167", 3.8, ClearWater); err == nil || !strings.Contains(err.Error(), "26 instead of 5 mg/L") || !strings.Contains(err.Error(), "sodium dichloroisocyanurate") {
		t.Errorf("167 mg in 3.8 L: %v", err)
	}
	// Several litres, several tablets: never more than the tablet's own mg/L.
	for _, tt := range []struct {
		strength string
		litres   float64
		tablets  int
	}{{"8.5", 3, 3}, {"8.5", 3.2, 4}, {"33", 12, 3}, {"67", 20.1, 3}, {"167", 40, 2}, {"167", 41, 3}} {
		d, err := Disinfect("chlorine-tablets", tt.strength, tt.litres, ClearWater)
		if err != nil || d.Tablets != tt.tablets || d.TreatL < float64(tt.tablets)*d.Rows[0].WaterL-1e-9 {
			t.Errorf("%s mg, %g L: %d tablets in %g L, %v; want %d", tt.strength, tt.litres, d.Tablets, d.TreatL, err, tt.tablets)
		}
	}
	for _, v := range []float64{0.0001, 0.099, 0, -1} {
		if _, err := Disinfect("bleach", "6", v, ClearWater); !errors.Is(err, ErrTreatLimit) {
			t.Errorf("%g L: %v, want ErrTreatLimit", v, err)
		}
		if _, err := Boil(v, 0, ClearWater); !errors.Is(err, ErrTreatLimit) {
			t.Errorf("boiling %g L: %v, want ErrTreatLimit", v, err)
		}
	}
}

func TestWaterThatCannotBeTreated(t *testing.T) {
	for _, water := range []Water{Chemical, Algae, Radioactive, Salts, FloodWater} {
		if _, err := Disinfect("bleach", "5", 10, water); !errors.Is(err, ErrUntreated) {
			t.Errorf("bleach in %s water: %v, want ErrUntreated", water, err)
		}
		if _, err := Boil(10, 0, water); !errors.Is(err, ErrUntreated) {
			t.Errorf("boiling %s water: %v, want ErrUntreated", water, err)
		}
	}
	for _, tt := range []struct {
		agent, strength string
		litres          float64
		water           Water
		want            error
	}{
		{"vinegar", "", 1, ClearWater, ErrAgent},
		{"bleach", "5", 0, ClearWater, ErrTreatLimit},
		{"bleach", "5", -1, ClearWater, ErrTreatLimit},
		{"bleach", "5", math.NaN(), ClearWater, ErrTreatLimit},
		{"bleach", "5", math.Inf(1), ClearWater, ErrTreatLimit},
		{"bleach", "5", 1, "muddy", ErrWaterWord},
		{"sunlight", "", 1, CloudyWater, ErrNoDose},
		{"chlorine-dioxide", "", 1, CloudyWater, ErrNoDose},
		{"chlorine-tablets", "17", 5, CloudyWater, ErrNoDose}, // "under 5 NTU only"
	} {
		if _, err := Disinfect(tt.agent, tt.strength, tt.litres, tt.water); !errors.Is(err, tt.want) {
			t.Errorf("Disinfect(%s, %s, %g, %s): %v, want %v", tt.agent, tt.strength, tt.litres, tt.water, err, tt.want)
		}
	}
}

// Every strength of the table can be asked for by the table's own words, small
// letters or not.
func TestStrengthsByTheirWords(t *testing.T) {
	for _, a := range Agents() {
		for _, s := range a.Strengths {
			for _, word := range []string{s, strings.ToLower(s), " " + strings.ToUpper(s)} {
				if d, err := Disinfect(a.Key, word, 20, ClearWater); err != nil || d.Strength != s {
					t.Errorf("%s %q: %s, %v", a.Key, word, d.Strength, err)
				}
			}
		}
	}
}

// A drop cannot be split: a cup of water is never given a quart's
// dose, the volume to treat is raised instead.
func TestSmallVolumesAreRaised(t *testing.T) {
	for _, tt := range []struct {
		agent, strength string
		treat           float64
	}{
		{"bleach", "5", 0.946}, {"bleach", "8.25", 0.946}, {"iodine", "2", 0.946},
	} {
		d, err := Disinfect(tt.agent, tt.strength, 0.2, ClearWater)
		if err != nil || math.Abs(d.TreatL-tt.treat) > 1e-9 {
			t.Errorf("%s %s for 0.2 L: treats %g L, %v; want %g", tt.agent, tt.strength, d.TreatL, err, tt.treat)
		}
	}
}

func TestIodineSaysWhoMustNotDrinkIt(t *testing.T) {
	d, err := Disinfect("iodine", "2", 4, ClearWater)
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, r := range d.DoNot {
		found = found || strings.Contains(r.Dose, "pregnant")
	}
	if !found {
		t.Errorf("iodine: no rule names pregnant women in %v", d.DoNot)
	}
	for _, agent := range []string{"bleach", "chlorine-tablets"} {
		d, err := Disinfect(agent, map[string]string{"bleach": "5", "chlorine-tablets": "67"}[agent], 10, ClearWater)
		if err != nil || len(d.DoNot) == 0 || !strings.Contains(d.DoNot[0].Dose, "Cryptosporidium") {
			t.Errorf("%s does not say that it fails on Cryptosporidium: %v %v", agent, d.DoNot, err)
		}
	}
	if d, err := Disinfect("chlorine-dioxide", "", 1, ClearWater); err != nil || d.WaitMin != 30 || d.WaitParasites != 240 {
		t.Errorf("chlorine dioxide waits %d and %d min, %v; want 30 and 240 (generic labelling, from memory)", d.WaitMin, d.WaitParasites, err)
	}
}

// CDC: 1 min, 3 min above 6,500 ft. EPA: 3 min above 5,000 ft, with 1,000 m
// printed beside it. The strictest reading rules.
func TestBoilingByAltitude(t *testing.T) {
	for _, tt := range []struct {
		metres  float64
		minutes int
	}{
		{-5, 1}, {0, 1}, {1000, 1}, {1000.1, 3}, {1524, 3}, {1981, 3}, {1982, 3}, {4000, 3}, {math.NaN(), 3},
	} {
		b, err := Boil(1, tt.metres, ClearWater)
		if err != nil || b.Minutes != tt.minutes {
			t.Errorf("Boil at %g m = %d min, %v; want %d (EPA memo WSG11; EPA page)", tt.metres, b.Minutes, err, tt.minutes)
		}
	}
	for _, r := range boilRules() {
		if math.Abs(r.UpToM-map[string]float64{"CDC": 6500 * MPerFoot, "EPA": 1000}[r.Agency]) > 0.5 {
			t.Errorf("%s: %g m", r.Agency, r.UpToM)
		}
	}
	if b, _ := Boil(1, 0, CloudyWater); len(b.Steps) == 0 {
		t.Error("cloudy water: nothing says to settle and filter it first")
	}
	// energy_to_boil_1_l_from_15c 0.356 MJ (4.186 × 85 / 1000) and a minute of
	// open boil at 500 W, 0.03 MJ (fuel_rules.csv).
	if b, _ := Boil(1, 0, ClearWater); math.Abs(b.HeatMJ-(0.356+0.03)) > 0.0005 {
		t.Errorf("heat to boil 1 L = %g MJ, want 0.386 ± 0.0005", b.HeatMJ)
	}
}

// CDC: a teaspoon in a quart, 5.2 mL in a litre; extension: 8 drops a gallon.
func TestOtherUsesOfBleach(t *testing.T) {
	if b := SanitiseContainer(LPerQuart); math.Abs(b.ML-MLPerTsp) > 0.05 {
		t.Errorf("sanitising a quart takes %g mL, want a teaspoon, %g (CDC, Make Water Safe)", b.ML, MLPerTsp)
	}
	for _, tt := range []struct {
		litres float64
		drops  int
	}{{LPerGallon, 8}, {5 * LPerGallon, 40}, {1, 3}} {
		if b := PretreatForStorage(tt.litres); b.Drops != tt.drops {
			t.Errorf("pretreating %g L takes %d drops, want %d (extension advice, 8 drops a gallon)", tt.litres, b.Drops, tt.drops)
		}
	}
}

// What a dose says in full, worked from the rows of the table: drops of 0.05 mL,
// teaspoons of 5 mL rounded up to an eighth, tablets that are not split, 1 part of a
// stock solution to 100 of water (10 mL a litre), bottles of 2 L. Twice the dose is twice
// the chlorine.
func TestDosesInFull(t *testing.T) {
	const (
		clear    = "; first settle and filter the water until it is clear"
		liquid   = "drops rounded up to whole ones, mL up to a tenth, teaspoons of 5 mL up to an eighth"
		tablets  = "whole tablets; fill up to the volume they are made for, as a tablet cannot be split"
		twice    = "; twice the dose for clear water"
		unsplit  = "; a drop cannot be split, so treat at least 1 US quart or 1 L"
		granules = "1 heaping teaspoon (1/4 oz) per 2 gal"
	)
	for _, tt := range []struct {
		agent, strength string
		litres          float64
		water           Water
		name            string
		text, rounding  string
		ml, mgPerL      float64
		treat           float64
		wait            int
	}{
		{"bleach", "5", 0.946, ClearWater, "sodium hypochlorite, unscented", "2 drops (0.1 mL)", liquid, 0.1, 6.1, 0.946, 30},
		{"bleach", "5", 0.25, ClearWater, "sodium hypochlorite, unscented", "2 drops (0.1 mL)", liquid + unsplit, 0.1, 6.1, 0.946, 30},
		{"bleach", "5", 0.25, ColdWater, "sodium hypochlorite, unscented", "4 drops (0.2 mL)" + clear, liquid + unsplit + twice, 0.2, 12.2, 0.946, 30},
		// An eighth of a teaspoon is 0.625 mL.
		{"bleach", "6", LPerGallon, ClearWater, "sodium hypochlorite, unscented", "8 drops, or 1/8 teaspoon (0.5 mL)", liquid, 0.5, 6.1, LPerGallon, 30},
		{"bleach", "6", LPerGallon, CloudyWater, "sodium hypochlorite, unscented", "16 drops, or 1/4 teaspoon (1 mL)" + clear, liquid + twice, 1, 12.2, LPerGallon, 30},
		// 40 drops and 2.5 mL for 5 gallons, twice that for 10.
		{"bleach", "5-6 percent", 37.854, ClearWater, "sodium hypochlorite, unscented", "80 drops, or 1 teaspoon (5 mL)", liquid, 5, 6.1, 37.854, 30},
		{"iodine", "", LPerQuart, ClearWater, "tincture of iodine, USP", "5 drops (0.25 mL)", liquid, 0.25, 0, LPerQuart, 30},
		{"chlorine-tablets", "67", 10, ClearWater, "sodium dichloroisocyanurate (NaDCC)", "1 tablet", tablets, 0, 4, 10, 30},
		{"chlorine-tablets", "167", 41, ClearWater, "sodium dichloroisocyanurate (NaDCC)", "3 tablets", tablets, 0, 5, 60, 30},
		{"chlorine-tablets", "167", 40, CloudyWater, "sodium dichloroisocyanurate (NaDCC)", "4 tablets" + clear, tablets + twice, 0, 10, 40, 30},
		{"chlorine-dioxide", "", 3, ClearWater, "chlorine dioxide tablets (generic)", "3 tablets", tablets, 0, 0, 3, 30},
		// "1 US quart or 1 L": one for a litre, for more one for each quart, 3 for 2 L.
		{"iodine-tablets", "", 1, ClearWater, "iodine tablets (generic)", "1 tablet", tablets, 0, 0, 1, 30},
		{"iodine-tablets", "", 2, ClearWater, "iodine tablets (generic)", "3 tablets", tablets, 0, 0, 2.838, 30},
		{"calcium-hypochlorite", "", 20, ClearWater, "calcium hypochlorite granules 65-70 percent", "200 mL of stock solution; 1 batch of stock: " + granules, "stock rounded up to a whole mL", 0, 5, 20, 30},
		{"calcium-hypochlorite", "", 12.31, ClearWater, "calcium hypochlorite granules 65-70 percent", "124 mL of stock solution; 1 batch of stock: " + granules, "stock rounded up to a whole mL", 0, 5, 12.31, 30},
		// A batch is 7.571 L, enough for 757.1 L.
		{"calcium-hypochlorite", "", 760, ClearWater, "calcium hypochlorite granules 65-70 percent", "7600 mL of stock solution; 2 batches of stock: " + granules, "stock rounded up to a whole mL", 0, 5, 760, 30},
		{"sunlight", "", 5, ClearWater, "solar disinfection in clear PET bottle", "3 bottles of at most 2 L: 6 h full sun", "whole bottles", 0, 0, 5, 360},
		{"sunlight", "", 2, ClearWater, "solar disinfection in clear PET bottle", "1 bottle of at most 2 L: 6 h full sun", "whole bottles", 0, 0, 2, 360},
	} {
		d, err := Disinfect(tt.agent, tt.strength, tt.litres, tt.water)
		if err != nil {
			t.Errorf("%s %s, %g L: %v", tt.agent, tt.strength, tt.litres, err)
			continue
		}
		if d.Name != tt.name || !strings.HasPrefix(d.Text, tt.text) || d.Rounding != tt.rounding || d.WaitMin != tt.wait ||
			math.Abs(d.ML-tt.ml) > 1e-9 || math.Abs(d.ChlorineMgPerL-tt.mgPerL) > 0.01 || math.Abs(d.TreatL-tt.treat) > 1e-9 {
			t.Errorf("%s %s, %g L: %+v\nwant %+v", tt.agent, tt.strength, tt.litres, d, tt)
		}
		if stock := d.StockML > 0; stock != (tt.agent == "calcium-hypochlorite") || (d.Bottles > 0) != (tt.agent == "sunlight") {
			t.Errorf("%s: %g mL of stock, %d bottles", tt.agent, d.StockML, d.Bottles)
		}
	}
	// A stock for water that takes twice: the table has no such rule for granules, so
	// that they are refused for it; where it had one the dose would be twice.
	rows := rulesFor("calcium-hypochlorite", "dose")
	d := Dose{VolumeL: 20}
	d.stock(rows[0], true)
	if d.StockML != 400 || d.ChlorineMgPerL != 10 || !strings.HasPrefix(d.Text, "400 mL of stock") {
		t.Errorf("twice the stock for 20 L: %+v, want 400 mL and 10 mg/L", d)
	}
	if got := scaled(rows, 20, 1, func(r Disinfection) float64 { return float64(r.Drops) }); got != 0 {
		t.Errorf("granules in %g drops", got)
	}
}

// Bleach that the table has no row for, by hand: at 4.5 percent the chlorine aimed at is
// that of 5 percent, 40 drops in 18.927 L or 5.28 mg/L, and a gallon takes 5.28 × 3.785 ÷
// (0.05 × 45) = 8.9 drops, 0.45 mL; over 8.25 percent it is that of 6 drops of it in a
// gallon, 6.54 mg/L: at 9 percent 6.54 × 18.927 ÷ (0.05 × 90) = 27.5 drops in five
// gallons, 5.5 in one. At 6.94 percent it is on the line from 40 drops of 6 percent in
// 18.927 L, 6.340, to 12 of 8.25 percent in 7.571 L, 6.538: 6.423, of which 18.927 L take
// 6.423 × 18.927 ÷ (0.05 × 69.4) = 35.03 drops.
func TestBleachWithoutARow(t *testing.T) {
	for _, tt := range []struct {
		percent       string
		litres        float64
		drops         int
		ml, mgPerLOne float64 // mL, and mg/L of a drop
	}{
		{"4.5", LPerGallon, 9, 0.5, 0.05 * 45 / LPerGallon},
		{"9", LPerGallon, 6, 0.3, 0.05 * 90 / LPerGallon},
		{"9", 5 * LPerGallon, 28, 1.4, 0.05 * 90 / 5 / LPerGallon},
		{"6.94", 5 * LPerGallon, 36, 1.8, 0.05 * 69.4 / 5 / LPerGallon},
	} {
		d, err := Disinfect("bleach", tt.percent, tt.litres, ClearWater)
		if err != nil || d.Drops != tt.drops || math.Abs(d.ML-tt.ml) > 1e-9 || math.Abs(d.ChlorineMgPerL-float64(tt.drops)*tt.mgPerLOne) > 0.01 {
			t.Errorf("%s percent, %g L: %d drops, %g mL, %.3f mg/L, %v; want %d, %g and %.3f", tt.percent, tt.litres, d.Drops, d.ML, d.ChlorineMgPerL, err,
				tt.drops, tt.ml, float64(tt.drops)*tt.mgPerLOne)
		}
	}
}

// The least and the most water that is treated are treated; what is said of it says
// for which altitude.
func TestLimitsOfTreatedWater(t *testing.T) {
	for _, litres := range []float64{0.1, 1e6} {
		if _, err := Boil(litres, 0, ClearWater); err != nil {
			t.Errorf("boiling %g L: %v", litres, err)
		}
		if _, err := Disinfect("bleach", "5", litres, ClearWater); err != nil {
			t.Errorf("bleach in %g L: %v", litres, err)
		}
	}
	if b, err := Boil(1, 1500, ClearWater); err != nil || !b.Known || b.Altitude != 1500 || len(b.Steps) != 0 {
		t.Errorf("at 1500 m: %+v, %v", b, err)
	}
	if b, err := Boil(1, math.NaN(), ClearWater); err != nil || b.Known || b.Altitude != 0 {
		t.Errorf("at an unknown altitude: %+v, %v", b, err)
	}
}

// Every row that forbids is among what must never be drunk, and no other; every kind of
// water that one of them is about can be named.
func TestNeverDrink(t *testing.T) {
	want := 0
	for _, r := range rows("disinfection") {
		if r.Text("rule_type") == "do_not" {
			want++
		}
	}
	never := NeverDrink()
	if len(never) != want || want == 0 {
		t.Errorf("%d rules, want %d", len(never), want)
	}
	for _, r := range never {
		if r.Kind != "do_not" {
			t.Errorf("%s: %s", r.Kind, r.Dose)
		}
	}
	if got := fmt.Sprint(Waters()); got != "[clear cloudy cold chemical algae radioactive salts flood]" {
		t.Errorf("kinds of water %s", got)
	}
}

// A row's words give its dose to no less water than the row's own volume: "1 quart or
// 1 L".
func TestVolumesOfARow(t *testing.T) {
	for _, d := range disinfections() {
		if d.WaterL > 0 && d.upToL < d.WaterL {
			t.Errorf("%s %s: the dose of %g L is given up to %g L", d.Agent, d.Strength, d.WaterL, d.upToL)
		}
	}
}

// However much water is treated, the wait for parasites is that of the rule, and the
// chlorine beyond the strongest row is that of it.
func TestMuchWater(t *testing.T) {
	if d, err := Disinfect("chlorine-dioxide", "", 300, ClearWater); err != nil || d.Tablets != 300 || d.WaitMin != 30 || d.WaitParasites != 240 {
		t.Errorf("300 L: %+v, %v, want 300 tablets and to wait 30 and 240 min", d, err)
	}
	if d, err := Disinfect("bleach", "9", LPerGallon, ClearWater); err != nil || !strings.Contains(d.Rows[0].Dose, "computed for 6.5 mg/L") {
		t.Errorf("9 percent: %+v, %v, want 6.5 mg/L as of 8.25 percent", d.Rows, err)
	}
	if d, err := Disinfect("bleach", "5", 10, ClearWater); err != nil || d.WaitParasites != 0 {
		t.Errorf("bleach does not reach parasites, and waits %d min for them, %v", d.WaitParasites, err)
	}
}

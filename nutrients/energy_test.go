package nutrients

import (
	"math"
	"os"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

// energyCheck is one row of testdata/nutrients/energy_checks.csv.
type energyCheck struct {
	set                   EnergySet
	body                  bodyState
	published, computed   float64 // kcal/day; published NaN where the report prints none
	tolerance             float64
	source, verified, key string
}

func readEnergyChecks(t *testing.T) []energyCheck {
	t.Helper()
	file, err := os.Open("../testdata/nutrients/energy_checks.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var format table.Format
	for _, c := range strings.Split("set,sex,age_y,height_cm,weight_kg,state,activity,published_kcal,computed_kcal,tolerance_kcal,source,verified,note", ",") {
		format.Columns = append(format.Columns, table.Column{Name: c, Presence: table.Present})
	}
	read, err := format.Read("energy_checks.csv", file)
	if err != nil {
		t.Fatal(err)
	}
	sets := map[string]EnergySet{setIOM2005: Energy2005, setNASEM2023: Energy2023}
	words := map[string]Activity{"sedentary": Inactive, "inactive": Inactive, "low_active": LowActive, "active": Active, "very_active": VeryActive, "any": LowActive}
	var checks []energyCheck
	for _, row := range read.Rows {
		c := energyCheck{set: sets[row.Text("set")], source: row.Text("source"), verified: row.Text("verified"), published: math.NaN()}
		age, _ := row.Float("age_y", 0, 120)
		c.body.AgeYears, c.body.AgeMonths = age, int(math.Round(12*age))
		c.body.Sex, c.body.Activity = Sex(row.Text("sex")), words[row.Text("activity")]
		c.body.HeightCm, _ = row.Float("height_cm", 0, 300)
		c.body.WeightKg, _ = row.Float("weight_kg", 0, 300)
		note := row.Text("note")
		switch row.Text("state") {
		case "pregnant":
			c.body.State = map[bool]State{true: Pregnant2, false: Pregnant3}[strings.Contains(note, "second trimester")]
		case "lactating":
			c.body.State = map[bool]State{true: Lactating1, false: Lactating2}[strings.Contains(note, "first 6")]
		}
		if v, ok := row.Float("published_kcal", 0, 1e4); ok {
			c.published = v
		}
		c.computed, _ = row.Float("computed_kcal", 0, 1e4)
		c.tolerance, _ = row.Float("tolerance_kcal", 0, 10)
		c.key = strings.Join([]string{row.Text("set"), row.Text("sex"), row.Text("age_y"), row.Text("height_cm"), row.Text("weight_kg"), row.Text("state"), row.Text("activity")}, " ")
		checks = append(checks, c)
	}
	if read.Err() != nil {
		t.Fatal(read.Err())
	}
	return checks
}

// The equations give what the reports print. A value counts here only where an
// independent copy of it was seen; the tolerance is that of the printed digits
// (weights to 0.1 kg, energy to 1 kcal).
func TestPublishedEnergyRequirements(t *testing.T) {
	d := mustData(t)
	adults, children := 0, 0
	for _, c := range readEnergyChecks(t) {
		if math.IsNaN(c.published) || fromMemory(c.verified) {
			continue
		}
		got, _, err := d.eer(c.set, &c.body)
		if err != nil || math.Abs(got.Amount-c.published) > c.tolerance {
			t.Errorf("EER(%s) = %.1f, %v; want %g ± %g (%s)", c.key, got.Amount, err, c.published, c.tolerance, c.source)
		}
		if c.body.AgeMonths < adultFrom {
			children++
		} else {
			adults++
		}
	}
	if adults < 48 || children < 3 {
		t.Errorf("%d adult and %d child values checked, want at least 48 and 3", adults, children)
	}
}

// The same coefficients worked out by other code, for every equation that has
// no published value that was seen: a guard on the arithmetic, no more.
func TestEnergyArithmetic(t *testing.T) {
	d := mustData(t)
	checked := 0
	for _, c := range readEnergyChecks(t) {
		got, _, err := d.eer(c.set, &c.body)
		if err != nil || math.Abs(got.Amount-c.computed) > 0.06 { // printed to 0.1 or 0.01 kcal
			t.Errorf("EER(%s) = %.2f, %v; the coefficients give %g", c.key, got.Amount, err, c.computed)
		}
		checked++
	}
	if checked != 120 {
		t.Errorf("%d rows, want 120", checked)
	}
}

// Cells of the Guidelines' table, appendix 2, of which a copy was seen.
func TestGuidelinesTable(t *testing.T) {
	for _, c := range []struct {
		years    int
		sex      Sex
		activity Activity
		want     float64
	}{
		{2, Male, Inactive, 1000}, {3, Female, LowActive, 1200}, {10, Male, Active, 2200}, {16, Female, Inactive, 1800}, {17, Male, LowActive, 2800},
		{20, Male, Inactive, 2600}, {35, Female, LowActive, 2000}, {48, Male, Active, 2800}, {63, Female, Active, 2000}, {80, Male, LowActive, 2200}, {80, Female, Inactive, 1600},
	} {
		p := Person{AgeMonths: 12 * c.years, Sex: c.sex, Activity: c.activity}
		needs := mustFor(t, p, Options{EnergySet: EnergyGuidelines})
		if needs.EER.Amount != c.want || needs.EER.Kind != "DGA" {
			t.Errorf("%d years, %s, %s: %g kcal (%s), want %g (Dietary Guidelines 2020-2025, appendix 2)", c.years, c.sex, c.activity, needs.EER.Amount, needs.EER.Kind, c.want)
		}
	}
	plain := mustFor(t, Person{AgeMonths: 360, Sex: Female}, Options{EnergySet: EnergyGuidelines})
	second := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: Pregnant2}, Options{EnergySet: EnergyGuidelines})
	third := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: Pregnant3}, Options{EnergySet: EnergyGuidelines})
	if second.EER.Amount-plain.EER.Amount != 340 || third.EER.Amount-plain.EER.Amount != 452 {
		t.Errorf("pregnancy adds %g and %g kcal, want 340 and 452 (NAP record 12584 p. 316)", second.EER.Amount-plain.EER.Amount, third.EER.Amount-plain.EER.Amount)
	}
}

// More activity never lowers the requirement from five years on (below, the
// published 2023 equations cross for a body of that size), and a later
// trimester never lowers it either.
func TestEnergyRisesWithActivityAndPregnancy(t *testing.T) {
	everyPerson(func(p Person) {
		if p.AgeMonths < 5*12 {
			return
		}
		for _, set := range allSets {
			last := 0.0
			for _, a := range activities {
				p.Activity = Activity(a)
				now := mustFor(t, p, Options{EnergySet: set}).EER.Amount
				if now < last {
					t.Errorf("%s, %s, %s, %s: %g kcal when %s, %g with less activity", ageText(p.AgeMonths), p.Sex, p.State, set, now, a, last)
				}
				last = now
			}
		}
	})
	for years := 14; years <= 50; years++ {
		for _, set := range allSets {
			last := 0.0
			for _, p := range []State{NoState, Pregnant1, Pregnant2, Pregnant3} {
				now := mustFor(t, Person{AgeMonths: 12 * years, Sex: Female, State: p}, Options{EnergySet: set}).EER.Amount
				if now < last {
					t.Errorf("%d years, %s: %g kcal when %q, %g before", years, set, now, p, last)
				}
				last = now
			}
		}
	}
}

// Where only years are known, energy is that of the middle of the year.
func TestHalfYearPoint(t *testing.T) {
	given := mustFor(t, Person{AgeMonths: 366, Sex: Male}, Options{})
	year := mustFor(t, Person{AgeMonths: 360, YearsOnly: true, Sex: Male}, Options{})
	if given.EER.Amount != year.EER.Amount {
		t.Errorf("30 years: %g kcal; 30 years 6 months: %g; want the same", year.EER.Amount, given.EER.Amount)
	}
}

func TestLeanEnergy(t *testing.T) {
	for _, c := range []struct {
		p    Person
		want float64
	}{
		{Person{AgeMonths: 19 * 12, Sex: Male}, 0.97},
		{Person{AgeMonths: 65*12 - 1, Sex: Female}, 0.97},
		{Person{AgeMonths: 19*12 - 1, Sex: Male}, 1},
		{Person{AgeMonths: 65 * 12, Sex: Female}, 1},
		{Person{AgeMonths: 30 * 12, Sex: Female, State: Pregnant1}, 1},
		{Person{AgeMonths: 30 * 12, Sex: Female, State: Lactating2}, 1},
	} {
		needs := mustFor(t, c.p, Options{LeanEnergy: true})
		if got := floorOf(&needs, Energy) / needs.EER.Amount; math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s of %d months, %q: floor %g × the requirement, want %g", c.p.Sex, c.p.AgeMonths, c.p.State, got, c.want)
		}
	}
}

// The reference bodies at the ages that the report's own energy table names for
// them: 6, 11 and 16 years (IOM DRI 2002/2005, reference children).
func TestReferenceBodies(t *testing.T) {
	d := mustData(t)
	for _, c := range []struct {
		sex                Sex
		months             float64
		heightCm, weightKg float64
	}{
		{Male, 4, 62, 6}, {Male, 24, 86, 12}, {Male, 72, 115, 20}, {Female, 72, 115, 20}, {Male, 132, 144, 36}, {Female, 132, 144, 37},
		{Male, 192, 174, 61}, {Female, 192, 163, 54}, {Male, 228, 177, 70}, {Female, 228, 163, 57}, {Female, 1000, 163, 57}, {Male, 0, 62, 6},
	} {
		b, err := d.referenceBody(c.sex, c.months)
		if err != nil || b.HeightCm != c.heightCm || b.WeightKg != c.weightKg {
			t.Errorf("%s at %g months: %g cm, %g kg, %v; want %g, %g", c.sex, c.months, b.HeightCm, b.WeightKg, err, c.heightCm, c.weightKg)
		}
	}
	// Between them a child only grows.
	for _, sex := range []Sex{Female, Male} {
		last := body{}
		for months := 0.0; months < 240; months++ {
			b, err := d.referenceBody(sex, months)
			if err != nil || b.HeightCm < last.HeightCm || b.WeightKg < last.WeightKg {
				t.Errorf("%s at %g months: %+v after %+v, %v", sex, months, b, last, err)
			}
			last = b
		}
	}
}

// Worked by hand with the coefficients of NASEM 2023 as data/energy.csv has
// them: low active, 30 years, 165 cm.
func TestEnergyOfPregnancyAndNursing2023(t *testing.T) {
	for _, c := range []struct {
		name string
		p    Person
		want float64
	}{
		// 70 kg now is 65.81 kg before: BMI 24.2, normal weight. Week 20.
		{"second trimester", Person{State: Pregnant2, WeightKg: 70}, 2674.80},
		// 75 kg now is 64.93 kg before: BMI 23.8. Week 34.
		{"third trimester", Person{State: Pregnant3, WeightKg: 75}, 2854.04},
		// 85 kg now is 80.81 kg before: BMI 29.7, overweight.
		{"overweight before", Person{State: Pregnant2, WeightKg: 85}, 2777.80},
		// 45.81 kg and 85.81 kg before: BMI 16.8 and 31.5.
		{"underweight before", Person{State: Pregnant2, WeightKg: 50}, 2570.80},
		{"obese before", Person{State: Pregnant2, WeightKg: 90}, 2628.80},
		{"first half-year", Person{State: Lactating1, WeightKg: 65}, 2643.57},
		{"second half-year", Person{State: Lactating2, WeightKg: 65}, 2623.57},
	} {
		c.p.AgeMonths, c.p.Sex, c.p.HeightCm, c.p.Activity = 360, Female, 165, LowActive
		needs := mustFor(t, c.p, Options{EnergySet: Energy2023})
		if got := needs.EER.Amount; math.Abs(got-c.want) > 0.05 {
			t.Errorf("%s: %.2f kcal, want %.2f", c.name, got, c.want)
		}
	}
}

// Infants and toddlers by the 2005 equations, 89 kcal per kg less 100 and what growing takes, 175,
// 56, 22 and 20 kcal (IOM 2002/2005, data/energy.csv): no class of activity. The Guidelines take them
// under a year, without a table of their own.
func TestInfantsBy2005(t *testing.T) {
	for _, c := range []struct {
		months int
		kg     float64
		want   float64
	}{{3, 6, 89*6 - 100 + 175}, {5, 7, 89*7 - 100 + 56}, {6, 7, 89*7 - 100 + 56}, {7, 8, 89*8 - 100 + 22}, {12, 10, 89*10 - 100 + 22}, {13, 10, 89*10 - 100 + 20}, {35, 14, 89*14 - 100 + 20}} {
		for _, set := range []EnergySet{Energy2005, EnergyGuidelines} {
			if set == EnergyGuidelines && c.months >= 12 {
				continue
			}
			p := Person{AgeMonths: c.months, Sex: Male, WeightKg: c.kg, Activity: VeryActive}
			if c.months < 12 {
				p.Feeding = BreastFed
			}
			if needs := mustFor(t, p, Options{EnergySet: set}); math.Abs(needs.EER.Amount-c.want) > 1e-9 || needs.EER.Kind != "EER" {
				t.Errorf("%s, %d months, %g kg: %+v, want %g kcal", set, c.months, c.kg, needs.EER, c.want)
			}
		}
	}
}

// Without a weight a pregnant woman is the reference body with what she has gained: 57 kg and
// 1.25 + 0.42 kg for each week from 13 on, the weight that gives the same need where it is written.
func TestEnergyOfAPregnantReferenceBody(t *testing.T) {
	for state, gained := range map[State]float64{Pregnant2: 1.25 + 0.42*7, Pregnant3: 1.25 + 0.42*21} {
		without := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: state}, Options{})
		with := mustFor(t, Person{AgeMonths: 360, Sex: Female, State: state, HeightCm: 163, WeightKg: 57 + gained}, Options{})
		if math.Abs(without.EER.Amount-with.EER.Amount) > 1e-9 {
			t.Errorf("%s: %g kcal, at %g kg %g", state, without.EER.Amount, 57+gained, with.EER.Amount)
		}
	}
}

// A requirement of which a coefficient was not seen in a copy says so, with its name.
func TestEnergyFromMemoryIsMarked(t *testing.T) {
	for _, c := range []struct {
		name string
		p    Person
		set  EnergySet
		want string // what the mark begins with
	}{
		{"a man", Person{AgeMonths: 360, Sex: Male}, Energy2023, "yes: "},
		{"a man by 2005", Person{AgeMonths: 360, Sex: Male}, Energy2005, "yes: "},
		{"a boy of a year", Person{AgeMonths: 12, Sex: Male}, Energy2023, "from memory: deposit"}, // the deposit of 20 kcal
		{"a girl of a year", Person{AgeMonths: 12, Sex: Female}, Energy2023, "yes: "},
		{"a pregnant woman", Person{AgeMonths: 360, Sex: Female, State: Pregnant2}, Energy2023, "from memory: equation of pregnancy"},
		{"a woman who breast-feeds", Person{AgeMonths: 360, Sex: Female, State: Lactating1}, Energy2023, "from memory: increment"},
		{"a pregnant woman by 2005", Person{AgeMonths: 360, Sex: Female, State: Pregnant2}, Energy2005, "yes: "},
	} {
		if got := mustFor(t, c.p, Options{EnergySet: c.set}).EER.Verified; !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: marked %q, want %q", c.name, got, c.want)
		}
	}
}

// Between two reference bodies height and weight lie on the straight line, to a tenth: half way from
// 6 kg and 62 cm at four months to 9 kg and 71 cm at nine (IOM 2002/2005).
func TestBodiesBetween(t *testing.T) {
	d := mustData(t)
	for _, c := range []struct {
		sex                    Sex
		months, height, weight float64
	}{{Male, 6.5, 66.5, 7.5}, {Female, 5, 63.8, 6.6}, {Male, 102, 129.5, 28}, {Female, 102, 129.5, 28.5}, {Male, 210, 175.5, 65.5}} {
		if b, err := d.referenceBody(c.sex, c.months); err != nil || math.Abs(b.HeightCm-c.height) > 1e-9 || math.Abs(b.WeightKg-c.weight) > 1e-9 {
			t.Errorf("%s at %g months: %g cm, %g kg, %v; want %g and %g", c.sex, c.months, b.HeightCm, b.WeightKg, err, c.height, c.weight)
		}
	}
	// A row of the table of medians is that weight: 4.5 kg at a month, and half way on the line.
	for months, want := range map[float64]float64{0: 3.3, 1: 4.5, 1.5: 5.1, 2: 5.6, 5.5: 7.7} {
		if got := d.medianWeight(Male, months).Value; math.Abs(got-want) > 1e-9 {
			t.Errorf("a boy of %g months: %g kg, want %g (WHO)", months, got, want)
		}
	}
}

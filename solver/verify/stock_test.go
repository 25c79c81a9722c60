package verify

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestStockWhoseTimeIsOver: a line of the stock counts as on hand until its last day, the
// first of a plan from the 25th of November included: that of its date, or of an open pack by
// how long it keeps, whichever comes first. What is past is not on hand, eaten or not.
func TestStockWhoseTimeIsOver(t *testing.T) {
	rice := &foods.Food{Name: "rice", Keeping: &foods.Keeping{AfterOpenHours: 72}} // the day of opening and two more
	for _, c := range []struct {
		name         string
		best, opened string
		last         int // day of the plan, 0: past
	}{
		{"no date", "", "", 14},
		{"long past", "2026-10-01", "", 0},
		{"two days past", "2026-11-23", "", 0},
		{"the day before", "2026-11-24", "", 0},
		{"the first day", "2026-11-25", "", 1},
		{"the second day", "2026-11-26", "", 2},
		{"the last day but one", "2026-12-07", "", 13},
		{"the last day", "2026-12-08", "", 14},
		{"after the last day", "2026-12-09", "", 14},
		{"opened, over the day before", "", "2026-11-22", 0},
		{"opened, good for the first day", "", "2026-11-23", 1},
		{"opened, good for two days", "2027-11-23", "2026-11-24", 2},
		{"opened, with a date before", "2026-11-24", "2026-11-24", 0},
	} {
		pack := &foods.Pack{Key: "rice-1kg", Food: rice, NetG: 1000}
		line := foods.StockLine{Pack: pack, Count: 2, BestBefore: c.best, Opened: c.opened}
		for _, taken := range []int{0, 1, 2, 3} {
			check := &checker{
				req:  &ration.Request{Days: 14, Start: "2026-11-25", Stock: []foods.StockLine{line}},
				plan: &ration.Plan{Packs: []ration.PlanPack{{Pack: pack.Key, Count: 3, FromStock: taken}}},
			}
			if got := check.end(line); got != c.last {
				t.Errorf("%s: good until day %d, want %d", c.name, got, c.last)
			}
			stored{check}.stock()
			on := 2
			if c.last == 0 {
				on = 0
			}
			if want := taken > on; (len(check.found) > 0) != want {
				t.Errorf("%s: %d of the 2 taken: %v, want a finding %v", c.name, taken, check.found, want)
			}
		}
	}
}

// TestKindADay: the most of a kind a day, on average, by hand: what a day allows, or twice a
// sitting where nothing is said of a day, on so many days of seven, and a seventh of what a
// week allows if that is less, in each unit by itself. Rows of safety and others do not mix.
func TestKindADay(t *testing.T) {
	row := func(m kinds.Measure, value float64, unit string) kinds.CapRow {
		return kinds.CapRow{Kind: "fish", Measure: m, Who: "all", Value: value, Unit: unit}
	}
	none := math.Inf(1)
	week, day, sitting, days := row(kinds.Week, 210, "g"), row(kinds.Day, 70, "g"), row(kinds.Sitting, 50, "g"), row(kinds.DaysWeek, 3, "days")
	safe := row(kinds.Day, 14, "g")
	safe.Safety = true
	cups, caffeine := row(kinds.Day, 2, "cup-eq"), row(kinds.Sitting, 200, "mg caffeine")
	scaled := day
	scaled.Scaled = true
	child := row("scale", 0.5, "of an adult")
	child.Kind = kinds.AnyKind
	old := day
	old.FromMonths = 481
	pregnant := row(kinds.Day, 7, "g")
	pregnant.Who = "pregnant"
	p := nutrients.Person{Name: "Signe", AgeMonths: 480, Sex: nutrients.Female}
	for _, c := range []struct {
		name   string
		unit   string
		safety bool
		want   float64
		rows   []kinds.CapRow
	}{
		{"nothing", "g", false, none, nil},
		{"a day", "g", false, 70, []kinds.CapRow{day}},
		{"a sitting, twice a day", "g", false, 100, []kinds.CapRow{sitting}},
		{"a day goes before a sitting", "g", false, 70, []kinds.CapRow{sitting, day}},
		{"a week", "g", false, 30, []kinds.CapRow{week}},
		{"a day and a week", "g", false, 30, []kinds.CapRow{day, week}},
		{"a day on three days", "g", false, 30, []kinds.CapRow{day, days}}, // 70 × 3 / 7
		{"a sitting on three days", "g", false, 300.0 / 7, []kinds.CapRow{sitting, days}},
		{"a day on three days, and less a week", "g", false, 10, []kinds.CapRow{day, days, row(kinds.Week, 70, "g")}},
		{"cups on three days", "cup-eq", false, 6.0 / 7, []kinds.CapRow{cups, days}},
		{"caffeine of two sittings on three days", "mg caffeine", false, 1200.0 / 7, []kinds.CapRow{caffeine, days}},
		{"days alone are no amount", "g", false, none, []kinds.CapRow{days}},
		{"of another unit", "g", false, none, []kinds.CapRow{cups, days}},
		{"a week of another unit", "g", false, 70, []kinds.CapRow{day, row(kinds.Week, 2, "cup-eq")}},
		{"a day of another unit", "cup-eq", false, 2.0 / 7, []kinds.CapRow{row(kinds.Day, 0.1, "g"), row(kinds.Sitting, 0.1, "mg caffeine"), row(kinds.Week, 2, "cup-eq")}},
		{"seven days", "g", false, 70, []kinds.CapRow{day, row(kinds.DaysWeek, 7, "days")}},
		{"the fewer days", "g", false, 10, []kinds.CapRow{day, days, row(kinds.DaysWeek, 1, "days")}},
		{"safety alone", "g", true, 14, []kinds.CapRow{safe, day, days}}, // the days are a planning rule
		{"beside safety", "g", false, 30, []kinds.CapRow{safe, day, days}},
		{"half of an adult's", "g", false, 35, []kinds.CapRow{scaled, child}},
		{"half on three days", "g", false, 15, []kinds.CapRow{scaled, child, days}},
		{"for those who are older", "g", false, none, []kinds.CapRow{old}},
		{"in pregnancy", "g", false, 70, []kinds.CapRow{day, pregnant}},
	} {
		check := &checker{req: &ration.Request{Days: 14}, plan: &ration.Plan{}, capRows: map[string][]*kinds.CapRow{}}
		for i := range c.rows {
			check.capRows[c.rows[i].Kind] = append(check.capRows[c.rows[i].Kind], &c.rows[i])
		}
		if got := check.kindPerDay(&p, "fish", c.unit, c.safety); !(math.Abs(got-c.want) <= 1e-9 || got == c.want) {
			t.Errorf("%s: at most %g a day, want %g", c.name, got, c.want)
		}
	}
}

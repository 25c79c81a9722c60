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

// TestStockFeedsUntilItsDay: what can be eaten out of packs of 100 g taken from the stock, of a
// plan of seven days from the 25th of November in which all may eat 700 g, 100 g a day; each sum
// by hand. What is good to day d gives no more than d × 100 g, together with what goes before it;
// packs that keep longest are taken first.
func TestStockFeedsUntilItsDay(t *testing.T) {
	type lot struct {
		count float64
		date  string
	}
	const past, day1, day2, day3, day4, day6, day7 = "2026-11-24", "2026-11-25", "2026-11-26", "2026-11-27", "2026-11-28", "2026-11-30", "2026-12-01"
	for _, c := range []struct {
		name   string
		stock  []lot
		taken  int
		bought int
		want   float64 // g
	}{
		{"none taken", []lot{{9, day2}}, 0, 0, 0},
		{"one that keeps", []lot{{9, ""}}, 1, 0, 100},
		{"all that is eaten", []lot{{9, ""}}, 7, 0, 700},
		{"more than is eaten", []lot{{9, ""}}, 9, 0, 900}, // what is eaten in all is held elsewhere
		{"more than there is", []lot{{3, ""}}, 5, 0, 300},
		{"past its date", []lot{{9, past}}, 5, 0, 0},
		{"the first day", []lot{{9, day1}}, 5, 0, 100},
		{"less than until day 2", []lot{{9, day2}}, 1, 0, 100},
		{"just until day 2", []lot{{9, day2}}, 2, 0, 200},
		{"more than until day 2", []lot{{9, day2}}, 3, 0, 200},
		{"more than until day 3", []lot{{9, day3}}, 5, 0, 300},
		{"until the last day but one", []lot{{9, day6}}, 9, 0, 600},
		{"until the last day", []lot{{9, day7}}, 9, 0, 900},
		{"two dates, each too much", []lot{{5, day2}, {5, day4}}, 10, 0, 400},
		{"two dates, the later in the first's room", []lot{{5, day2}, {1, day4}}, 6, 0, 300},   // 200 + 100
		{"two dates, the earlier in the later's room", []lot{{1, day2}, {5, day4}}, 6, 0, 400}, // 100 + 500, at most 400
		{"two dates, the later written first", []lot{{5, day4}, {1, day2}}, 6, 0, 400},
		{"three dates", []lot{{3, day1}, {3, day2}, {1, day4}}, 7, 0, 300}, // 100, + 300 at most 200, + 100
		{"a date and what keeps", []lot{{5, day2}, {1, ""}}, 6, 0, 300},    // 200 + 100
		{"what keeps is taken first", []lot{{5, day2}, {1, ""}}, 2, 0, 200},
		{"and a pack of the date", []lot{{5, day2}, {4, ""}}, 5, 0, 500},
		{"two lines of a date", []lot{{1, day2}, {2, day2}}, 3, 0, 200},
		{"beside what is bought", []lot{{5, day2}}, 3, 2, 400}, // 200 + 2 × 100
	} {
		for _, heads := range []float64{1, 2} { // two eat twice as much, of packs of 200 g
			food, other := &foods.Food{Name: "rice"}, &foods.Food{Name: "oats"}
			pack := &foods.Pack{Key: "rice-100g", Food: food, NetG: 100 * heads}
			food.Packs = []*foods.Pack{pack}
			req := &ration.Request{Days: 7, Start: "2026-11-25", Table: &foods.Table{Foods: []*foods.Food{food, other}, Packs: []*foods.Pack{pack}}}
			for _, l := range c.stock {
				req.Stock = append(req.Stock, foods.StockLine{Pack: pack, Count: l.count, BestBefore: l.date},
					foods.StockLine{Pack: &foods.Pack{Key: "oats-100g", Food: other, NetG: 100}, Count: 9})
			}
			plan := &ration.Plan{Packs: []ration.PlanPack{{Pack: pack.Key, Food: food.Name, Count: c.taken + c.bought, FromStock: c.taken}}}
			eats := &diner{heads: heads, needs: nutrients.Needs{Person: nutrients.Person{Name: "Signe"}}, may: map[*foods.Food]amount{food: {most: 700, window: 700}, other: {most: 700, window: 700}}}
			never := &diner{heads: 3, needs: nutrients.Needs{Person: nutrients.Person{Name: "Odd"}}, may: map[*foods.Food]amount{food: {most: 700, window: 700, bar: "an allergy"}}}
			check := &checker{req: req, plan: plan, diners: []*diner{eats, never}}
			taken := map[*foods.Pack]int{pack: c.taken}
			if got := check.fromStockG(food, taken) + float64(c.bought)*100*heads; math.Abs(got-c.want*heads) > 1e-9 {
				t.Errorf("%s, %g people: %g g, want %g", c.name, heads, got, c.want*heads)
			}
			if got := check.fromStockG(other, taken); got != 0 {
				t.Errorf("%s: %g g of a food of which none is taken", c.name, got)
			}
			if c.taken+c.bought == 0 {
				continue
			}
			for _, over := range []float64{-1, 0, 1} { // g that each eats
				check.found = nil
				eats.eaten = []helping{{food, c.want + over}}
				stored{check}.packs()
				if want := over > 0; (len(check.found) > 0) != want {
					t.Errorf("%s, %g people: %g g more than there is: %v, want a finding %v", c.name, heads, over, check.found, want)
				}
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

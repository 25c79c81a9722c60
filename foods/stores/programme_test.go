package stores

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// fiveYears is the length of the simulations, in months.
const fiveYears = 60

// replay follows a simulation pack by pack from what it says it bought, ate
// and threw away alone, and returns what goes against a sound store.
func replay(l *ProgrammeLine, start string, s Simulation) (late, waste, least int, faults []string) {
	first, _ := time.Parse(time.DateOnly, start)
	var store []time.Time // last day of each pack, kept in order
	put := func(n int, day time.Time) {
		for range n {
			at := len(store)
			for at > 0 && store[at-1].After(day) {
				at--
			}
			store = append(store[:at], append([]time.Time{day}, store[at:]...)...)
		}
	}
	if l.Item.Stock == nil {
		put(l.Item.Target, first.AddDate(0, 0, l.KeepDays))
	}
	for _, d := range l.Item.Stock {
		put(d.Count, d.UseBy)
	}
	least = math.MaxInt
	for m, state := range s.Months {
		begin, _ := time.Parse(time.DateOnly, state.Month)
		last := monthStart(first, m+1).AddDate(0, 0, -1)
		out := 0
		for out < len(store) && store[out].Before(begin) {
			out++
		}
		if out != state.Wasted {
			faults = append(faults, state.Month+": wasted")
		}
		store = store[out:]
		waste += out
		put(state.Bought, begin.AddDate(0, 0, l.KeepDays))
		if state.Eaten > len(store) {
			faults = append(faults, state.Month+": eaten more than there is")
			return
		}
		for _, day := range store[:state.Eaten] {
			if day.Before(last) {
				late++
			}
		}
		store = store[state.Eaten:]
		least = min(least, len(store))
	}
	return late, waste, least, faults
}

// From a fresh store, whatever the target, the keeping time, the temperature
// and the day: in five years nothing is out of date even on the last day of
// the month in which it is eaten, nothing is wasted, the store never falls
// below the target, and no fewer packs a month would do for it.
func TestSteadyStateOverFiveYears(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 5))
	starts := []string{"2026-01-31", "2026-02-28", "2027-08-30", "2028-02-29", "2026-11-01"}
	for n := range 300 * *campaign {
		item := StoreItem{
			Pack: "p", Target: 1 + random.IntN(60), KeepMonths: 3 + 57*random.Float64(), Price: 1.25, HasPrice: true,
		}
		item.EatPerMonth = EatsPerMonth(item.Target, 14)
		temp := 5 + 30*random.Float64()
		start := starts[n%len(starts)]
		p, err := SteadyProgramme([]StoreItem{item}, start, temp)
		if err != nil {
			t.Fatal(err)
		}
		l := &p.Lines[0]
		if l.TurnMonths == 0 {
			if l.NoWaste || l.Why == "" {
				t.Fatalf("%+v: no turn, yet no reason", l)
			}
			continue
		}
		s, err := Simulate(l, start, fiveYears)
		if err != nil {
			t.Fatal(err)
		}
		late, waste, least, faults := replay(l, start, s)
		if late > 0 || waste > 0 || least < item.Target || len(faults) > 0 || s.Tight > 0 || s.Wasted > 0 || s.Least != least {
			t.Fatalf("%d packs of %.1f months at %.1f °C from %s, turn %d: %d late, %d wasted, least %d, %v; it says %+v",
				item.Target, item.KeepMonths, temp, start, l.TurnMonths, late, waste, least, faults, s)
		}
		// What was eaten is the rhythm, and the cost its price.
		if want := (fiveYears*item.Target + l.TurnMonths - 1) / l.TurnMonths; s.Eaten != want || s.Bought != want {
			t.Fatalf("eaten %d, bought %d in five years; want %d = ⌈60 × %d / %d⌉", s.Eaten, s.Bought, want, item.Target, l.TurnMonths)
		}
		if math.Abs(s.Cost-1.25*float64(s.Bought)) > 1e-9 || math.Abs(l.YearCost-l.PerMonth*12*1.25) > 1e-9 {
			t.Fatalf("cost %g and %g a year", s.Cost, l.YearCost)
		}
	}
}

// A store that is old, uneven or too small at the start: it is filled up at
// once and stays full, everything the household can eat in time is eaten, and
// the simulation never eats a pack after its day.
func TestSimulateFromAnOldStore(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 6))
	const start = "2026-12-01"
	first, _ := parseDay(start)
	wasted := 0
	for range 300 * *campaign {
		item := StoreItem{Pack: "p", Target: 5 + random.IntN(30), KeepMonths: 12 + 12*random.Float64()}
		item.EatPerMonth = float64(item.Target) * (0.2 + 2*random.Float64())
		for range 1 + random.IntN(5) {
			item.Stock = append(item.Stock, DatedPacks{1 + random.IntN(15), first.AddDate(0, 0, random.IntN(500)-60)})
		}
		p, err := SteadyProgramme([]StoreItem{item}, start, 21)
		if err != nil {
			t.Fatal(err)
		}
		l := &p.Lines[0]
		s, err := Simulate(l, start, fiveYears)
		if err != nil {
			t.Fatal(err)
		}
		_, waste, least, faults := replay(l, start, s)
		if least < item.Target || len(faults) > 0 || waste != s.Wasted {
			t.Fatalf("least %d of %d, wasted %d (%d said), %v: %+v", least, item.Target, waste, s.Wasted, faults, item)
		}
		// Waste is possible only from what was there at the start: packs out of
		// date then, or more of them than can be eaten by their day.
		sooner := 0
		for _, state := range s.Months {
			sooner += state.Wasted
		}
		hopeless := 0
		for _, d := range item.Stock {
			due := 0
			for _, e := range item.Stock {
				if !e.UseBy.After(d.UseBy) && !e.UseBy.Before(first) {
					due += e.Count
				}
			}
			if d.UseBy.Before(first) {
				hopeless += d.Count
			} else if months := float64(daysBetween(first, d.UseBy)) / DaysPerMonth; float64(due) > item.EatPerMonth*(months-2) {
				hopeless += d.Count // not surely eaten: the bound leaves two months for whole packs and months
			}
		}
		if sooner > hopeless {
			t.Fatalf("wasted %d, of which only %d could not be helped: %+v", sooner, hopeless, item)
		}
		wasted += sooner
	}
	if wasted == 0 {
		t.Error("no case wastes anything: the generated stores are too kind")
	}
}

func TestSteadyProgrammeByHand(t *testing.T) {
	items := []StoreItem{
		// 24 months are 730 days; (730 − 3) / 30.4375 is 23 whole months, one less is 22.
		{Pack: "beans", Target: 11, KeepMonths: 24, Price: 2, HasPrice: true},
		// 12 months: (365 − 3) / 30.4375 = 11.9, so 10.
		{Pack: "peaches", Target: 20, KeepMonths: 12},
		{Pack: "bagged nuts", Target: 4, KeepMonths: 1},
		{Pack: "formula", Target: 4},
		{Pack: "ham", Target: 40, KeepMonths: 6, EatPerMonth: 5}, // (182−3)/30.4375 = 5.9, so 4: 10 a month
		{Pack: "salt", Target: 3, KeepMonths: 24},
	}
	p, err := SteadyProgramme(items, "2026-12-01", 21)
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		turn    int
		month   float64
		rhythm  string
		noWaste bool
	}{
		{22, 0.5, "1 every 2 months", true}, {10, 2, "2 a month", true}, {0, 0, "not to be held in store", false},
		{0, 0, "by the printed date", false}, {4, 10, "10 a month", false}, {22, 3.0 / 22, "3 in 22 months", true},
	}
	for i, w := range want {
		l := p.Lines[i]
		if l.TurnMonths != w.turn || math.Abs(l.PerMonth-w.month) > 1e-12 || l.Rhythm != w.rhythm || l.NoWaste != w.noWaste || l.NoWaste != (l.Why == "") {
			t.Errorf("%s: %+v, want %+v", l.Pack, l, w)
		}
	}
	if p.YearCost != 12 || p.Unpriced != 5 { // 0.5 a month × 12 × 2
		t.Errorf("cost a year %g with %d unpriced, want 12 with 5", p.YearCost, p.Unpriced)
	}
	if _, err := SteadyProgramme(items, "soon", 21); !errors.Is(err, ErrDay) {
		t.Errorf("start soon: %v, want ErrDay", err)
	}
	if _, err := SteadyProgramme(items, "2026-12-01", 36); !errors.Is(err, ErrTooHot) {
		t.Errorf("36 °C: %v, want ErrTooHot", err)
	}
	// At 32 °C half the time: 12 months are 182 days, so 4 months' turn.
	if p, _ := SteadyProgramme(items[1:2], "2026-12-01", 32); p.Lines[0].TurnMonths != 4 {
		t.Errorf("at 32 °C the turn is %d months, want 4", p.Lines[0].TurnMonths)
	}
}

// The slack that the turn allows for the uneven calendar: no run of whole
// months is longer.
func TestMonthSlack(t *testing.T) {
	worst := 0.0
	for _, first := range []string{"2025-01-31", "2025-05-01", "2026-12-28", "2028-02-29"} {
		day, _ := parseDay(first)
		for from := range 60 {
			for n := 1; n <= 72; n++ {
				days := daysBetween(monthStart(day, from), monthStart(day, from+n))
				worst = max(worst, float64(days)-float64(n)*DaysPerMonth)
			}
		}
	}
	if worst > monthSlackDays {
		t.Errorf("calendar months run %g days over the mean, more than %d", worst, monthSlackDays)
	}
}

// The sums and words of a programme, by hand: 11 beans turn over in 22 months and 20
// peaches in 10, half a pack and 2 a month.
func TestWordsOfAProgramme(t *testing.T) {
	first, _ := parseDay("2026-12-01")
	dated := func(days ...int) []DatedPacks {
		var d []DatedPacks
		for _, n := range days {
			d = append(d, DatedPacks{1, first.AddDate(0, 0, n)})
		}
		return d
	}
	items := []StoreItem{
		{Pack: "beans", Target: 11, KeepMonths: 24}, {Pack: "peaches", Target: 20, KeepMonths: 12},
		{Pack: "by its date", Target: 5, Stock: dated(100, 365, 200)}, // (365 − 3) / 30.4375 = 11.9, so 10 months
		{Pack: "too much", Target: 40, KeepMonths: 6, EatPerMonth: 9.5},
		{Pack: "just enough", Target: 40, KeepMonths: 6, EatPerMonth: 10},
		{Pack: "each month", Target: 10, KeepMonths: 12}, {Pack: "2 or 3 a month", Target: 25, KeepMonths: 12}, {Pack: "none", Target: 0, KeepMonths: 12},
	}
	p, err := SteadyProgramme(items, "2026-12-01", 21)
	if err != nil || !near(p.PerMonth, 0.5+2+0.5+10+10+1+2.5) || p.Start != "2026-12-01" || p.TempC != 21 {
		t.Errorf("%g packs a month, %v, want 26.5", p.PerMonth, err)
	}
	for i, want := range []struct {
		keep, turn  int
		rhythm, why string
	}{
		{730, 22, "1 every 2 months", ""}, {365, 10, "2 a month", ""}, {365, 10, "1 every 2 months", ""},
		{182, 4, "10 a month", "the dates ask for 10 packs a month and the household eats 9.5; hold fewer or a form that keeps longer"},
		{182, 4, "10 a month", ""}, {365, 10, "1 a month", ""}, {365, 10, "2 or 3 a month, 25 in 10 months", ""}, {365, 10, "none", ""},
	} {
		l := p.Lines[i]
		if l.KeepDays != want.keep || l.TurnMonths != want.turn || l.Rhythm != want.rhythm || l.Why != want.why || l.NoWaste != (want.why == "") {
			t.Errorf("%s: %+v, want %+v", l.Pack, l, want)
		}
		// Whole packs as evenly as may be: in a turn the target, in each month the mean or one more.
		sum := 0
		for m := range l.TurnMonths {
			n := l.turned(m)
			sum += n
			if float64(n) < l.PerMonth-1 || float64(n) > l.PerMonth+1 {
				t.Errorf("%s: %d in month %d, %g on average", l.Pack, n, m, l.PerMonth)
			}
		}
		if sum != l.Target {
			t.Errorf("%s: %d in a turn, want %d", l.Pack, sum, l.Target)
		}
	}
	// 25 in 10 months: ⌈2.5⌉, then by turns 2 and 3.
	for m, want := range []int{3, 2, 3, 2, 3} {
		if got := p.Lines[6].turned(m); got != want {
			t.Errorf("month %d: %d, want %d", m, got, want)
		}
	}
	for days, want := range map[int]float64{1: 5 * 30.4375, 14: 5 * 30.4375 / 14, 0: 0, -1: 0} {
		if got := EatsPerMonth(5, days); !near(got, want) {
			t.Errorf("5 packs in %d days: %g a month, want %g", days, got, want)
		}
	}
}

// A store followed by hand: 2 packs out of date and 3 good to 10 February, 4 to hold, each
// new one good for 365 days, so that it turns over in 10 months, at most 2 eaten a month.
// On 1 January the 2 are thrown away; the month that ends before 10 February is January, so
// that all 3 should be eaten in it, and 2 can be. Bought are 4 + 2 − 3 = 3.
func TestSimulateByHand(t *testing.T) {
	day := func(s string) time.Time { d, _ := parseDay(s); return d }
	item := StoreItem{Pack: "p", Target: 4, KeepMonths: 12, EatPerMonth: 2, Price: 1.5, HasPrice: true,
		Stock: []DatedPacks{{3, day("2027-02-10")}, {2, day("2026-12-31")}}}
	p, err := SteadyProgramme([]StoreItem{item}, "2027-01-01", 21)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Simulate(&p.Lines[0], "2027-01-01", 3)
	want := []MonthState{
		{Month: "2027-01-01", Wasted: 2, Bought: 3, Eaten: 2, Least: 4, Next: "2027-02-10"},
		// The one left is eaten, and because its day is in the month it is tight.
		{Month: "2027-02-01", Bought: 1, Eaten: 1, Tight: 1, Least: 4, Next: "2028-01-01"},
		// ⌈4·3/10⌉ − ⌈4·2/10⌉ = 2 − 1 = 1 by the rhythm.
		{Month: "2027-03-01", Bought: 1, Eaten: 1, Least: 4, Next: "2028-01-01"},
	}
	if err != nil || !slices.Equal(s.Months, want) {
		t.Errorf("%+v, %v, want %+v", s.Months, err, want)
	}
	if s.Bought != 5 || s.Eaten != 4 || s.Tight != 1 || s.Wasted != 2 || s.Least != 4 || s.Cost != 7.5 {
		t.Errorf("%+v, want 5 bought for 7.50, 4 eaten, 1 of them tight, 2 wasted, never under 4", s)
	}
	// A month begins on the day of the first, at latest on the 28th.
	for m, want := range []string{"2027-01-31", "2027-02-28", "2027-03-28"} {
		if got := isoDay(monthStart(day("2027-01-31"), m)); got != want {
			t.Errorf("month %d begins on %s, want %s", m, got, want)
		}
	}
	// 2.5 a month: by the end of month 1 5 packs, of month 2 7.
	for _, tt := range []struct{ from, to, want int }{{0, 0, 2}, {0, 1, 5}, {1, 1, 3}, {2, 2, 2}, {1, 3, 8}, {2, 1, 0}} {
		if got := mostEaten(2.5, tt.from, tt.to); got != tt.want {
			t.Errorf("months %d to %d: %d, want %d", tt.from, tt.to, got, tt.want)
		}
	}
}

// A store that is fuller than it need be buys nothing; where no limit is known of what the
// household eats, what is due in a month is eaten in it, of one batch after another, and else
// the rhythm holds, ⌈4·(m+1)/10⌉ − ⌈4·m/10⌉ in month m: 1, 0, 1, 0. By hand: the packs of
// 20 and 25 January are due in January, before its end; that of 28 February, the last day of
// its month, in February.
func TestSimulateAFullStore(t *testing.T) {
	day := func(s string) time.Time { d, _ := parseDay(s); return d }
	item := StoreItem{Pack: "p", Target: 4, KeepMonths: 12, Price: 1.5, HasPrice: true,
		Stock: []DatedPacks{{7, day("2028-06-01")}, {1, day("2027-02-28")}, {1, day("2027-01-25")}, {0, day("2026-01-01")}, {1, day("2027-01-20")}}}
	p, err := SteadyProgramme([]StoreItem{item}, "2027-01-01", 21)
	if err != nil {
		t.Fatal(err)
	}
	// New packs are good for 365 days, (365 − 3) ÷ 30.4375 = 11.9: ten months' turn.
	s, err := Simulate(&p.Lines[0], "2027-01-01", 4)
	want := []MonthState{
		{Month: "2027-01-01", Eaten: 2, Tight: 2, Least: 8, Next: "2027-02-28"},
		{Month: "2027-02-01", Eaten: 1, Least: 7, Next: "2028-06-01"},
		{Month: "2027-03-01", Eaten: 1, Least: 6, Next: "2028-06-01"},
		{Month: "2027-04-01", Least: 6, Next: "2028-06-01"},
	}
	if err != nil || !slices.Equal(s.Months, want) || s.Bought != 0 || s.Eaten != 4 || s.Tight != 2 || s.Wasted != 0 || s.Least != 6 || s.Cost != 0 {
		t.Errorf("%+v, %v, want %+v", s, err, want)
	}
	// From a fresh store, bought on the first day: the target, good for 365 days.
	item.Stock = nil
	p, _ = SteadyProgramme([]StoreItem{item}, "2027-01-01", 21)
	if s, err := Simulate(&p.Lines[0], "2027-01-01", 1); err != nil || !slices.Equal(s.Months, []MonthState{{Month: "2027-01-01", Bought: 1, Eaten: 1, Least: 4, Next: "2028-01-01"}}) || s.Cost != 1.5 {
		t.Errorf("a fresh store: %+v, %v", s, err)
	}
}

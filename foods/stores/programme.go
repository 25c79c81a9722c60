package stores

import (
	"fmt"
	"math"
	"time"
)

// StoreItem is one kind of pack to hold for good: the target, how long it
// keeps, and what the household can eat of it in daily life.
type StoreItem struct {
	Pack   string
	Name   string
	Target int // packs never to fall below

	// KeepMonths is the keeping time at 21 °C of a pack on the day it is
	// bought; 0 means that the printed date rules, and that packs are dated as
	// those of Stock are.
	KeepMonths float64
	// EatPerMonth is the most packs that the household eats in a month of
	// daily life; 0 means no limit is known. [EatsPerMonth] gives it from a
	// plan.
	EatPerMonth float64
	Price       float64
	HasPrice    bool
	Stock       []DatedPacks // what is there at the start; nil means Target packs bought then
}

// DatedPacks are packs with the same last day of use.
type DatedPacks struct {
	Count int
	UseBy time.Time
}

// EatsPerMonth returns what a household that eats packs of a plan in days
// eats in a month at the same pace.
func EatsPerMonth(packs, days int) float64 {
	if days <= 0 {
		return 0
	}
	return float64(packs) * DaysPerMonth / float64(days)
}

// ProgrammeLine is how one kind of pack is kept fresh by eating from the
// store and buying the same back.
type ProgrammeLine struct {
	Item       *StoreItem `json:"-"`
	Pack       string     `json:"pack"`
	Name       string     `json:"name"`
	Target     int        `json:"target"`
	KeepDays   int        `json:"keep_days"`       // of a new pack, at the storage temperature
	TurnMonths int        `json:"turn_months"`     // a pack bought in one month is eaten this many months later
	PerMonth   float64    `json:"packs_per_month"` // eaten and bought back, on average
	PerYear    float64    `json:"packs_per_year"`
	Rhythm     string     `json:"rhythm"` // in words
	YearCost   float64    `json:"cost_per_year,omitempty"`
	HasCost    bool       `json:"-"`
	NoWaste    bool       `json:"no_waste"`      // from a fresh store nothing is ever thrown away; from an old one see [Simulate]
	Why        string     `json:"why,omitempty"` // why not
}

// Programme is the steady state of a store.
type Programme struct {
	Start    string          `json:"start"`
	TempC    float64         `json:"temp_c"`
	Lines    []ProgrammeLine `json:"lines"`
	PerMonth float64         `json:"packs_per_month"`
	YearCost float64         `json:"cost_per_year"` // of the lines with a price: money that feeds the household all the same
	Unpriced int             `json:"unpriced"`      // lines without a price
}

// monthSlackDays is the most days that consecutive calendar months are longer
// than as many mean months of 30.4375 days: nine months from May to January
// have 276 days where the mean is 273.9; with February skipped twice, in 23
// months, it is 2.9.
const monthSlackDays = 3

// monthsPerYear is exact.
const monthsPerYear = 12

// SteadyProgramme returns, for every item, the least number of packs a month
// that keeps the whole store inside its dates:
//
//	packs a month = target ÷ turn,  turn = ⌊(days kept − 3) ÷ 30.4375⌋ − 1 months
//
// A pack bought at the beginning of a month is eaten before the end of the
// month that many months later, which is never past its day. Errors wrap
// [ErrDay] and [ErrTooHot].
func SteadyProgramme(items []StoreItem, start string, tempC float64) (Programme, error) {
	day, err := parseDay(start)
	if err != nil {
		return Programme{}, fmt.Errorf("start: %w", err)
	}
	p := Programme{Start: start, TempC: tempC}
	for i := range items {
		line, err := steadyLine(&items[i], day, tempC)
		if err != nil {
			return Programme{}, fmt.Errorf("%s: %w", items[i].Pack, err)
		}
		p.Lines = append(p.Lines, line)
		p.PerMonth += line.PerMonth
		p.YearCost += line.YearCost
		if !line.HasCost {
			p.Unpriced++
		}
	}
	return p, nil
}

func steadyLine(item *StoreItem, start time.Time, tempC float64) (ProgrammeLine, error) {
	l := ProgrammeLine{Item: item, Pack: item.Pack, Name: item.Name, Target: item.Target, NoWaste: true}
	days, err := KeepingDays(item.KeepMonths, tempC)
	if err != nil {
		return l, err
	}
	if item.KeepMonths <= 0 {
		// New packs are taken to be dated as the freshest in store.
		for _, d := range item.Stock {
			days = max(days, daysBetween(start, d.UseBy))
		}
		if days == 0 {
			l.NoWaste, l.Why = false, "the printed date rules: note the dates of the packs"
			l.Rhythm = "by the printed date"
			return l, nil
		}
	}
	l.KeepDays = days
	l.TurnMonths = int(math.Floor(float64(days-monthSlackDays)/DaysPerMonth)) - 1
	if l.TurnMonths < 1 {
		l.TurnMonths = 0
		l.NoWaste = false
		l.Why = fmt.Sprintf("it keeps %d days, too short to hold in store and turn over by the month; choose a form that keeps longer", days)
		l.Rhythm = "not to be held in store"
		return l, nil
	}
	l.PerMonth = float64(item.Target) / float64(l.TurnMonths)
	l.PerYear = l.PerMonth * monthsPerYear
	l.Rhythm = rhythm(item.Target, l.TurnMonths)
	if item.HasPrice {
		l.YearCost, l.HasCost = l.PerYear*item.Price, true
	}
	if item.EatPerMonth > 0 && l.PerMonth > item.EatPerMonth+sameFigure {
		l.NoWaste = false
		l.Why = fmt.Sprintf("the dates ask for %.3g packs a month and the household eats %.3g; hold fewer or a form that keeps longer", l.PerMonth, item.EatPerMonth)
	}
	return l, nil
}

// rhythm words target packs over turn months.
func rhythm(target, turn int) string {
	switch {
	case target <= 0:
		return "none"
	case target%turn == 0:
		return fmt.Sprintf("%d a month", target/turn)
	case turn%target == 0:
		return fmt.Sprintf("1 every %d months", turn/target)
	case target > turn:
		return fmt.Sprintf("%d or %d a month, %d in %d months", target/turn, target/turn+1, target, turn)
	}
	return fmt.Sprintf("%d in %d months", target, turn)
}

// turned returns how many packs of a line are eaten in month m from 0 by the
// steady rhythm, spread as evenly as whole packs allow:
//
//	⌈(m+1)·target/turn⌉ − ⌈m·target/turn⌉
func (l *ProgrammeLine) turned(m int) int {
	if l.TurnMonths <= 0 {
		return 0
	}
	upTo := func(m int) int { return (m*l.Target + l.TurnMonths - 1) / l.TurnMonths }
	return upTo(m+1) - upTo(m)
}

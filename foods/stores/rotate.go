package stores

import (
	"cmp"
	"fmt"
	"slices"
	"time"
)

// Words of Action.Do.
const (
	DoEat     = "eat by"
	DoReplace = "past its date" // a matter of quality: use it first if it is sound, and replace it
	DoDiscard = "throw away"    // infant food past its date, opened food past its hours
	DoRenew   = "renew by"      // water, bleach, batteries …
	DoTest    = "test by"       // an alarm: press its button
	DoCheck   = "find the date" // nothing tells when it is due
)

// Words of Action.Time.
const (
	Overdue  = "overdue"
	Soon     = "soon" // within a month
	Later    = "later"
	NotKnown = "not known"
)

// Action is what to do with one batch, and by when.
type Action struct {
	Do    string  `json:"do"`
	By    string  `json:"by,omitempty"` // ISO date; absent when not known
	Time  string  `json:"time"`         // overdue, soon, later or not known
	Pack  string  `json:"pack"`
	Name  string  `json:"name"`
	Count float64 `json:"count"`
	Unit  string  `json:"unit,omitempty"` // of Count where it is not packs
	Place string  `json:"place,omitempty"`
	Batch string  `json:"batch,omitempty"` // the batch's own date: printed, else bought
	Order int     `json:"order"`           // 1: take this batch of the pack first
	Rule  string  `json:"rule"`
	Warn  string  `json:"warn,omitempty"` // stored warmer than the food bears
	UID   string  `json:"uid"`
	Ref
}

// alarmRenewal is the key in renewal.csv of what is tested, not replaced.
const alarmRenewal = "co-alarm"

// soonDays is how far "soon" reaches: a month.
const soonDays = 30

// Rotate returns what to do with each batch, soonest first and what has no
// date before everything else, counted from first (ISO), at a steady storage
// temperature of tempC; the caller gives 21 where it is not known. Batches alike
// (same goods, date, place and opening) are put together. Errors wrap [ErrDay] and
// [ErrTooHot] and name the batch.
func Rotate(batches []Batch, first string, tempC float64) ([]Action, error) {
	start, err := parseDay(first)
	if err != nil {
		return nil, fmt.Errorf("start: %w", err)
	}
	var actions []Action
	for _, b := range together(batches) {
		due, err := b.DueOn(start, tempC)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", b.Pack, err)
		}
		actions = append(actions, b.action(due, start, tempC))
	}
	slices.SortStableFunc(actions, func(a, b Action) int {
		return cmp.Or(cmp.Compare(a.By, b.By), cmp.Compare(a.Pack, b.Pack), cmp.Compare(a.Place, b.Place), cmp.Compare(a.UID, b.UID))
	})
	order := map[string]int{}
	for i := range actions {
		order[actions[i].Pack]++
		actions[i].Order = order[actions[i].Pack]
	}
	return actions, nil
}

// together merges batches with the same identity, in the order of the first.
func together(batches []Batch) []Batch {
	at := map[string]int{}
	var merged []Batch
	for _, b := range batches {
		if !(b.Count > 0) {
			continue
		}
		uid := b.UID()
		if i, ok := at[uid]; ok {
			merged[i].Count += b.Count
			continue
		}
		at[uid] = len(merged)
		merged = append(merged, b)
	}
	return merged
}

// action words what to do with b.
func (b *Batch) action(due Due, start time.Time, tempC float64) Action {
	a := Action{
		Pack: b.Pack, Name: b.Name, Count: b.Count, Unit: b.Unit, Place: b.Place, Batch: cmp.Or(b.BestBefore, b.Since),
		Rule: due.Rule, UID: b.UID(), Ref: due.Ref,
	}
	if k := b.Keeping; k != nil && k.MaxStorageC > 0 && tempC > k.MaxStorageC {
		a.Warn = fmt.Sprintf("keep at or under %g °C; the store is at %g °C", k.MaxStorageC, tempC)
	}
	if !due.Known {
		a.Do, a.Time = DoCheck, NotKnown
		return a
	}
	a.By = isoDay(due.Day)
	left := daysBetween(start, due.Day)
	switch {
	case left < 0:
		a.Time = Overdue
	case left < soonDays:
		a.Time = Soon
	default:
		a.Time = Later
	}
	switch {
	case b.Renewal == alarmRenewal:
		a.Do = DoTest
	case b.Renewal != "":
		a.Do = DoRenew
	case left < 0 && due.Safety:
		a.Do = DoDiscard
	case left < 0:
		a.Do = DoReplace
	default:
		a.Do = DoEat
	}
	return a
}

// ByMonth groups the dated actions that are not overdue by calendar month
// (2026-01), in order; what each month replaces is bought back.
func ByMonth(actions []Action) (months []string, of map[string][]Action) {
	of = map[string][]Action{}
	for _, a := range actions {
		if a.By == "" || a.Time == Overdue {
			continue
		}
		month := a.By[:len("2026-01")]
		if of[month] == nil {
			months = append(months, month)
		}
		of[month] = append(of[month], a)
	}
	return months, of
}

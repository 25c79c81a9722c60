package stores

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
)

func TestRotate(t *testing.T) {
	beans := &foods.Keeping{UseByMonths: 24, AfterOpenHours: 2, AfterOpenBasis: "safety", MaxStorageC: 30, Source: "keeping table", Verified: "yes"}
	formula := &foods.Keeping{LabelDateBinds: true, MaxStorageC: 25, Source: "keeping table"}
	batches := []Batch{
		{Pack: "beans", Count: 6, BestBefore: "2026-12-20", Place: "cellar", Keeping: beans},
		{Pack: "beans", Count: 4, BestBefore: "2026-11-20", Place: "cellar", Keeping: beans},
		{Pack: "beans", Count: 2, BestBefore: "2026-11-20", Place: "cellar", Keeping: beans}, // the same batch
		{Pack: "beans", Count: 1, Place: "attic", Keeping: beans},
		{Pack: "formula", Count: 2, BestBefore: "2026-11-30", Keeping: formula, Infant: true},
		{Pack: "peas", Count: 1, BestBefore: "2028-01-01", Opened: "2026-11-30", Keeping: beans},
		{Pack: "peas", Count: 0, BestBefore: "2028-01-01", Keeping: beans},
		{Pack: "peas", Count: 9, Since: "2026-12-01", Keeping: beans},
		{Renewal: "water-home-filled", Pack: "jugs", Count: 8, Since: "2026-06-15"},
		{Renewal: "batteries", Pack: "AA", Count: 12, Since: "2026-05-01"},
	}
	actions, err := Rotate(batches, "2026-12-01", 28)
	if err != nil {
		t.Fatal(err)
	}
	type brief struct {
		do, by, time, pack string
		count              float64
		order              int
	}
	want := []brief{
		{DoCheck, "", NotKnown, "beans", 1, 1},
		{DoRenew, "2026-10-30", Overdue, "AA", 12, 1}, // 182 days
		{DoReplace, "2026-11-20", Overdue, "beans", 6, 2},
		{DoDiscard, "2026-11-30", Overdue, "formula", 2, 1},
		{DoDiscard, "2026-11-30", Overdue, "peas", 1, 1},
		// 19 days left, at 28 °C 19 × 2^(−7/11) = 12.2
		{DoEat, "2026-12-13", Soon, "beans", 6, 3},
		{DoRenew, "2026-12-14", Soon, "jugs", 8, 1},
		// 730.5 × 2^(−7/11) = 469.9 days
		{DoEat, "2028-03-14", Later, "peas", 9, 2},
	}
	var got []brief
	for _, a := range actions {
		got = append(got, brief{a.Do, a.By, a.Time, a.Pack, a.Count, a.Order})
		if a.UID == "" || a.Rule == "" {
			t.Errorf("%s: no identity or rule: %+v", a.Pack, a)
		}
		if warm := a.Pack == "formula"; warm != (a.Warn != "") {
			t.Errorf("%s at 28 °C: warning %q", a.Pack, a.Warn)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("actions\n%v\nwant\n%v", got, want)
	}
	months, of := ByMonth(actions)
	if !slices.Equal(months, []string{"2026-12", "2028-03"}) || len(of["2026-12"]) != 2 || len(of["2028-03"]) != 1 {
		t.Errorf("months %v, %v", months, of)
	}

	// First in, first out, whatever the order of the list.
	slices.Reverse(batches)
	again, err := Rotate(batches, "2026-12-01", 28)
	if err != nil {
		t.Fatal(err)
	}
	for i := range again {
		if again[i].UID != actions[i].UID || again[i].Order != actions[i].Order || again[i].Count != actions[i].Count {
			t.Errorf("another order of the list changes line %d: %+v and %+v", i, actions[i], again[i])
		}
	}
}

func TestRotateErrors(t *testing.T) {
	for _, tt := range []struct {
		batches []Batch
		start   string
		tempC   float64
		want    error
		says    string
	}{
		{nil, "today", 0, ErrDay, "start"},
		{[]Batch{{Pack: "peas", Count: 1}}, "2026-12-01", 40, ErrTooHot, "peas"},
		{[]Batch{{Pack: "peas", Count: 1, BestBefore: "1/2/27"}}, "2026-12-01", 0, ErrDay, "peas"},
	} {
		if _, err := Rotate(tt.batches, tt.start, tt.tempC); !errors.Is(err, tt.want) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%+v: %v, want %v naming %s", tt, err, tt.want, tt.says)
		}
	}
}

func TestBatchesOfStock(t *testing.T) {
	keeping := &foods.Keeping{Form: "infant_formula_powder"}
	pack := &foods.Pack{Key: "formula 12 oz", Food: &foods.Food{Name: "formula", Form: "infant_formula_powder", Keeping: keeping}}
	b := BatchOf(foods.StockLine{Pack: pack, Count: 3, BestBefore: "2027-02-03", Place: "shelf", Opened: "2026-11-30"})
	want := Batch{Pack: "formula 12 oz", Name: "formula", Count: 3, Place: "shelf", BestBefore: "2027-02-03", Opened: "2026-11-30", Keeping: keeping, Infant: true}
	if b != want {
		t.Errorf("BatchOf = %+v, want %+v", b, want)
	}
	if b := NewBatch(pack, 2, "2026-12-01", "shelf"); b.Since != "2026-12-01" || b.Count != 2 || !b.Infant || b.BestBefore != "" {
		t.Errorf("NewBatch = %+v", b)
	}
	if b := BatchOf(foods.StockLine{}); b.Pack != "" || b.Infant {
		t.Errorf("an empty line = %+v", b)
	}
}

// The day of the date is the last good one: what is due today is to be eaten, not
// overdue, and what was due yesterday is; within 30 days is today and the 29 after it.
func TestTimesOfActions(t *testing.T) {
	for before, want := range map[string][2]string{
		"2026-01-04": {Overdue, DoReplace}, "2026-01-05": {Soon, DoEat}, "2026-02-03": {Soon, DoEat}, "2026-02-04": {Later, DoEat},
	} {
		got, err := Rotate([]Batch{
			{Pack: "beans", Count: 1, BestBefore: before, Keeping: &foods.Keeping{UseByMonths: 24, AfterOpenBasis: "safety", MaxStorageC: 30}},
		}, "2026-01-05", 21)
		if err != nil || len(got) != 1 || got[0].Time != want[0] || got[0].Do != want[1] {
			t.Errorf("good to %s on 5 January: %+v, %v, want %v", before, got, err, want)
		}
	}
}

// What an action says of its batch: the printed date before the day of buying, the warmth
// that its food does not bear, and that an alarm is tested.
func TestWordsOfAnAction(t *testing.T) {
	fats := &foods.Keeping{UseByMonths: 12, MaxStorageC: 24}
	for _, tt := range []struct {
		batch           Batch
		tempC           float64
		do, batch1, say string
	}{
		{Batch{Pack: "oil", BestBefore: "2027-05-05", Since: "2026-11-01", Keeping: fats}, 24, DoEat, "2027-05-05", ""},
		{Batch{Pack: "oil", Since: "2026-11-01", Keeping: fats}, 25, DoEat, "2026-11-01", "keep at or under 24 °C; the store is at 25 °C"},
		{Batch{Pack: "oil", Keeping: fats}, 21, DoCheck, "", ""},
		{Batch{Pack: "oil", Since: "2026-11-01", Keeping: &foods.Keeping{UseByMonths: 12}}, 30, DoEat, "2026-11-01", ""},
		{Batch{Pack: "alarm", Renewal: "co-alarm", Since: "2026-11-01"}, 21, DoTest, "2026-11-01", ""},
		{Batch{Pack: "cells", Renewal: "batteries", Since: "2026-11-01"}, 21, DoRenew, "2026-11-01", ""},
	} {
		tt.batch.Count, tt.batch.Place, tt.batch.Unit, tt.batch.Name = 2, "attic", "piece", "n"
		got, err := Rotate([]Batch{tt.batch}, "2026-12-01", tt.tempC)
		if err != nil || len(got) != 1 || got[0].Do != tt.do || got[0].Batch != tt.batch1 || got[0].Warn != tt.say ||
			got[0].Place != "attic" || got[0].Unit != "piece" || got[0].Name != "n" || got[0].UID != tt.batch.UID() {
			t.Errorf("%+v: %+v, %v, want %s, %q, %q", tt.batch, got, err, tt.do, tt.batch1, tt.say)
		}
	}
}

// What is opened and must be eaten on its day is eaten on it and thrown away after it, not
// before; of batches that nothing else parts the order is that of their identities.
func TestOpenedToday(t *testing.T) {
	can := &foods.Keeping{UseByMonths: 24, AfterOpenHours: 24, AfterOpenBasis: "safety"}
	jam := &foods.Keeping{UseByMonths: 24, AfterOpenHours: 24, AfterOpenBasis: "quality"}
	for _, tt := range []struct {
		keeping  *foods.Keeping
		opened   string
		do, time string
	}{
		{can, "2026-12-01", DoEat, Soon}, {can, "2026-11-30", DoDiscard, Overdue}, {can, "2026-12-02", DoEat, Soon},
		{jam, "2026-12-01", DoEat, Soon}, {jam, "2026-11-30", DoReplace, Overdue},
	} {
		got, err := Rotate([]Batch{{Pack: "p", Count: 1, BestBefore: "2028-01-01", Opened: tt.opened, Keeping: tt.keeping}}, "2026-12-01", 21)
		if err != nil || len(got) != 1 || got[0].Do != tt.do || got[0].Time != tt.time {
			t.Errorf("opened on %s, %s: %+v, %v, want %s, %s", tt.opened, tt.keeping.AfterOpenBasis, got, err, tt.do, tt.time)
		}
	}
	var batches []Batch
	for _, renewal := range []string{"a", "b", "c", "d", "e", "f"} {
		batches = append(batches, Batch{Pack: "p", Renewal: renewal, Count: 1})
	}
	for range 2 {
		got, err := Rotate(batches, "2026-12-01", 21)
		if err != nil || len(got) != 6 || !slices.IsSortedFunc(got, func(a, b Action) int { return strings.Compare(a.UID, b.UID) }) {
			t.Errorf("%+v, %v", got, err)
		}
		slices.Reverse(batches)
	}
}

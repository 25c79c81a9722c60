package stores

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	ical "github.com/emersion/go-ical" // a parser that shares no code with the writer

	"rationwright/foods"
)

// calendarStock is an invented store with awkward names and places.
func calendarStock() []Batch {
	beans := &foods.Keeping{Form: "canned_beans", UseByMonths: 24, AfterOpenHours: 2, AfterOpenBasis: "safety", MaxStorageC: 35, Source: "keeping table", Verified: "yes"}
	return []Batch{
		{Pack: "beans 303", Name: "beans, white; \"small\"", Count: 12, Place: "cellar, left; below\nthe stairs", BestBefore: "2028-03-01", Keeping: beans},
		{Pack: "beans 303", Name: "beans", Count: 3, Place: "pantry", BestBefore: "2026-10-01", Keeping: beans},
		{Pack: "beans 303", Name: "beans", Count: 6, Place: "pantry", Since: "2026-11-20", Keeping: beans},
		{Pack: "rice", Name: strings.Repeat("long grain rice ", 12) + "åøæ…", Count: 0.5, BestBefore: "2027-01-15", Keeping: beans},
		{Renewal: "water-home-filled", Pack: "water", Name: "water", Count: 4, Place: "garage\\back", Since: "2026-11-01"},
		{Pack: "unknown tin", Count: 1, Keeping: beans},
	}
}

func calendarOf(t *testing.T, batches []Batch, start string, earlier io.Reader) ([]byte, []Action) {
	t.Helper()
	actions, err := Rotate(batches, start, 18)
	if err != nil {
		t.Fatal(err)
	}
	text, err := Calendar(actions, start, earlier)
	if err != nil {
		t.Fatal(err)
	}
	return text, actions
}

// parseCalendar reads text with the independent parser and has its encoder
// check every component against RFC 5545.
func parseCalendar(t *testing.T, text []byte) map[string]ical.Event {
	t.Helper()
	dec := ical.NewDecoder(bytes.NewReader(text))
	cal, err := dec.Decode()
	if err != nil {
		t.Fatalf("the other parser refuses the calendar: %v\n%s", err, text)
	}
	if _, err := dec.Decode(); !errors.Is(err, io.EOF) {
		t.Fatalf("something follows the calendar: %v", err)
	}
	var again bytes.Buffer
	if err := ical.NewEncoder(&again).Encode(cal); err != nil {
		t.Fatalf("the other library finds it against RFC 5545: %v\n%s", err, text)
	}
	events := map[string]ical.Event{}
	for _, e := range cal.Events() {
		uid, err := e.Props.Text(ical.PropUID)
		if err != nil || uid == "" {
			t.Fatalf("event without UID: %v", err)
		}
		if _, twice := events[uid]; twice {
			t.Fatalf("UID %s twice", uid)
		}
		events[uid] = e
	}
	for i, line := range strings.Split(string(text), "\r\n") {
		if strings.ContainsAny(line, "\r\n") || len(line) > 75 { // RFC 5545, 3.1: 75 octets
			t.Errorf("line %d has %d octets or a bare line end: %q", i+1, len(line), line)
		}
	}
	return events
}

func TestCalendarIsAcceptedByAnotherParser(t *testing.T) {
	text, actions := calendarOf(t, calendarStock(), "2026-12-01", nil)
	events := parseCalendar(t, text)
	dated := 0
	for _, a := range actions {
		if a.By == "" {
			continue
		}
		dated++
		e, ok := events[a.UID]
		if !ok {
			t.Errorf("no event for %s %s", a.Pack, a.Batch)
			continue
		}
		start, err := e.DateTimeStart(time.UTC)
		want, _ := parseDay(max(a.By, "2026-12-01"))
		if err != nil || !start.Equal(want) {
			t.Errorf("%s starts %v, %v; want %v", a.Pack, start, err, want)
		}
		summary, err := e.Props.Text(ical.PropSummary)
		if err != nil || !strings.Contains(summary, strings.TrimSpace(a.Name)) || !strings.HasPrefix(summary, a.Do) {
			t.Errorf("summary %q, %v; want %q and %q", summary, err, a.Do, a.Name)
		}
		if place, err := e.Props.Text(ical.PropLocation); err != nil || place != strings.ReplaceAll(a.Place, "\n", " ") {
			t.Errorf("place %q, %v; want %q", place, err, a.Place)
		}
		stamp, err := e.Props.DateTime(ical.PropDateTimeStamp, time.UTC)
		if err != nil || stamp.Format(time.DateOnly) != "2026-12-01" {
			t.Errorf("stamp %v, %v; want the start", stamp, err)
		}
		alarms := 0
		for _, c := range e.Children {
			if c.Name == ical.CompAlarm {
				alarms++
			}
		}
		// Counted by hand: 30 and 7 days ahead where both are still to come, the first
		// only on its own day and none on the day of the calendar itself.
		left := int(want.Sub(time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)).Hours() / 24)
		rings := 0
		switch {
		case left >= 30:
			rings = 2
		case left >= 1:
			rings = 1
		}
		if alarms != rings {
			t.Errorf("%s, %d days ahead: %d alarms, want %d", a.Pack, left, alarms, rings)
		}
	}
	if dated != 5 || len(events) != dated {
		t.Errorf("%d events for %d dated batches, want 5", len(events), dated)
	}
}

// Alarms of an event so many days after the day of the calendar, by hand: those of 30 and 7
// days before it, also where they ring on the very first day; where neither is left the one
// of the day before, and none on the day itself or in the past.
func TestRemindersOnBothSidesOfEachDay(t *testing.T) {
	today := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		ahead int
		want  []int
	}{
		{-1, nil}, {0, nil}, {1, []int{1}}, {2, []int{1}}, {6, []int{1}}, {7, []int{7}}, {8, []int{7}},
		{29, []int{7}}, {30, []int{30, 7}}, {31, []int{30, 7}}, {400, []int{30, 7}},
	} {
		if got := reminders(today.AddDate(0, 0, c.ahead), today); !slices.Equal(got, c.want) {
			t.Errorf("%d days ahead: %v days before, want %v", c.ahead, got, c.want)
		}
	}
}

// A household sees to so many batches a day: no day has more, none is later than
// its date while a day before it has room, no alarm rings before the calendar
// begins, and the summary says how many of what.
func TestCalendarDaysAreBearable(t *testing.T) {
	const start = "2026-12-01"
	first, _ := parseDay(start)
	var batches []Batch
	for i := range 40 { // 15 overdue, 20 due in three days, 5 later
		day := "2026-11-20"
		switch {
		case i >= 35:
			day = "2027-03-01"
		case i >= 15:
			day = "2026-12-03"
		}
		batches = append(batches, Batch{Pack: "beans-" + strconv.Itoa(i), Name: "beans", Count: float64(i%2 + 1), BestBefore: day,
			Keeping: &foods.Keeping{Form: "canned_beans", UseByMonths: 24, Source: "keeping table", Verified: "yes"}})
	}
	text, actions := calendarOf(t, batches, start, nil)
	events := parseCalendar(t, text)
	perDay := map[time.Time]int{}
	late := 0
	for _, a := range actions {
		e := events[a.UID]
		day, err := e.DateTimeStart(time.UTC)
		if err != nil || day.Before(first) {
			t.Fatalf("%s stands on %v, %v", a.Pack, day, err)
		}
		perDay[day]++
		if by, _ := parseDay(a.By); day.After(by) && !by.Before(first) {
			late++
		}
		unit := "2 packs"
		if a.Count == 1 {
			unit = "1 pack"
		}
		if summary, _ := e.Props.Text(ical.PropSummary); !strings.HasSuffix(summary, "beans, "+unit) {
			t.Errorf("summary %q, want it to end with %q", summary, unit)
		}
		for _, c := range e.Children {
			trigger := c.Props.Get(ical.PropTrigger)
			days, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(trigger.Value, "-P"), "D"))
			if err != nil || day.AddDate(0, 0, -days).Before(first) {
				t.Errorf("%s on %v: alarm %s rings before %s", a.Pack, day, trigger.Value, start)
			}
		}
	}
	for day, n := range perDay {
		if n > 6 { // the planning rule, common practice, no source
			t.Errorf("%d events on %v, more than 6", n, day)
		}
	}
	// Up to the 3rd there is room for 18; 35 are due by then, 15 of them late already.
	if late > 17 {
		t.Errorf("%d batches stand after their date, want at most 17", late)
	}
	if n := perDay[first.AddDate(0, 3, 0)]; n != 5 {
		t.Errorf("%d of the 5 later batches stand on their day", n)
	}
	// The 20 of the 3rd alone: 6 on it, 6 on each of the two days before, and only
	// the last 2 after it.
	text, actions = calendarOf(t, batches[15:35], start, nil)
	events, late = parseCalendar(t, text), 0
	for _, a := range actions {
		e := events[a.UID]
		if day, err := e.DateTimeStart(time.UTC); err != nil || day.After(first.AddDate(0, 0, 2)) {
			late++
		}
	}
	if late != 2 {
		t.Errorf("%d of 20 batches stand after their date, want 2", late)
	}
}

// The same stock gives the same bytes; other counts, another order and a later
// start keep every identity.
func TestCalendarIsStable(t *testing.T) {
	first, _ := calendarOf(t, calendarStock(), "2026-12-01", nil)
	for range 5 {
		if again, _ := calendarOf(t, calendarStock(), "2026-12-01", nil); !bytes.Equal(first, again) {
			t.Fatal("the same stock gives other bytes")
		}
	}
	changed := calendarStock()
	slices.Reverse(changed)
	for i := range changed {
		changed[i].Count += 2
		changed[i].Pack = " " + strings.ToUpper(changed[i].Pack)
	}
	later, _ := calendarOf(t, changed, "2027-02-01", nil)
	a, b := parseCalendar(t, first), parseCalendar(t, later)
	for uid := range a {
		if _, ok := b[uid]; !ok {
			t.Errorf("%s is lost when the counts change", uid)
		}
	}
	if len(a) != len(b) {
		t.Errorf("%d and %d events", len(a), len(b))
	}
}

// A calendar written before is followed: unchanged events stay byte for byte,
// changed ones count up, gone ones are cancelled once, others' events are not
// touched.
func TestCalendarFollowsTheEarlierOne(t *testing.T) {
	first, _ := calendarOf(t, calendarStock(), "2026-12-01", nil)
	same, _ := calendarOf(t, calendarStock(), "2026-12-01", bytes.NewReader(first))
	if !bytes.Equal(first, same) {
		t.Errorf("nothing changed, yet:\n%s\n%s", first, same)
	}
	stock := calendarStock()
	stock[0].Count = 11                // some were eaten
	gone := stock[3].UID()             // the rice was eaten up
	stock = slices.Delete(stock, 3, 4) //
	stock = append(stock, Batch{Pack: "oats", Count: 2, BestBefore: "2027-06-01"})
	foreign := strings.Replace(string(first), "BEGIN:VEVENT", "BEGIN:VEVENT\r\nUID:someone@elsewhere\r\nDTSTAMP:20260101T000000Z\r\nDTSTART:20270101T100000Z\r\nSUMMARY:mine\r\nEND:VEVENT\r\nBEGIN:VEVENT", 1)
	second, _ := calendarOf(t, stock, "2026-12-10", strings.NewReader(foreign))
	events := parseCalendar(t, second)
	sequence := func(uid string) string { return events[uid].Props.Get(ical.PropSequence).Value }
	changed, kept, added := stock[0].UID(), stock[2].UID(), stock[len(stock)-1].UID()
	if sequence(changed) != "1" || sequence(kept) != "0" || sequence(added) != "0" {
		t.Errorf("sequences: changed %s, kept %s, new %s; want 1, 0, 0", sequence(changed), sequence(kept), sequence(added))
	}
	if stamp := events[kept].Props.Get(ical.PropDateTimeStamp).Value; !strings.HasPrefix(stamp, "20261201") {
		t.Errorf("the unchanged event is stamped %s anew", stamp)
	}
	e, ok := events[gone]
	if !ok {
		t.Fatal("the batch that is gone leaves no cancellation")
	}
	if status, err := e.Status(); err != nil || status != ical.EventCancelled || sequence(gone) != "1" {
		t.Errorf("gone: status %v, %v, sequence %s; want cancelled, 1", status, err, sequence(gone))
	}
	if _, ok := events["someone@elsewhere"]; ok {
		t.Error("another's event was taken over")
	}
	third, _ := calendarOf(t, stock, "2026-12-10", bytes.NewReader(second))
	if _, ok := parseCalendar(t, third)[gone]; ok {
		t.Error("cancelled twice")
	}
	if _, err := Calendar(nil, "2026-12-01", strings.NewReader("no calendar")); !errors.Is(err, ErrCalendar) {
		t.Errorf("no calendar: %v, want ErrCalendar", err)
	}
	if _, err := Calendar(nil, "yesterday", nil); !errors.Is(err, ErrDay) {
		t.Errorf("start yesterday: %v, want ErrDay", err)
	}
}

// Identities depend on goods, batch date, place and opening, on nothing else.
func TestUID(t *testing.T) {
	b := Batch{Pack: "beans", BestBefore: "2027-01-01", Place: "cellar", Count: 3, Name: "beans"}
	same := b
	same.Count, same.Name, same.Keeping, same.Place = 9, "white beans", &foods.Keeping{}, " Cellar"
	if b.UID() != same.UID() {
		t.Error("count, name, keeping or case of the place change the identity")
	}
	seen := map[string]bool{b.UID(): true}
	for i, change := range []func(*Batch){
		func(b *Batch) { b.Pack = "peas" }, func(b *Batch) { b.BestBefore = "2027-01-02" }, func(b *Batch) { b.Place = "attic" },
		func(b *Batch) { b.Opened = "2026-12-01" }, func(b *Batch) { b.Renewal = "batteries" },
	} {
		other := b
		change(&other)
		if seen[other.UID()] {
			t.Errorf("change %d keeps the identity", i)
		}
		seen[other.UID()] = true
	}
}

func FuzzCalendar(f *testing.F) {
	f.Add("beans", "cellar, \"left\"", "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n")
	f.Add("a;b\\c\r\nEND:VEVENT", strings.Repeat("å", 80), "")
	f.Add("\x00", "\u2028", "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x@rationwright\r\nSEQUENCE:-1\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")
	f.Fuzz(func(t *testing.T, name, place, earlier string) {
		actions, err := Rotate([]Batch{{Pack: name, Name: name, Place: place, Count: 1, BestBefore: "2027-01-01"}}, "2026-12-01", 21)
		if err != nil {
			t.Fatal(err)
		}
		text, err := Calendar(actions, "2026-12-01", nil)
		if err != nil {
			t.Fatal(err)
		}
		cal, err := ical.NewDecoder(bytes.NewReader(text)).Decode()
		if err != nil || len(cal.Events()) != 1 {
			t.Fatalf("%v\n%q", err, text)
		}
		// Whatever lies in the earlier file, it is refused or followed.
		text, err = Calendar(actions, "2026-12-01", strings.NewReader(earlier))
		if err != nil {
			return
		}
		cal, err = ical.NewDecoder(bytes.NewReader(text)).Decode()
		if err != nil || len(cal.Events()) == 0 {
			t.Fatalf("%v\n%q", err, text)
		}
	})
}

var update = flag.Bool("update", false, "rewrite the golden calendar")

// The bytes of the calendar from one version of the program to the next: a
// regression value of our own, which the other parser accepts.
func TestCalendarGolden(t *testing.T) {
	const golden = "../../testdata/stores/rotation.ics"
	text, _ := calendarOf(t, calendarStock(), "2026-12-01", nil)
	parseCalendar(t, text)
	if *update {
		if err := os.WriteFile(golden, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(text, want) {
		t.Errorf("the calendar is not %s; if the change is meant, run with -update\n%s", golden, text)
	}
}

// TestUnsoundEarlierCalendars: an earlier calendar that is cut, empty, too large or
// no calendar is refused with the reason, not taken for one without events.
func TestUnsoundEarlierCalendars(t *testing.T) {
	whole, err := Calendar([]Action{{Do: "eat", Pack: "p", Name: "n", Count: 1, By: "2027-01-01", UID: "u" + uidDomain}}, "2026-11-25", nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Calendar(nil, "2026-11-25", strings.NewReader(string(whole))); err != nil {
		t.Fatalf("as it was written: %v", err)
	}
	event := "BEGIN:VEVENT\r\nUID:x\r\nEND:VEVENT\r\n"
	for name, c := range map[string]struct{ text, want string }{
		"empty":           {"", "it is empty"},
		"blank":           {" \r\n\r\n", "it is empty"},
		"cut":             {string(whole[:len(whole)/2]), "it breaks off inside a V"},
		"cut at its end":  {strings.TrimSuffix(string(whole), "END:VCALENDAR\r\n"), "it breaks off inside a VCALENDAR"},
		"no calendar":     {"pack,count\n", "does not begin with BEGIN:VCALENDAR"},
		"broken events":   {"BEGIN:VCALENDAR\r\n" + strings.Repeat("BEGIN:VEVENT\r\n", 100_000), "inside too many others"},
		"crossed":         {"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n", "ends a VCALENDAR that did not begin"},
		"too many events": {"BEGIN:VCALENDAR\r\n" + strings.Repeat(event, maxCalendarEvents+1) + "END:VCALENDAR\r\n", "more than 10000 events"},
		"too large":       {"BEGIN:VCALENDAR\r\n" + strings.Repeat("X-Y:z\r\n", maxCalendarBytes/7) + "END:VCALENDAR\r\n", "larger than 8 MiB"},
	} {
		if _, err := Calendar(nil, "2026-11-25", strings.NewReader(c.text)); !errors.Is(err, ErrCalendar) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// Seven batches due on one day: six on it, the seventh before it where there is a day, else
// on the next after it, and never one day skipped.
func TestDiary(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2026, 12, 1+n, 0, 0, 0, 0, time.UTC) }
	d := diary{first: day(0), events: map[time.Time]int{}}
	for i, want := range []int{0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 2} {
		if got := d.place(day(0)); !got.Equal(day(want)) {
			t.Errorf("batch %d of the first day stands on %v, want %v", i, got, day(want))
		}
	}
	for _, tt := range []struct{ by, want int }{{-9, 2}, {5, 5}, {2, 2}, {2, 2}, {2, 2}, {2, 2}, {2, 3}, {3, 3}, {1, 3}} {
		if got := d.place(day(tt.by)); !got.Equal(day(tt.want)) {
			t.Errorf("due on %v it stands on %v, want %v", day(tt.by), got, day(tt.want))
		}
	}
}

// The versions of an event go on from where the earlier calendar has them: 3 stays 3 where
// nothing changed, with its stamp, and is 4 where something did or the batch is gone, which
// is cancelled on the day that it had, or today where that is no day. A version that is no
// sensible number counts as the first.
func TestVersionsGoOn(t *testing.T) {
	stock := []Batch{{Pack: "beans", Count: 2, BestBefore: "2027-06-01", Place: "attic"}}
	text, _ := calendarOf(t, stock, "2026-12-01", nil)
	for _, tt := range []struct{ written, same, changed string }{
		{"3", "3", "4"}, {"1", "1", "2"}, {"0", "0", "1"}, {"-2", "0", "1"}, {"999999", "999999", "1000000"}, {"1000000", "0", "1"}, {"x", "0", "1"},
	} {
		before := strings.Replace(string(text), "SEQUENCE:0", "SEQUENCE:"+tt.written, 1)
		uid := stock[0].UID()
		read := func(batches []Batch, before string) ical.Event {
			after, _ := calendarOf(t, batches, "2027-01-01", strings.NewReader(before))
			return parseCalendar(t, after)[uid]
		}
		of := func(e ical.Event, name string) string { return e.Props.Get(name).Value }
		if e := read(stock, before); of(e, ical.PropSequence) != tt.same || !strings.HasPrefix(of(e, ical.PropDateTimeStamp), "20261201") {
			t.Errorf("version %s, nothing changed: %s of %s", tt.written, of(e, ical.PropSequence), of(e, ical.PropDateTimeStamp))
		}
		more := slices.Clone(stock)
		more[0].Count = 3
		if e := read(more, before); of(e, ical.PropSequence) != tt.changed || !strings.HasPrefix(of(e, ical.PropDateTimeStamp), "20270101") {
			t.Errorf("version %s, changed: %s of %s", tt.written, of(e, ical.PropSequence), of(e, ical.PropDateTimeStamp))
		}
		e := read(nil, before)
		if of(e, ical.PropSequence) != tt.changed || of(e, ical.PropDateTimeStart) != "20270601" || !strings.HasPrefix(of(e, ical.PropDateTimeStamp), "20270101") || of(e, ical.PropStatus) != "CANCELLED" {
			t.Errorf("version %s, gone: %+v", tt.written, e.Props)
		}
		e = read(nil, strings.Replace(before, "20270601", "2027-06-01", 1))
		if of(e, ical.PropDateTimeStart) != "20270101" {
			t.Errorf("gone, on no day: it stands on %s, want the day of the calendar", of(e, ical.PropDateTimeStart))
		}
	}
}

// What is gone is cancelled in the order of its identities, whatever that of the earlier
// calendar.
func TestCancelledInOrder(t *testing.T) {
	stock := calendarStock()
	a, _ := calendarOf(t, stock, "2026-12-01", nil)
	slices.Reverse(stock)
	for i := range stock {
		if stock[i].BestBefore != "" {
			stock[i].Count++
		}
	}
	events := strings.SplitAfter(string(a), "END:VEVENT\r\n")
	slices.Reverse(events[1 : len(events)-1])
	turned := strings.Join(events, "")
	x, err := Calendar(nil, "2026-12-02", bytes.NewReader(a))
	if err != nil {
		t.Fatal(err)
	}
	y, err := Calendar(nil, "2026-12-02", strings.NewReader(turned))
	if err != nil || !bytes.Equal(x, y) || strings.Count(string(x), "STATUS:CANCELLED") != 5 || turned == string(a) {
		t.Errorf("another order of the earlier calendar gives another one, %v:\n%s\n%s", err, x, y)
	}
}

// The description of an event: what, which batch, by when, the rule, the warning and the
// source, a line each, nothing in them that no calendar may hold.
func TestDescriptionOfAnEvent(t *testing.T) {
	today := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	a := Action{Do: DoEat, By: "2027-01-02", Pack: "be\nans", Name: "Beans", Count: 1, Batch: "2027-01-03", Rule: "a\trule", Warn: "too warm", Ref: Ref{Source: "table"}, UID: "x" + uidDomain}
	e := newEvent(&a, today, today)
	if got, want := e.GetProperty(ics.ComponentPropertyDescription).Value, "Pack: be ans\nBatch: 2027-01-03\nBy: 2027-01-02\na rule\ntoo warm\nSource: table"; unescaped(got) != want {
		t.Errorf("%q, want %q", unescaped(got), want)
	}
	if got := e.GetProperty(ics.ComponentPropertySummary).Value; unescaped(got) != "eat by: Beans, 1 pack" {
		t.Errorf("summary %q", got)
	}
	a = Action{Do: DoEat, By: "2027-01-02", Pack: "beans", Count: 2, Rule: "rule", UID: "x" + uidDomain}
	e = newEvent(&a, today, today)
	if got := unescaped(e.GetProperty(ics.ComponentPropertyDescription).Value); got != "Pack: beans\nBy: 2027-01-02\nrule" {
		t.Errorf("%q", got)
	}
	if got := unescaped(e.GetProperty(ics.ComponentPropertySummary).Value); got != "eat by: beans, 2 packs" || e.GetProperty(ics.ComponentPropertyLocation) != nil {
		t.Errorf("summary %q", got)
	}
}

// unescaped undoes the escapes of a text (RFC 5545, 3.3.11).
func unescaped(s string) string {
	return strings.NewReplacer(`\n`, "\n", `\,`, ",", `\;`, ";", `\\`, `\`).Replace(s)
}

// Four components inside one another are a calendar, five are none; ten thousand events are
// the most.
func TestLimitsOfAnEarlierCalendar(t *testing.T) {
	nested := func(n int) []byte {
		names := []string{"VCALENDAR", "VEVENT", "VALARM", "X-A", "X-B"}[:n]
		var b strings.Builder
		for _, name := range names {
			b.WriteString("BEGIN:" + name + "\r\n")
		}
		slices.Reverse(names)
		for _, name := range names {
			b.WriteString("END:" + name + "\r\n")
		}
		return []byte(b.String())
	}
	events := func(n int) []byte {
		return []byte("BEGIN:VCALENDAR\n" + strings.Repeat("BEGIN:VEVENT\nEND:VEVENT\n", n) + "END:VCALENDAR\n")
	}
	for _, tt := range []struct {
		name string
		text []byte
		why  string
	}{
		{"four inside one another", nested(4), ""}, {"five", nested(5), "line 5 begins a X-B inside too many others"},
		{"10000 events", events(10_000), ""}, {"one more", events(10_001), "it has more than 10000 events"},
	} {
		if got := unsoundCalendar(tt.text); got != tt.why {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.why)
		}
	}
}

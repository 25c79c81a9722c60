package stores

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	ics "github.com/arran4/golang-ical"
)

// ErrCalendar is wrapped by [Calendar] when the earlier calendar cannot be
// read.
var ErrCalendar = errors.New("not a calendar (iCalendar, RFC 5545) that can be read")

// Reminders are how many days before an event its alarms ring: common
// practice, no source.
var Reminders = []int{30, 7}

// Limits of an earlier calendar: far above what the program writes, and little
// enough for the memory of a small machine.
const (
	maxCalendarBytes  = 8 << 20
	maxCalendarEvents = 10_000
)

// lastReminder is how many days before an event its one alarm rings where those of
// [Reminders] would have rung already: common practice, no source.
const lastReminder = 1

// MostEventsADay is how many batches a household sees to on one day: common
// practice, no source.
const MostEventsADay = 6

// Calendar writes the dated actions as an iCalendar (RFC 5545): one all-day
// event for each batch, with alarms that are still to ring. No day has more than
// [MostEventsADay]: an event stands on its day or the last day before it that has
// room, counted from start (ISO); only where none has, on the next one after it.
// The same actions, start and earlier calendar give the same bytes.
//
// The UID of an event is that of its batch and lasts when counts, dates due or
// the order of the stock list change. Given the calendar written before, an
// event that has not changed is repeated as it was, a changed one counts its
// SEQUENCE up, and one whose batch is gone from the store is cancelled once,
// so that a calendar program removes it. Events of others in it are left out.
//
// Errors wrap [ErrDay] and [ErrCalendar].
func Calendar(actions []Action, start string, earlier io.Reader) ([]byte, error) {
	today, err := parseDay(start)
	if err != nil {
		return nil, fmt.Errorf("start: %w", err)
	}
	before, err := readEvents(earlier)
	if err != nil {
		return nil, err
	}
	byUID := map[string]*oldEvent{}
	for _, old := range before {
		byUID[old.uid] = old
	}
	cal := ics.NewCalendarFor("rationwright")
	cal.SetProductId("-//rationwright//rotation//EN")
	cal.SetMethod(ics.MethodPublish)
	cal.SetCalscale("GREGORIAN")
	days := diary{first: today, events: map[time.Time]int{}}
	for _, a := range actions {
		if a.By == "" {
			continue
		}
		by, err := parseDay(a.By)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", a.Pack, err)
		}
		e := newEvent(&a, days.place(by), today)
		if old := byUID[a.UID]; old != nil {
			old.kept = true
			old.follow(e)
		}
		cal.AddVEvent(e)
	}
	for _, old := range before {
		if !old.kept && !old.cancelled {
			cal.AddVEvent(old.cancel(today))
		}
	}
	return []byte(cal.Serialize(ics.WithNewLine("\r\n"))), nil
}

// diary counts the events of each day from the first on.
type diary struct {
	first  time.Time
	events map[time.Time]int
}

// place takes a place on the day by or the nearest before it that has one; where
// all are taken, or by is past, on the first day with room after it.
func (d *diary) place(by time.Time) time.Time {
	if by.Before(d.first) {
		by = d.first
	}
	day := by
	for !day.Before(d.first) && d.events[day] >= MostEventsADay {
		day = day.AddDate(0, 0, -1)
	}
	if day.Before(d.first) {
		for day = by; d.events[day] >= MostEventsADay; {
			day = day.AddDate(0, 0, 1)
		}
	}
	d.events[day]++
	return day
}

// amount is how much an action is about: "12 packs", "40 L".
func amount(a *Action) string {
	unit := a.Unit
	switch {
	case unit == "" && a.Count == 1:
		unit = "pack"
	case unit == "":
		unit = "packs"
	}
	return strconv.FormatFloat(a.Count, 'f', -1, 64) + " " + unit
}

// newEvent returns the event of one action on day.
func newEvent(a *Action, day, today time.Time) *ics.VEvent {
	summary := printable(fmt.Sprintf("%s: %s, %s", a.Do, cmp.Or(a.Name, a.Pack), amount(a)))
	e := allDay(a.UID, 0, day, today, summary)
	lines := []string{"Pack: " + a.Pack}
	if a.Batch != "" {
		lines = append(lines, "Batch: "+a.Batch)
	}
	lines = append(lines, "By: "+a.By, a.Rule)
	if a.Warn != "" {
		lines = append(lines, a.Warn)
	}
	if a.Source != "" {
		lines = append(lines, "Source: "+a.Source)
	}
	for i := range lines {
		lines[i] = printable(lines[i])
	}
	e.SetDescription(strings.Join(lines, "\n"))
	if place := printable(a.Place); place != "" {
		e.SetLocation(place)
	}
	e.SetTimeTransparency(ics.TransparencyTransparent)
	e.SetStatus(ics.ObjectStatusConfirmed)
	for _, days := range reminders(day, today) {
		alarm := e.AddAlarm()
		alarm.SetAction(ics.ActionDisplay)
		alarm.SetTrigger(fmt.Sprintf("-P%dD", days))
		alarm.SetProperty(ics.ComponentPropertyDescription, summary)
	}
	return e
}

// allDay returns the event of a whole day, as it is written on the day today.
func allDay(uid string, sequence int, day, today time.Time, summary string) *ics.VEvent {
	e := ics.NewEvent(uid)
	e.SetDtStampTime(today)
	e.SetSequence(sequence)
	e.SetAllDayStartAt(day)
	e.SetAllDayEndAt(day.AddDate(0, 0, 1))
	e.SetSummary(summary)
	return e
}

// reminders are how many days before day alarms ring, none of them before today.
func reminders(day, today time.Time) []int {
	var ahead []int
	for _, days := range append(slices.Clone(Reminders), lastReminder) {
		if !day.AddDate(0, 0, -days).Before(today) && (days != lastReminder || len(ahead) == 0) {
			ahead = append(ahead, days)
		}
	}
	return ahead
}

// printable replaces control characters, which no property may hold, and
// trims.
func printable(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s))
}

// Forms of dates in RFC 5545, and a bound on versions that are believed.
const (
	icalDate    = "20060102"
	icalStamp   = "20060102T150405Z"
	maxSequence = 1_000_000
)

// oldEvent is one of the program's own events in an earlier calendar.
type oldEvent struct {
	uid, stamp, says string
	summary, start   string
	sequence         int
	cancelled, kept  bool
}

// readEvents reads the program's own events of an earlier calendar, sorted by
// UID; nil has none.
func readEvents(r io.Reader) ([]*oldEvent, error) {
	if r == nil {
		return nil, nil
	}
	text, err := io.ReadAll(io.LimitReader(r, maxCalendarBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrCalendar, err)
	}
	if why := unsoundCalendar(text); why != "" {
		return nil, fmt.Errorf("%w: %s", ErrCalendar, why)
	}
	cal, err := ics.ParseCalendarWithOptions(bytes.NewReader(text))
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrCalendar, err)
	}
	var found []*oldEvent
	for _, e := range cal.Events() {
		if !strings.HasSuffix(e.Id(), uidDomain) {
			continue
		}
		old := &oldEvent{
			uid: e.Id(), stamp: value(e, ics.ComponentPropertyDtstamp), says: signature(e),
			summary: value(e, ics.ComponentPropertySummary), start: value(e, ics.ComponentPropertyDtStart),
			cancelled: value(e, ics.ComponentPropertyStatus) == string(ics.ObjectStatusCancelled),
		}
		// A sequence that is no sensible number counts as the first.
		if n, err := strconv.Atoi(value(e, ics.ComponentPropertySequence)); err == nil && n > 0 && n < maxSequence {
			old.sequence = n
		}
		found = append(found, old)
	}
	slices.SortStableFunc(found, func(a, b *oldEvent) int { return strings.Compare(a.uid, b.uid) })
	return slices.CompactFunc(found, func(a, b *oldEvent) bool { return a.uid == b.uid }), nil
}

// unsoundCalendar says why text is no whole calendar, "" where it is one: every
// BEGIN has its END and nothing is cut. A parser for calendars takes what is cut for
// a calendar with fewer events, and their identity would be lost.
func unsoundCalendar(text []byte) string {
	if len(text) > maxCalendarBytes {
		return fmt.Sprintf("it is larger than %d MiB", maxCalendarBytes>>20)
	}
	text = bytes.TrimSpace(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")))
	if len(text) == 0 {
		return "it is empty"
	}
	var open []string
	events, line := 0, 0
	for raw := range bytes.Lines(text) {
		line++
		word, name, ok := strings.Cut(strings.ToUpper(string(bytes.TrimSpace(raw[:min(len(raw), 80)]))), ":")
		if line == 1 && (word != "BEGIN" || name != "VCALENDAR") {
			return "it does not begin with BEGIN:VCALENDAR"
		}
		switch {
		case ok && word == "BEGIN":
			if open = append(open, name); len(open) > 4 {
				return fmt.Sprintf("line %d begins a %s inside too many others", line, name)
			}
			if name == "VEVENT" {
				events++
			}
		case ok && word == "END":
			if len(open) == 0 || open[len(open)-1] != name {
				return fmt.Sprintf("line %d ends a %s that did not begin", line, name)
			}
			open = open[:len(open)-1]
		}
		if events > maxCalendarEvents {
			return fmt.Sprintf("it has more than %d events", maxCalendarEvents)
		}
	}
	if len(open) > 0 {
		return "it breaks off inside a " + open[len(open)-1]
	}
	return ""
}

func value(e *ics.VEvent, p ics.ComponentProperty) string {
	if v := e.GetProperty(p); v != nil {
		return v.Value
	}
	return ""
}

// signature is what makes two versions of an event the same to a reader.
func signature(e *ics.VEvent) string {
	var parts []string
	for _, p := range []ics.ComponentProperty{
		ics.ComponentPropertyDtStart, ics.ComponentPropertyDtEnd, ics.ComponentPropertySummary,
		ics.ComponentPropertyDescription, ics.ComponentPropertyLocation, ics.ComponentPropertyStatus,
	} {
		parts = append(parts, value(e, p))
	}
	return strings.Join(parts, "\x1f")
}

// follow makes e the next version of an event that was written before.
func (o *oldEvent) follow(e *ics.VEvent) {
	if o.says == signature(e) {
		e.SetSequence(o.sequence)
		if stamp, err := time.Parse(icalStamp, o.stamp); err == nil {
			e.SetDtStampTime(stamp)
		}
		return
	}
	e.SetSequence(o.sequence + 1)
}

// cancel returns the event that takes o out of a calendar.
func (o *oldEvent) cancel(today time.Time) *ics.VEvent {
	day, err := time.Parse(icalDate, o.start)
	if err != nil {
		day = today
	}
	e := allDay(o.uid, o.sequence+1, day, today, printable(o.summary))
	e.SetStatus(ics.ObjectStatusCancelled)
	return e
}

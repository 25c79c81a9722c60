package main

import (
	"strconv"
	"strings"

	"github.com/emersion/go-ical" // a parser that shares no code with the writer
	"github.com/rogpeppe/go-internal/testscript"
)

// identities parses a calendar and returns the identities of its events.
func identities(ts *testscript.TestScript, file string) map[string]bool {
	cal, err := ical.NewDecoder(strings.NewReader(ts.ReadFile(file))).Decode()
	if err != nil {
		ts.Fatalf("%s: %v", file, err)
	}
	found := map[string]bool{}
	for _, e := range cal.Events() {
		uid, err := e.Props.Text(ical.PropUID)
		if err != nil || uid == "" || found[uid] {
			ts.Fatalf("%s: identity %q, %v: none, or twice", file, uid, err)
		}
		if _, err := e.DateTimeStart(nil); err != nil {
			ts.Fatalf("%s: %s: %v", file, uid, err)
		}
		found[uid] = true
	}
	return found
}

// calendar counts the events of a calendar.
func calendar(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: calendar FILE N")
	}
	if n := len(identities(ts, args[0])); strconv.Itoa(n) != args[1] {
		ts.Fatalf("%s has %d events, want %s", args[0], n, args[1])
	}
}

// kept counts the events that two calendars have in common.
func kept(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: kept OLD NEW N")
	}
	old, n := identities(ts, args[0]), 0
	for uid := range identities(ts, args[1]) {
		if old[uid] {
			n++
		}
	}
	if strconv.Itoa(n) != args[2] {
		ts.Fatalf("%s and %s have %d events in common, want %s", args[0], args[1], n, args[2])
	}
}

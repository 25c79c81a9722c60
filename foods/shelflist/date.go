package shelflist

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"rationwright/nutrients/table"
)

var (
	isoMonth   = regexp.MustCompile(`^([0-9]{4})[-/.]([0-9]{1,2})$`)
	monthYear  = regexp.MustCompile(`^([0-9]{1,2})[-/. ]([0-9]{4})$`)
	dayMonth   = regexp.MustCompile(`^([0-9]{1,2})[-/. ]([0-9]{1,2})[-/. ]([0-9]{4})$`)
	namedMonth = regexp.MustCompile(`^(?:([0-9]{1,2})(?:st|nd|rd|th)? )?([a-z]{3,9})\.? ([0-9]{4})$`)
)

// parseBestBefore reads a date as packs carry it. A month alone lasts to its last
// day: that is what "best before end" says (Regulation (EU) No 1169/2011, annex X).
// Two numbers of which each could be the month are refused, as is a year of two digits.
func parseBestBefore(s string) (string, *Fault) {
	s = strings.Join(strings.Fields(s), " ")
	s = strings.TrimPrefix(strings.TrimPrefix(s, "end "), "of ")
	num := func(text string) int {
		n, err := strconv.Atoi(text)
		if err != nil {
			return -1 // what a pattern of digits matched is no date then
		}
		return n
	}
	year, month, day := 0, 0, -1 // no day: the last of the month
	if m := isoMonth.FindStringSubmatch(s); m != nil {
		year, month = num(m[1]), num(m[2])
	} else if m := monthYear.FindStringSubmatch(s); m != nil {
		year, month = num(m[2]), num(m[1])
	} else if m := dayMonth.FindStringSubmatch(s); m != nil {
		day, month, year = num(m[1]), num(m[2]), num(m[3])
		switch {
		case month > 12:
			day, month = month, day
		case day <= 12 && day != month:
			return "", unclear("write it as year-month-day, such as 2027-03-31", "the date %q could be of two months", s)
		}
	} else if m := namedMonth.FindStringSubmatch(s); m != nil {
		year = num(m[3])
		for i := time.January; i <= time.December; i++ {
			if name := strings.ToLower(i.String()); m[2] == name || m[2] == name[:3] {
				month = int(i)
			}
		}
		day = num(m[1])
	} else {
		if at, _, err := table.ParseDay(s); err == nil {
			return at.Format(time.DateOnly), nil
		}
		return "", unclear("write it as 2027-03-31 or 2027-03", "%q is no date", s)
	}
	if month < 1 || month > 12 {
		return "", unclear("write it as 2027-03-31 or 2027-03", "%q is no date", s)
	}
	at := time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC) // the last day of the month
	if day == 0 || day > at.Day() {
		return "", unclear("write a day that the month has", "%q is no date", s)
	}
	if day > 0 {
		at = time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	}
	text := at.Format(time.DateOnly)
	if _, fix, err := table.ParseDay(text); err != nil {
		return "", unclear(fix, "%q is no date", s)
	}
	return text, nil
}

package shelflist

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// TestEveryMonth: each month by its name, its first three letters and its number lasts to
// its last day, that of a leap year too; a day of it is that day, and the day after the
// last is none. The last days are counted from the first of the month after.
func TestEveryMonth(t *testing.T) {
	for _, year := range []int{2027, 2028} {
		for month := time.January; month <= time.December; month++ {
			last := time.Date(year, month, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 1, -1)
			iso := last.Format(time.DateOnly)
			name := strings.ToLower(month.String())
			for _, word := range []string{
				fmt.Sprintf("%s %d", name, year), fmt.Sprintf("%s %d", name[:3], year), fmt.Sprintf("end of %s. %d", name[:3], year),
				fmt.Sprintf("%02d/%d", month, year), fmt.Sprintf("%d-%d", year, month), fmt.Sprintf("%d %s %d", last.Day(), name, year),
				iso, fmt.Sprintf("%d.%d.%d", last.Day(), month, year),
			} {
				if got, fault := parseBestBefore(word); fault != nil || got != iso {
					t.Errorf("%q is %q (%v), want %s", word, got, fault, iso)
				}
			}
			first := fmt.Sprintf("%d-%02d-01", year, month)
			if got, fault := parseBestBefore(fmt.Sprintf("1st %s %d", name, year)); fault != nil || got != first {
				t.Errorf("the first of %s is %q (%v), want %s", name, got, fault, first)
			}
			for _, word := range []string{fmt.Sprintf("%d %s %d", last.Day()+1, name, year), fmt.Sprintf("0 %s %d", name, year), fmt.Sprintf("00.%d.%d", month, year), fmt.Sprintf("1 %s %dx", name, year)} {
				if got, fault := parseBestBefore(word); fault == nil {
					t.Errorf("%q is taken for %s", word, got)
				}
			}
		}
	}
	for _, word := range []string{"13/2027", "00/2027", "2027-13", "2027-0", "smarch 2027"} {
		if got, fault := parseBestBefore(word); fault == nil {
			t.Errorf("%q is taken for %s", word, got)
		}
	}
}

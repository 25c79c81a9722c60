package rules

import (
	"time"

	"rationwright/foods"
	"rationwright/solver/ration"
)

// LastDay returns the last day of the plan on which a line of the stock may be
// eaten: the day of its date, or of the keeping time of a pack that is open
// already, whichever comes first; ok is false where neither is known.
// [foods.Keeping.OpenDays] counts the days of an open pack.
func LastDay(req *ration.Request, line foods.StockLine) (day int, ok bool) {
	day, ok = DayOf(req, line.BestBefore)
	opened, isOpen := DayOf(req, line.Opened)
	if !isOpen {
		return day, ok
	}
	end := opened + line.Pack.Food.Keeping.OpenDays() - 1
	if !ok || end < day {
		return end, true
	}
	return day, true
}

// DayOf returns which day of the plan an ISO date is, 1 for the first; ok is
// false where there is no date or no start.
func DayOf(req *ration.Request, date string) (day int, ok bool) {
	start, err := time.Parse(time.DateOnly, req.Start)
	if err != nil {
		return 0, false
	}
	end, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return 0, false
	}
	return int(end.Sub(start).Hours()/24) + 1, true
}

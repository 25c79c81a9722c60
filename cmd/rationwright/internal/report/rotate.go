package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"rationwright/foods/stores"
	"rationwright/solver"
)

// Rotate lays out what to do with a store in the order in which it is due, and
// then how to keep it fresh for good.
func Rotate(r *solver.Rotation, u Units) *Sheet {
	s := &Sheet{Alerts: notFed(r.Refused)}
	s.Add(rotateHead(r, u))
	until := ""
	if start, err := time.Parse(time.DateOnly, r.Start); err == nil {
		until = start.AddDate(0, r.Months, 0).Format(time.DateOnly)
	}
	pick := func(is func(a *stores.Action) bool) []stores.Action {
		var list []stores.Action
		for i := range r.Actions {
			if is(&r.Actions[i]) {
				list = append(list, r.Actions[i])
			}
		}
		return list
	}
	late := pick(func(a *stores.Action) bool { return a.Time == stores.Overdue })
	soon := pick(func(a *stores.Action) bool { return a.Time == stores.Soon })
	later := pick(func(a *stores.Action) bool { return a.Time == stores.Later && (until == "" || a.By <= until) })
	unknown := pick(func(a *stores.Action) bool { return a.Time == stores.NotKnown })
	s.Add(due("Past its date", late, "Food past a printed date is a matter of quality unless it says throw away; replace it."))
	now := due("This month: eat and buy back, refill, replace", soon, "The oldest batch of a food first: \"order\" says which comes next.")
	if len(soon) == 0 {
		now = Section{Title: "This month", Lead: []string{"Nothing is due in the next 30 days."}}
	}
	s.Add(now)
	if len(later) > 0 {
		s.Add(byMonth(fmt.Sprintf("The %d months after %s", r.Months, r.Start), later))
	}
	if far := len(r.Actions) - len(late) - len(soon) - len(later) - len(unknown); far > 0 {
		s.Add(Section{Lead: []string{fmt.Sprintf("%s later than that: --months goes further, --format ics holds all.", count(far, "batch is due", "batches are due"))}})
	}
	s.Add(due("Find the date", unknown, "Look on the pack and note best_before in the stock list."))
	s.Add(programme(r))
	s.Add(followed(r))
	return s
}

func rotateHead(r *solver.Rotation, u Units) Section {
	temp := fmt.Sprintf("Stored at %s", degrees(r.TempC, u))
	switch {
	case r.Factor > 1+1e-9:
		temp += fmt.Sprintf(": keeping times counted from the day of buying are %s times those at %s, at most twice", figure(r.Factor), degrees(solver.UsualStoreC, u))
	case r.Factor < 1-1e-9:
		temp += fmt.Sprintf(": every time left is cut to %s %% of that at %s", decimals(math.Floor(100*r.Factor), 0), degrees(solver.UsualStoreC, u))
	default:
		temp += ", the temperature of the keeping times"
	}
	sec := Section{Lead: []string{
		fmt.Sprintf("What to use up, refill and replace, counted from %s.", r.Start),
		temp + " (half for every 11 °C more: USDA commodity storage table). A printed date is never put later.",
	}}
	if demo := fromDemo(&solver.Plan{Request: &solver.RequestRecord{Demo: r.Demo}}); demo != "" {
		sec.Lead = append(sec.Lead, demo)
	}
	return sec
}

func degrees(c float64, u Units) string {
	v, unit := stores.Units(u).Temperature(c)
	return figure(math.Round(v*10)/10) + " " + unit
}

// due is a table of batches.
func due(title string, list []stores.Action, note string) Section {
	if len(list) == 0 {
		return Section{}
	}
	g := &Grid{Columns: []Column{{Name: "by"}, {Name: "do", Wrap: true}, {Name: "count", Right: true}, {Name: "what", Wrap: true}, {Name: "pack", Wrap: true}, {Name: "order", Right: true}, {Name: "why", Wrap: true}}}
	for _, a := range list {
		do := a.Do
		if a.Time == stores.NotKnown {
			do = "note it"
		}
		why := a.Rule
		if a.Warn != "" {
			why += ". TOO WARM: " + a.Warn
		}
		if a.Place != "" {
			why += ". Place: " + a.Place
		}
		g.append("", a.By, do, countOf(&a), nameOf(&a), a.Pack, strconv.Itoa(a.Order), why)
	}
	return Section{Title: title, Table: g, Notes: []string{note}}
}

func nameOf(a *stores.Action) string {
	if a.Name == "" {
		return a.Pack
	}
	return a.Name
}

// countOf writes how many, or how many litres.
func countOf(a *stores.Action) string {
	if a.Unit == "L" {
		return figure(a.Count) + " L"
	}
	return figure(a.Count)
}

// byMonth is the batches due later, month by month.
func byMonth(title string, list []stores.Action) Section {
	g := &Grid{Columns: []Column{{Name: "by"}, {Name: "do"}, {Name: "count", Right: true}, {Name: "what", Wrap: true}, {Name: "pack", Wrap: true}, {Name: "place", Wrap: true}}}
	months, of := stores.ByMonth(list)
	for _, month := range months {
		for _, a := range of[month] {
			g.append(month, a.By, a.Do, countOf(&a), nameOf(&a), a.Pack, a.Place)
		}
	}
	return Section{Title: title, Table: g}
}

// programme is how many packs a month keep the store inside its dates.
func programme(r *solver.Rotation) Section {
	p := &r.Programme
	if len(p.Lines) == 0 {
		return Section{}
	}
	cost := Column{Name: strings.TrimSuffix("a year, "+clean(r.Currency), ", "), Right: true}
	g := &Grid{Columns: []Column{{Name: "hold", Right: true}, {Name: "what", Wrap: true}, {Name: "pack", Wrap: true}, {Name: "keeps, days", Right: true}, {Name: "eat and buy back", Wrap: true}, cost}}
	var notHeld []string
	for _, l := range p.Lines {
		keeps, year := "", ""
		if l.KeepDays > 0 {
			keeps = decimals(float64(l.KeepDays), 0)
		}
		if l.HasCost {
			year = money(l.YearCost)
		}
		g.append("", strconv.Itoa(l.Target), l.Name, l.Pack, keeps, l.Rhythm, year)
		if !l.NoWaste {
			notHeld = append(notHeld, fmt.Sprintf("- %s: %s.", clean(l.Name), l.Why))
		}
	}
	sec := Section{Title: "The store for good: eat from it, buy the same back", Table: g}
	total := fmt.Sprintf("%s packs a month, %s a year. The food is eaten: it costs nothing on top of daily meals where the household eats it anyway.",
		figure(p.PerMonth), strings.TrimSpace(money(p.YearCost)+" "+clean(r.Currency)))
	if p.Unpriced > 0 {
		total += fmt.Sprintf(" %s no price or no rhythm and is not counted.", count(p.Unpriced, "line has", "lines have"))
	}
	sec.Notes = append(sec.Notes, total)
	if len(notHeld) > 0 {
		sec.Notes = append(sec.Notes, "Not without waste:")
		sec.Notes = append(sec.Notes, notHeld...)
	}
	return sec
}

// followed says what the programme comes to over the simulated months.
func followed(r *solver.Rotation) Section {
	if len(r.Followed) == 0 {
		return Section{}
	}
	var wasted, low, early []string
	bought, eaten, out := 0, 0, 0
	for _, f := range r.Followed {
		bought, eaten, out = bought+f.Bought, eaten+f.Eaten, out+f.Wasted
		if f.Wasted > 0 {
			wasted = append(wasted, fmt.Sprintf("- %s: %s out of date.", f.Pack, count(f.Wasted, "pack goes", "packs go")))
		}
		if f.Least < f.Target {
			low = append(low, fmt.Sprintf("- %s: down to %d of %d.", f.Pack, f.Least, f.Target))
		}
		if f.Tight > 0 {
			early = append(early, fmt.Sprintf("- %s: %s due inside the month they are eaten in, so eat them first.", f.Pack, count(f.Tight, "pack is", "packs are")))
		}
	}
	sec := Section{Title: fmt.Sprintf("Followed for %d months", solver.SimulatedMonths)}
	sec.Lead = append(sec.Lead, fmt.Sprintf("%s bought, %s eaten, %s thrown away.", count(bought, "pack", "packs"), decimals(float64(eaten), 0), decimals(float64(out), 0)))
	if len(wasted) == 0 {
		sec.Lead = append(sec.Lead, "Nothing that the programme holds ever goes out of date.")
	}
	if len(low) == 0 {
		sec.Lead = append(sec.Lead, "The store never falls below what is to be held.")
	}
	sec.Lead = append(append(append(sec.Lead, wasted...), low...), early...)
	return sec
}

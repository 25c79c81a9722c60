package report

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/solver/stockpile"
)

// Rotate lays out what to do with a store in the order in which it is due, and
// then how to keep it fresh for good.
func Rotate(r *stockpile.Rotation, u sheet.Units) *sheet.Sheet {
	s := &sheet.Sheet{Alerts: headline.Of(r.NotFed).Lines()}
	s.Add(rotateHead(r, u))
	until := ""
	if start, err := time.Parse(time.DateOnly, r.Start); err == nil {
		until = start.AddDate(0, r.Months, 0).Format(time.DateOnly)
	}
	in, far := map[string][]stores.Action{}, 0
	for _, a := range r.Actions {
		if a.Time == stores.Later && until != "" && a.By > until {
			far++
			continue
		}
		in[a.Time] = append(in[a.Time], a)
	}
	s.Add(due("Past its date", in[stores.Overdue], "Food past a printed date is a matter of quality unless it says throw away; replace it."))
	now := due("This month: eat and buy back, refill, replace", in[stores.Soon], "The oldest batch of a food first: \"order\" says which comes next.")
	if len(in[stores.Soon]) == 0 {
		now = sheet.Section{Title: "This month", Lead: []string{"Nothing is due in the next 30 days."}}
	}
	s.Add(now)
	s.Add(byMonth(fmt.Sprintf("The %d months after %s", r.Months, r.Start), in[stores.Later]))
	var further sheet.Section
	further.Lead.If(far > 0, "%s later than that: --months goes further, --format ics holds all.", sheet.Count(far, "batch is due", "batches are due"))
	s.Add(further)
	s.Add(due("Find the date", in[stores.NotKnown], "Look on the pack and write best_before into the stock list."))
	s.Add(programme(r))
	s.Add(followed(r))
	return s
}

func rotateHead(r *stockpile.Rotation, u sheet.Units) sheet.Section {
	temp := fmt.Sprintf("Stored at %s", degrees(r.TempC, u))
	switch {
	case r.Factor > 1+1e-9:
		temp += fmt.Sprintf(": keeping times counted from the day of buying are %s times those at %s, at most twice", sheet.Figure(r.Factor), degrees(stockpile.UsualStoreC, u))
	case r.Factor < 1-1e-9:
		temp += fmt.Sprintf(": every time left is cut to %s %% of that at %s", sheet.Decimals(math.Floor(100*r.Factor), 0), degrees(stockpile.UsualStoreC, u))
	default:
		temp += ", for which the keeping times hold"
	}
	sec := sheet.Section{Lead: []string{
		fmt.Sprintf("What to use up, refill and replace, counted from %s.", r.Start),
		temp + " (11 °C more halve them: USDA commodity storage table). A printed date is never put later.",
	}}
	sec.Lead.If(view.Demo(r.Demo) != "", "%s", view.Demo(r.Demo))
	return sec
}

func degrees(c float64, u sheet.Units) string {
	v, unit := stores.Units(u).Temperature(c)
	return sheet.Figure(math.Round(v*10)/10) + " " + unit
}

// due is a table of batches.
func due(title string, list []stores.Action, note string) sheet.Section {
	g := sheet.NewGrid("by", "~do", ">count", "~what", "=pack", ">order", "~why")
	for _, a := range list {
		do := a.Do
		if a.Time == stores.NotKnown {
			do = "write down the date"
		}
		why := a.Rule + sheet.Around(". TOO WARM: ", a.Warn, "") + sheet.Around(". Place: ", a.Place, "")
		g.Row("", a.By, do, countOf(&a), cmp.Or(a.Name, a.Pack), a.Pack, strconv.Itoa(a.Order), why)
	}
	return sheet.Section{Title: title, Table: g, Notes: []string{note}}
}

// countOf writes how many, or how many litres.
func countOf(a *stores.Action) string {
	if a.Unit == "L" {
		return sheet.Figure(a.Count) + " L"
	}
	return sheet.Figure(a.Count)
}

// byMonth is the batches due later, month by month.
func byMonth(title string, list []stores.Action) sheet.Section {
	g := sheet.NewGrid("by", "do", ">count", "~what", "=pack", "~place")
	months, of := stores.ByMonth(list)
	for _, month := range months {
		for _, a := range of[month] {
			g.Row(month, a.By, a.Do, countOf(&a), cmp.Or(a.Name, a.Pack), a.Pack, a.Place)
		}
	}
	return sheet.Section{Title: title, Table: g}
}

// programme is how many packs a month keep the store inside its dates.
func programme(r *stockpile.Rotation) sheet.Section {
	p := &r.Programme
	g := sheet.NewGrid(">hold", "~what", "=pack", ">keeps, days", "~eat and buy back", strings.TrimSuffix(">a year, "+facts.Printable(r.Currency), ", "))
	var notHeld sheet.Lines
	for _, l := range p.Lines {
		keeps, year := "", ""
		if l.KeepDays > 0 {
			keeps = sheet.Decimals(float64(l.KeepDays), 0)
		}
		if l.HasCost {
			year = sheet.Money(l.YearCost)
		}
		g.Row("", strconv.Itoa(l.Target), l.Name, l.Pack, keeps, l.Rhythm, year)
		notHeld.If(!l.NoWaste, "- %s: %s.", facts.Printable(l.Name), l.Why)
	}
	sec := sheet.Section{Title: "Steady rotation: eat from it, buy the same back", Table: g}
	total := fmt.Sprintf("%s packs a month, %s a year. The food is eaten: it costs nothing on top of daily meals where the household eats it anyway.",
		sheet.Figure(p.PerMonth), strings.TrimSpace(sheet.Money(p.YearCost)+" "+facts.Printable(r.Currency)))
	if p.Unpriced > 0 {
		total += fmt.Sprintf(" %s not counted.", sheet.Count(p.Unpriced, "line without a price or a rhythm is", "lines without a price or a rhythm are"))
	}
	sec.Notes = append(sec.Notes, total)
	sec.List("Not without waste:", notHeld)
	return sec
}

// followed says what the programme comes to over the simulated months.
func followed(r *stockpile.Rotation) sheet.Section {
	if len(r.Followed) == 0 {
		return sheet.Section{}
	}
	var wasted, low, early sheet.Lines
	bought, eaten, out := 0, 0, 0
	for _, f := range r.Followed {
		bought, eaten, out = bought+f.Bought, eaten+f.Eaten, out+f.Wasted
		wasted.If(f.Wasted > 0, "- %s: %s out of date.", f.Pack, sheet.Count(f.Wasted, "pack goes", "packs go"))
		low.If(f.Least < f.Target, "- %s: down to %d of %d.", f.Pack, f.Least, f.Target)
		early.If(f.Tight > 0, "- %s: %s due inside the month they are eaten in, so eat them first.", f.Pack, sheet.Count(f.Tight, "pack is", "packs are"))
	}
	sec := sheet.Section{Title: fmt.Sprintf("Simulated over %d months", stockpile.SimulatedMonths)}
	sec.Lead = append(sec.Lead, fmt.Sprintf("%s bought, %s eaten, %s thrown away.", sheet.Count(bought, "pack", "packs"), sheet.Decimals(float64(eaten), 0), sheet.Decimals(float64(out), 0)))
	sec.Lead.If(len(wasted) == 0, "Nothing that the programme holds ever goes out of date.")
	sec.Lead.If(len(low) == 0, "The store never falls below what is to be held.")
	sec.Lead = append(append(append(sec.Lead, wasted...), low...), early...)
	return sec
}

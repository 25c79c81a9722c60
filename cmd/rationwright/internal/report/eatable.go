package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// mostLoosened is how many planning rules that give are told one by one.
const mostLoosened = 3

// farFromLeast is how many times what is proven to be the least of sodium is called far
// from it: own planning rule, no source.
const farFromLeast = 1.25

// eatable says in a line what the second aim costs and brings, and what [Loosened] says.
func eatable(p *ration.Plan, u sheet.Units) []string {
	var lines []string
	e := p.Eatable
	if e == nil {
		return nil
	}
	if f := p.First; f != nil && e.Price != nil {
		line := "Nothing that people would rather eat was found within the slack."
		if p.Value != nil && (e.Products != f.Products || e.MostSizes != f.MostSizes || e.Crumbs != f.Crumbs || *e.Price != 0) {
			line = fmt.Sprintf("%s more than the best found (%s) brings meals that people would rather eat: %s.",
				Total(p, p.Least, *p.Value-f.Value, u), sheet.GapPercent(*e.Price), changes(e, f))
		}
		if e.Stopped != "" {
			line += " The search for these was stopped " + e.Stopped + "."
		}
		lines = append(lines, line)
	}
	if l := e.LittleSodium; l != nil {
		lines = append(lines, littleSodium(l))
	}
	if asked := ration.MainsIn(float64(p.Days)); p.First != nil && e.Mains < asked {
		lines = append(lines, fmt.Sprintf("Different mains that can be made of it: %d, of the %d that are sought.", e.Mains, asked))
	}
	return append(lines, Loosened(p)...)
}

// changes says what the second aim did to the first, what got worse last.
func changes(e *ration.Eatable, f *ration.First) string {
	better, worse := []string{before(e.Products, f.Products, "food", "foods")}, []string(nil)
	for _, c := range []struct {
		now, was       int
		head           string
		one, many, end string
	}{
		{e.MostSizes, f.MostSizes, "at most ", "pack size", "pack sizes", " of any one"},
		{e.Crumbs, f.Crumbs, "", "amount", "amounts", " under a portion"},
	} {
		line := c.head + before(c.now, c.was, c.one, c.many) + c.end
		if c.now > c.was {
			worse = append(worse, line)
		} else {
			better = append(better, line)
		}
	}
	line := strings.Join(better, ", ")
	if len(worse) > 0 {
		line += "; but " + strings.Join(worse, ", ")
	}
	return line
}

// littleSodium says what those who are to have little sodium have, and what is proven.
func littleSodium(l *ration.LittleSodium) string {
	who := sheet.Names(l.People)
	if len(l.People) > 1 {
		who += " together"
	}
	has := fmt.Sprintf("Sodium of %s: %s mg a day", who, sheet.Amount(l.Amount))
	if l.Least <= 0 {
		return has + "; there was no time to seek less within the slack: more --time does."
	}
	has += fmt.Sprintf(", the least that was found within the slack; it is proven that no plan within it has less than %s mg.", sheet.Amount(l.Least))
	if l.Amount > farFromLeast*l.Least {
		has += " There may be plans with clearly less: more --time looks for them."
	}
	return has
}

// Loosened says in a line which of this program's own planning rules had to give; nil
// where none had.
func Loosened(p *ration.Plan) []string {
	e := p.Eatable
	if e == nil {
		return nil
	}
	var gave []string
	for _, l := range e.Loosened[:min(len(e.Loosened), mostLoosened)] {
		unit := l.Unit + " a day"
		if strings.HasPrefix(l.Unit, "%") {
			unit = l.Unit
		}
		gave = append(gave, fmt.Sprintf("%s has %s %s of %s, over %s", l.Person, sheet.Amount(l.Amount), unit, l.Kind, sheet.Amount(l.Limit)))
	}
	if more := len(e.Loosened) - len(gave); more > 0 {
		gave = append(gave, fmt.Sprintf("%d more", more))
	}
	if len(gave) == 0 {
		return nil
	}
	line := "Nothing fits all of this program's own rules of what people gladly eat, so they give, by as little as was found: " + strings.Join(gave, "; ") + "."
	return append([]string{line}, sparing(p)...)
}

// atFloor is how near its floor, as a part of it, a need is called scarce: own planning
// rule, no source.
const atFloor = 1.02

// sparing names, for those for whom rules give, the tablets they are asked about of what
// the ration just reaches: what forces so much of one food.
func sparing(p *ration.Plan) []string {
	var lines sheet.Lines
	for _, e := range p.People {
		if !slices.ContainsFunc(p.Eatable.Loosened, func(l ration.Loosened) bool { return l.Person == e.Name }) {
			continue
		}
		var names []string
		for _, tablet := range e.AskAbout {
			if slices.ContainsFunc(e.Needs, func(n ration.PersonNeed) bool {
				return n.Nutrient == tablet.Nutrient && n.Floor != nil && n.Amount <= atFloor**n.Floor
			}) {
				names = append(names, strconv.Quote(tablet.Name))
			}
		}
		lines.If(len(names) > 0, "A tablet may spare this: ask a pharmacist or a clinician whether %s should take %s; written under supplements in the household file it is counted.", facts.Printable(e.Name), sheet.Names(names))
	}
	return lines
}

// before is a count with the one that it replaces.
func before(now, was int, one, many string) string {
	if now == was {
		return sheet.Count(now, one, many)
	}
	return fmt.Sprintf("%s instead of %d", sheet.Count(now, one, many), was)
}

package report

import (
	"fmt"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// Compare lays out plans of least cost, weight and volume side by side, and the
// frontier between two of them.
func Compare(c *plan.Comparison, u sheet.Units) *sheet.Sheet {
	first := c.Plans[0]
	if first.Infeasible() {
		return Plan(first, u)
	}
	s := &sheet.Sheet{Alerts: headline.Plans(c.Plans).Lines()}
	s.Add(sideBySide(c, u))
	s.Add(comparedPacks(c))
	s.Add(frontier(c, u))
	s.Add(assumed(first))
	return s
}

// sideBySide sets the totals of the plans beside each other.
func sideBySide(c *plan.Comparison, u sheet.Units) sheet.Section {
	g := sheet.NewGrid("")
	for _, p := range c.Plans {
		g.Column(">" + "least " + string(p.Least))
	}
	line := func(name string, of func(*ration.Plan) string) {
		row := []string{name}
		for _, p := range c.Plans {
			row = append(row, of(p))
		}
		g.Row("", row...)
	}
	line(strings.TrimSuffix("cost, "+currency(c.Plans[0]), ", "), func(p *ration.Plan) string { return sheet.Money(p.Totals.Cost) })
	line("weight", func(p *ration.Plan) string { return u.Weight(p.Totals.WeightKg) })
	line("shelf space", func(p *ration.Plan) string { return u.Space(p.Totals.VolumeL) })
	line("water to store", func(p *ration.Plan) string { return u.Water(p.Totals.WaterL) })
	line("heat for cooking", func(p *ration.Plan) string { return u.Heat(p.Totals.HeatMJ) })
	line("packs", func(p *ration.Plan) string {
		n := 0
		for _, k := range p.Packs {
			n += k.Count
		}
		return strconv.Itoa(n)
	})
	line("foods", func(p *ration.Plan) string {
		seen := map[string]bool{}
		for _, k := range p.Packs {
			seen[k.Food] = true
		}
		return strconv.Itoa(len(seen))
	})
	line("proven within", func(p *ration.Plan) string {
		if p.Gap == nil {
			return "not known"
		}
		return sheet.GapPercent(*p.Gap)
	})
	sec := sheet.Section{Title: "Three plans for the same people, each the least of one thing", Table: g,
		Notes: []string{"\"proven within\": how near the plan's own least is to the best possible."}}
	sec.Lead.If(demoOf(c.Plans[0]) != "", "%s", demoOf(c.Plans[0]))
	return sec
}

// comparedPacks lists every pack with how many each plan has of it.
func comparedPacks(c *plan.Comparison) sheet.Section {
	g := sheet.NewGrid("=pack")
	counts := map[string][]int{}
	var keys []string
	for k, p := range c.Plans {
		g.Column(">" + "least " + string(p.Least))
		for _, line := range p.Packs {
			if counts[line.Pack] == nil {
				counts[line.Pack] = make([]int, len(c.Plans))
				keys = append(keys, line.Pack)
			}
			counts[line.Pack][k] += line.Count
		}
	}
	for _, key := range keys {
		row := []string{key}
		for _, n := range counts[key] {
			text := ""
			if n > 0 {
				text = strconv.Itoa(n)
			}
			row = append(row, text)
		}
		g.Row("", row...)
	}
	return sheet.Section{Title: "Packs in each", Table: g}
}

// frontier is how little of one total is possible for each limit on another.
func frontier(c *plan.Comparison, u sheet.Units) sheet.Section {
	f := c.Frontier
	if f == nil {
		return sheet.Section{}
	}
	p := c.Plans[0]
	g := sheet.NewGrid(">at most", ">plan", ">cost", ">weight", ">shelf space", ">proven within")
	for _, point := range f.Points {
		proven := ""
		if point.Gap != nil {
			proven = sheet.GapPercent(*point.Gap)
		}
		g.Row("", Total(p, f.Within, point.Limit, u), strconv.Itoa(point.Plan), costOf(p, point.Cost), u.Weight(point.WeightKg), u.Space(point.VolumeL), proven)
	}
	notes := sheet.Lines{fmt.Sprintf("Ten limits, from the %s of the plan of least %s down to the least %s; each was searched a short time only.", f.Within, f.Least, f.Within)}
	last := f.Points[len(f.Points)-1].Plan
	notes.If(last < len(f.Points), "The same number under \"plan\" is the same plan: the search found none better for the wider limit.")
	return sheet.Section{Title: fmt.Sprintf("Least %s for each limit on %s", f.Least, f.Within), Table: g, Notes: notes}
}

// CompareCSV writes a comparison as one flat table: who is not fed, the plans,
// their packs, and the points of the frontier, one a row; points of the same
// number under plan are the same plan.
func CompareCSV(c *plan.Comparison) *facts.Table {
	t := facts.New("section least pack count limit cost currency weight_kg volume_l water_l heat_mj value bound gap status person text plan")
	worst(t, "person", headline.Plans(c.Plans))
	for _, p := range c.Plans {
		row := facts.Row{"least": p.Least, "status": p.Status, "value": p.Value, "bound": p.Bound, "gap": p.Gap}
		if x := p.Totals; x != nil {
			row["cost"], row["currency"], row["weight_kg"], row["volume_l"] = x.Cost, x.Currency, x.WeightKg, x.VolumeL
			row["water_l"], row["heat_mj"] = x.WaterL, x.HeatMJ
		}
		t.Add("plan", row)
	}
	for _, p := range c.Plans {
		t.Each("pack", p.Packs, "pack count cost weight_kg volume_l", facts.Row{"least": p.Least, "currency": currency(p)})
	}
	if f := c.Frontier; f != nil {
		for i, point := range f.Points {
			t.Each("frontier", f.Points[i:i+1], "limit cost weight_kg volume_l bound gap plan",
				facts.Row{"least": f.Least, "currency": currency(c.Plans[0]), "value": point.Of(f.Least)})
		}
	}
	return t
}

package report

import (
	"fmt"
	"io"
	"strconv"

	"rationwright/solver"
)

// Compare lays out plans of least cost, weight and volume side by side, and the
// frontier between two of them.
func Compare(c *solver.Comparison, u Units) *Sheet {
	first := c.Plans[0]
	if first.Status == "infeasible" {
		return Plan(first, u)
	}
	s := &Sheet{Alerts: alerts(first)}
	s.Add(sideBySide(c, u))
	s.Add(comparedPacks(c))
	s.Add(frontier(c, u))
	s.Add(assumed(first))
	return s
}

// sideBySide sets the totals of the plans beside each other.
func sideBySide(c *solver.Comparison, u Units) Section {
	g := &Grid{Columns: []Column{{Name: ""}}}
	for _, p := range c.Plans {
		g.Columns = append(g.Columns, Column{Name: "least " + string(p.Least), Right: true})
	}
	line := func(name string, of func(*solver.Plan) string) {
		row := []string{name}
		for _, p := range c.Plans {
			row = append(row, of(p))
		}
		g.append("", row...)
	}
	cost := "cost"
	if unit := currency(c.Plans[0]); unit != "" {
		cost += ", " + unit
	}
	line(cost, func(p *solver.Plan) string { return money(p.Totals.Cost) })
	line("weight", func(p *solver.Plan) string { return u.Weight(p.Totals.WeightKg) })
	line("shelf space", func(p *solver.Plan) string { return u.Space(p.Totals.VolumeL) })
	line("water to store", func(p *solver.Plan) string { return u.Water(p.Totals.WaterL) })
	line("heat for cooking", func(p *solver.Plan) string { return u.Heat(p.Totals.HeatMJ) })
	line("packs", func(p *solver.Plan) string { return strconv.Itoa(packCount(p)) })
	line("foods", func(p *solver.Plan) string { return strconv.Itoa(foodCount(p)) })
	line("proven within", func(p *solver.Plan) string {
		if p.Gap == nil {
			return "not known"
		}
		return gapPercent(*p.Gap)
	})
	sec := Section{Title: "Three plans for the same people, each the least of one thing", Table: g,
		Notes: []string{"\"proven within\": how near the plan's own least is to the best possible."}}
	if demo := fromDemo(c.Plans[0]); demo != "" {
		sec.Lead = []string{demo}
	}
	return sec
}

func packCount(p *solver.Plan) int {
	n := 0
	for _, k := range p.Packs {
		n += k.Count
	}
	return n
}

func foodCount(p *solver.Plan) int {
	seen := map[string]bool{}
	for _, k := range p.Packs {
		seen[k.Food] = true
	}
	return len(seen)
}

// comparedPacks lists every pack with how many each plan has of it.
func comparedPacks(c *solver.Comparison) Section {
	g := &Grid{Columns: []Column{{Name: "pack", Wrap: true}}}
	counts := map[string][]int{}
	var keys []string
	for k, p := range c.Plans {
		g.Columns = append(g.Columns, Column{Name: "least " + string(p.Least), Right: true})
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
		g.append("", row...)
	}
	return Section{Title: "Packs in each", Table: g}
}

// frontier is how little of one total is possible for each limit on another.
func frontier(c *solver.Comparison, u Units) Section {
	f := c.Frontier
	if f == nil {
		return Section{}
	}
	p := c.Plans[0]
	g := &Grid{Columns: []Column{{Name: "at most", Right: true}, {Name: "plan", Right: true}, {Name: "cost", Right: true}, {Name: "weight", Right: true},
		{Name: "shelf space", Right: true}, {Name: "proven within", Right: true}}}
	for _, point := range f.Points {
		proven := ""
		if point.Gap != nil {
			proven = gapPercent(*point.Gap)
		}
		g.append("", total(p, f.Within, point.Limit, u), strconv.Itoa(point.Plan), costOf(p, point.Cost), u.Weight(point.WeightKg), u.Space(point.VolumeL), proven)
	}
	notes := []string{fmt.Sprintf("Ten limits, from the %s of the plan of least %s down to the least %s; each was searched a short time only.", f.Within, f.Least, f.Within)}
	if last := f.Points[len(f.Points)-1].Plan; last < len(f.Points) {
		notes = append(notes, "The same number under \"plan\" is the same plan: the search found none better for the wider limit.")
	}
	return Section{Title: fmt.Sprintf("Least %s for each limit on %s", f.Least, f.Within), Table: g,
		Notes: notes}
}

// total writes an amount of a total in its unit.
func total(p *solver.Plan, l solver.Least, v float64, u Units) string {
	switch l {
	case solver.LeastWeight:
		return u.Weight(v)
	case solver.LeastVolume:
		return u.Space(v)
	default:
		return costOf(p, v)
	}
}

// CompareCSV writes a comparison as one flat table: who is not fed, the plans,
// their packs, and the points of the frontier, one a row; points of the same
// number under plan are the same plan.
func CompareCSV(w io.Writer, c *solver.Comparison) error {
	columns := []string{"section", "least", "pack", "count", "limit", "cost", "currency", "weight_kg", "volume_l", "water_l", "heat_mj", "value", "bound", "gap", "status", "person", "text", "plan"}
	rows := [][]string{columns}
	row := func(section string, cells map[string]string) { rows = append(rows, cellsOf(columns, section, cells)) }
	for _, r := range c.Refused {
		row("refused", map[string]string{"person": r.Name, "text": doesNotFeed(r)})
	}
	for _, p := range c.Plans {
		cells := map[string]string{"least": string(p.Least), "status": p.Status, "value": maybe(p.Value), "bound": maybe(p.Bound), "gap": maybe(p.Gap)}
		if t := p.Totals; t != nil {
			cells["cost"], cells["currency"], cells["weight_kg"], cells["volume_l"] = num(t.Cost), t.Currency, num(t.WeightKg), num(t.VolumeL)
			cells["water_l"], cells["heat_mj"] = num(t.WaterL), num(t.HeatMJ)
		}
		row("plan", cells)
	}
	for _, p := range c.Plans {
		for _, k := range p.Packs {
			row("pack", map[string]string{"least": string(p.Least), "pack": k.Pack, "count": strconv.Itoa(k.Count), "cost": num(k.Cost), "currency": currency(p),
				"weight_kg": num(k.WeightKg), "volume_l": num(k.VolumeL)})
		}
	}
	if f := c.Frontier; f != nil {
		for _, point := range f.Points {
			row("frontier", map[string]string{"least": string(f.Least), "limit": num(point.Limit), "cost": num(point.Cost), "currency": currency(c.Plans[0]),
				"weight_kg": num(point.WeightKg), "volume_l": num(point.VolumeL), "value": num(point.Of(f.Least)), "bound": maybe(point.Bound), "gap": maybe(point.Gap),
				"plan": strconv.Itoa(point.Plan)})
		}
	}
	return writeRows(w, rows)
}

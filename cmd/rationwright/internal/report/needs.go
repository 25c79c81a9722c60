package report

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Needs lays out what each person requires per day. With sources, every figure
// carries the number of its source in the list at the end. Demo says that the
// people are those of the demo household.
func Needs(people []nutrients.Needs, u sheet.Units, sources, demo bool) *sheet.Sheet {
	s := &sheet.Sheet{Alerts: headline.News{Refused: refusedOf(people)}.Lines()}
	if demo {
		s.Add(sheet.Section{Lead: []string{"The demo household of Ternsund: these people are invented."}})
	}
	var list *sourceList
	if sources {
		list = &sourceList{}
	}
	for i := range people {
		n := &people[i]
		if n.Refused == nil {
			s.Add(needsOf(n, u, list))
		}
	}
	s.Add(notCheckedOf(people))
	if list != nil {
		s.Add(list.section())
	}
	return s
}

// refusedOf lists those for whom a clinician must plan.
func refusedOf(people []nutrients.Needs) []ration.Refused {
	var list []ration.Refused
	for i := range people {
		if r := people[i].Refused; r != nil {
			list = append(list, ration.Refused{Name: people[i].Person.Name, Reason: r.Reason, Source: marked(r.Source, r.Verified)})
		}
	}
	return list
}

// sourceList numbers the sources of a sheet in order of first use.
type sourceList struct{ list []string }

// number returns the number of source, as text; "" for no source.
func (l *sourceList) number(source string) string {
	if source == "" {
		return ""
	}
	k := slices.Index(l.list, source)
	if k < 0 {
		l.list, k = append(l.list, source), len(l.list)
	}
	return strconv.Itoa(k + 1)
}

func (l *sourceList) section() sheet.Section {
	sec := sheet.Section{Title: "Sources"}
	for i, source := range l.list {
		sec.Lead.Say("[%d] %s.", i+1, strings.TrimSuffix(source, "."))
	}
	return sec
}

// needsOf is the section of one person; list is nil when no sources are asked.
func needsOf(n *nutrients.Needs, u sheet.Units, list *sourceList) sheet.Section {
	g := sheet.NewGrid("nutrient", ">at least", ">at most", "unit", "~kind")
	if list != nil {
		g.Column("source")
	}
	for _, r := range needRows(n) {
		name := sheet.Nutrient(r.Nutrient)
		if r.Floor == nil && r.Nutrient == "energy" {
			name += " requirement"
		}
		cells := []string{name, optional(r.Floor), optional(r.Ceiling), r.Unit, r.Kind}
		if list != nil {
			var numbers []string
			for _, source := range r.sources {
				numbers = append(numbers, "["+list.number(source)+"]")
			}
			cells = append(cells, strings.Join(numbers, " "))
		}
		g.Row("", cells...)
	}
	sec := sheet.Section{Title: "What " + facts.Printable(n.Person.Name) + " needs a day", Lead: []string{whose(n, u)}, Table: g}
	for _, note := range n.Notes {
		text := "- " + sheet.Sentence(note.Text)
		if source := marked(note.Source, note.Verified); list != nil && source != "" {
			text += " [" + list.number(source) + "]"
		}
		sec.Notes = append(sec.Notes, text)
	}
	return sec
}

// whose says for whom the figures hold.
func whose(n *nutrients.Needs, u sheet.Units) string {
	line := fmt.Sprintf("Life stage %s, %s, %s", stageName(n.Stage), u.Length(n.HeightCm), u.Weight(n.WeightKg))
	if n.Person.HeightCm == 0 || n.Person.WeightKg == 0 {
		line += " (reference body where not given)"
	}
	for _, word := range []string{string(n.Person.Activity), string(n.Person.State)} {
		line += sheet.Around(", ", word, "")
	}
	for _, c := range n.Person.Conditions {
		line += ", " + string(c)
	}
	if n.Person.Count > 1 {
		line += fmt.Sprintf("; the row stands for %d people", n.Person.Count)
	}
	return line + "."
}

// ages finds the ages in the key of a life stage, and years that the last is of years.
var (
	ages  = regexp.MustCompile(`(\d+)_(\d+)`)
	years = regexp.MustCompile(`(\d)y$`)
)

// stageName writes the key of a life stage in words: "male_31_50y" becomes
// "male 31-50 y".
func stageName(key string) string {
	return strings.ReplaceAll(years.ReplaceAllString(ages.ReplaceAllString(key, "$1-$2"), "$1 y"), "_", " ")
}

// needRow is one line of a person's needs in any form.
type needRow struct {
	Nutrient string   `json:"nutrient"`
	Unit     string   `json:"unit"`
	Floor    *float64 `json:"floor,omitempty"`
	Ceiling  *float64 `json:"ceiling,omitempty"`
	Target   *float64 `json:"target,omitempty"`
	Kind     string   `json:"kind"`
	Enforced bool     `json:"enforced"`
	Note     string   `json:"note,omitempty"`
	Source   string   `json:"source"`

	sources []string
}

// needRows lists everything a person requires, energy first, water and feed
// last.
func needRows(n *nutrients.Needs) []needRow {
	var rows []needRow
	listed := slices.ContainsFunc(n.List, func(n nutrients.Need) bool { return n.Nutrient == nutrients.Energy })
	if !listed && n.EER.Amount > 0 {
		rows = append(rows, needRow{Nutrient: "energy", Unit: "kcal", Target: &n.EER.Amount, Kind: n.EER.Kind, Enforced: true,
			Source: marked(n.EER.Source, n.EER.Verified), sources: []string{marked(n.EER.Source, n.EER.Verified)}, Note: n.EER.Note})
	}
	for i := range n.List {
		d := &n.List[i]
		rows = append(rows, limitRow(d.Nutrient.Name(), d.Nutrient.Unit(), d.Floor, d.Ceiling, d.Target, d.Shown))
	}
	for i := range n.Shares {
		sh := &n.Shares[i]
		rows = append(rows, limitRow(sh.Nutrient.Name()+"_share", "% of energy", sh.Min, sh.Max, nil, false))
	}
	feed := cmp.Or(n.Feed, &nutrients.Feed{})
	for _, x := range []struct {
		key, unit string
		least     *nutrients.Limit
	}{
		{"water_total", "L", n.Water.Total}, {"water_drinks", "L", n.Water.Drinks},
		{"formula", "mL ready feed", feed.FormulaML}, {"human_milk", "mL", feed.HumanMilkML},
	} {
		if x.least != nil {
			rows = append(rows, limitRow(x.key, x.unit, x.least, nil, nil, false))
		}
	}
	if m := n.Meals; m != nil {
		rows = append(rows, limitRow("carbohydrate_meal", "g a main meal", m.Low, m.High, nil, !m.Enforced))
	}
	return rows
}

// limitRow joins the limits of one nutrient in one line.
func limitRow(key, unit string, floor, ceiling, target *nutrients.Limit, shown bool) needRow {
	row := needRow{Nutrient: key, Unit: unit, Enforced: !shown}
	var kinds, notes []string
	take := func(l *nutrients.Limit, to **float64) {
		if l == nil {
			return
		}
		*to = &l.Amount
		kinds = addOnce(kinds, l.Kind)
		row.sources = addOnce(row.sources, marked(l.Source, l.Verified))
		notes = addOnce(notes, l.Note)
	}
	take(floor, &row.Floor)
	take(ceiling, &row.Ceiling)
	take(target, &row.Target)
	if shown {
		kinds = append(kinds, "for information")
		if row.Floor == nil { // the figure is worth showing where nothing else is
			row.Floor = row.Target
		}
	}
	row.Kind, row.Source, row.Note = strings.Join(kinds, ", "), strings.Join(row.sources, "; "), strings.Join(notes, "; ")
	return row
}

// notCheckedOf lists the requirements that the food table cannot answer.
func notCheckedOf(people []nutrients.Needs) sheet.Section {
	var list []string
	for i := range people {
		for _, n := range people[i].NotChecked {
			list = addOnce(list, sheet.Nutrient(n))
		}
	}
	if len(list) == 0 {
		return sheet.Section{}
	}
	return sheet.Section{Title: "Not checked", Lead: []string{"Required, but the food table has no column for it: " + sheet.Names(list) + "."}}
}

// NeedsCSV writes one row a person and requirement, those whom no plan is made for
// first.
func NeedsCSV(people []nutrients.Needs) *facts.Table {
	t := facts.New("person count stage nutrient unit floor ceiling target kind enforced note source")
	for _, r := range refusedOf(people) {
		t.Add(r.Name, facts.Row{"kind": "refused", "note": headline.NotFed(r.Name) + ": " + r.Reason, "source": r.Source})
	}
	for i := range people {
		n := &people[i]
		if n.Refused == nil {
			t.Each(n.Person.Name, needRows(n), "nutrient unit floor ceiling target kind enforced note source", facts.Row{"count": max(n.Person.Count, 1), "stage": n.Stage})
		}
	}
	return t
}

// personNeedsJSON is one person of the JSON form of needs.
type personNeedsJSON struct {
	Name       string     `json:"name"`
	Count      int        `json:"count"`
	Stage      string     `json:"stage,omitempty"`
	HeightCm   float64    `json:"height_cm,omitempty"`
	WeightKg   float64    `json:"weight_kg,omitempty"`
	EER        float64    `json:"eer_kcal,omitempty"`
	Refused    string     `json:"refused,omitempty"`
	Needs      []needRow  `json:"needs,omitempty"`
	Notes      []noteJSON `json:"notes,omitempty"`
	NotChecked []string   `json:"not_checked,omitempty"`
}

type noteJSON struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// NeedsJSON writes {"people": […]} with one object a person, and "demo": true
// where the people are those of the demo household. Whom no plan is made for
// stands first, in "refused".
func NeedsJSON(people []nutrients.Needs, demo bool) any {
	all := make([]personNeedsJSON, 0, len(people))
	for i := range people {
		n := &people[i]
		p := personNeedsJSON{Name: n.Person.Name, Count: max(n.Person.Count, 1), Stage: n.Stage, HeightCm: n.HeightCm, WeightKg: n.WeightKg, EER: n.EER.Amount, NotChecked: n.NotChecked}
		if n.Refused != nil {
			p.Refused = n.Refused.Reason
		} else {
			p.Needs = needRows(n)
		}
		for _, note := range n.Notes {
			p.Notes = append(p.Notes, noteJSON{note.Text, marked(note.Source, note.Verified)})
		}
		all = append(all, p)
	}
	return struct {
		Refused []ration.Refused  `json:"refused,omitempty"`
		Demo    bool              `json:"demo,omitempty"` // the people are invented
		People  []personNeedsJSON `json:"people"`
	}{refusedOf(people), demo, all}
}

package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// Needs lays out what each person requires per day. With sources, every figure
// carries the number of its source in the list at the end. Demo says that the
// people are those of the demo household.
func Needs(people []nutrients.Needs, u Units, sources, demo bool) *Sheet {
	s := &Sheet{}
	if demo {
		s.Add(Section{Lead: []string{"The demo household of Ternsund: these people are invented."}})
	}
	var list *sourceList
	if sources {
		list = &sourceList{}
	}
	for i := range people {
		n := &people[i]
		if n.Refused != nil {
			s.Add(Section{Title: "What " + clean(n.Person.Name) + " needs a day", Lead: []string{
				sentence(n.Refused.Reason) + " Source: " + strings.TrimSuffix(marked(n.Refused.Source, n.Refused.Verified), ".") + "."}})
			continue
		}
		s.Add(needsOf(n, u, list))
	}
	s.Add(notCheckedOf(people))
	if list != nil {
		s.Add(list.section())
	}
	return s
}

// sourceList numbers the sources of a sheet in order of first use.
type sourceList struct{ list []string }

// number returns the number of source, as text; "" for no source.
func (l *sourceList) number(source string) string {
	if source == "" {
		return ""
	}
	for i, have := range l.list {
		if have == source {
			return strconv.Itoa(i + 1)
		}
	}
	l.list = append(l.list, source)
	return strconv.Itoa(len(l.list))
}

func (l *sourceList) section() Section {
	sec := Section{Title: "Sources"}
	for i, source := range l.list {
		sec.Lead = append(sec.Lead, fmt.Sprintf("[%d] %s.", i+1, strings.TrimSuffix(source, ".")))
	}
	return sec
}

// needsOf is the section of one person; list is nil when no sources are asked.
func needsOf(n *nutrients.Needs, u Units, list *sourceList) Section {
	g := &Grid{Columns: []Column{{Name: "nutrient"}, {Name: "at least", Right: true}, {Name: "at most", Right: true}, {Name: "unit"}, {Name: "kind", Wrap: true}}}
	if list != nil {
		g.Columns = append(g.Columns, Column{Name: "source"})
	}
	for _, r := range needRows(n) {
		cells := []string{r.name, optional(r.floor), optional(r.ceiling), r.unit, r.kind}
		if list != nil {
			var numbers []string
			for _, source := range r.sources {
				numbers = append(numbers, "["+list.number(source)+"]")
			}
			cells = append(cells, strings.Join(numbers, " "))
		}
		g.append("", cells...)
	}
	sec := Section{Title: "What " + clean(n.Person.Name) + " needs a day", Lead: []string{whose(n, u)}, Table: g}
	for _, note := range n.Notes {
		text := "- " + sentence(note.Text)
		if source := marked(note.Source, note.Verified); list != nil && source != "" {
			text += " [" + list.number(source) + "]"
		}
		sec.Notes = append(sec.Notes, text)
	}
	return sec
}

// whose says for whom the figures hold.
func whose(n *nutrients.Needs, u Units) string {
	height, weight := decimals(n.HeightCm, 0)+" cm", decimals(n.WeightKg, 1)+" kg"
	if u == US {
		height, weight = decimals(10*n.HeightCm/stores.MMPerInch, 0)+" in", u.Weight(n.WeightKg)
	}
	line := fmt.Sprintf("Life stage %s, %s, %s", stageName(n.Stage), height, weight)
	if n.Person.HeightCm == 0 || n.Person.WeightKg == 0 {
		line += " (reference body where not given)"
	}
	if n.Person.Activity != "" {
		line += ", " + string(n.Person.Activity)
	}
	if n.Person.State != "" {
		line += ", " + string(n.Person.State)
	}
	for _, c := range n.Person.Conditions {
		line += ", " + string(c)
	}
	if n.Person.Count > 1 {
		line += fmt.Sprintf("; the row stands for %d people", n.Person.Count)
	}
	return line + "."
}

// ages finds the ages in the key of a life stage.
var ages = regexp.MustCompile(`(\d+)_(\d+)`)

// stageName writes the key of a life stage in words: "male_31_50y" becomes
// "male 31-50 y".
func stageName(key string) string {
	name := strings.ReplaceAll(ages.ReplaceAllString(key, "$1-$2"), "_", " ")
	if n := len(name); n > 1 && name[n-1] == 'y' && name[n-2] >= '0' && name[n-2] <= '9' {
		name = name[:n-1] + " y"
	}
	return name
}

// marked carries the mark of a figure that was not seen in print.
func marked(source, verified string) string {
	for _, mark := range []string{"from memory", "common practice, no source"} {
		if verified == mark && !strings.Contains(source, mark) {
			return strings.TrimSpace(source + " (" + mark + ")")
		}
	}
	return source
}

// needRow is one line of a person's needs in any form.
type needRow struct {
	key, name, unit        string
	floor, ceiling, target *float64
	kind, note             string
	sources                []string
	shown                  bool
}

// needRows lists everything a person requires, energy first, water and feed
// last.
func needRows(n *nutrients.Needs) []needRow {
	var rows []needRow
	if !listed(n.List, nutrients.Energy) && n.EER.Amount > 0 {
		rows = append(rows, needRow{key: "energy", name: "energy requirement", unit: "kcal", target: &n.EER.Amount, kind: n.EER.Kind, sources: []string{marked(n.EER.Source, n.EER.Verified)}, note: n.EER.Note})
	}
	for i := range n.List {
		d := &n.List[i]
		rows = append(rows, limitRow(d.Nutrient.Name(), d.Nutrient.Unit(), d.Floor, d.Ceiling, d.Target, d.Shown))
	}
	for i := range n.Shares {
		sh := &n.Shares[i]
		row := limitRow(sh.Nutrient.Name()+"_share", "% of energy", sh.Min, sh.Max, nil, false)
		rows = append(rows, row)
	}
	if n.Water.Total != nil {
		rows = append(rows, limitRow("water_total", "L", n.Water.Total, nil, nil, false))
	}
	if n.Water.Drinks != nil {
		rows = append(rows, limitRow("water_drinks", "L", n.Water.Drinks, nil, nil, false))
	}
	if f := n.Feed; f != nil {
		if f.FormulaML != nil {
			rows = append(rows, limitRow("formula", "mL ready feed", f.FormulaML, nil, nil, false))
		}
		if f.HumanMilkML != nil {
			rows = append(rows, limitRow("human_milk", "mL", f.HumanMilkML, nil, nil, false))
		}
	}
	if m := n.Meals; m != nil {
		rows = append(rows, limitRow("carbohydrate_meal", "g a main meal", m.Low, m.High, nil, !m.Enforced))
	}
	return rows
}

func listed(list []nutrients.Need, want nutrients.Nutrient) bool {
	for _, n := range list {
		if n.Nutrient == want {
			return true
		}
	}
	return false
}

// limitRow joins the limits of one nutrient in one line.
func limitRow(key, unit string, floor, ceiling, target *nutrients.Limit, shown bool) needRow {
	row := needRow{key: key, name: NutrientName(key), unit: unit, shown: shown}
	var kinds, sources, notes []string
	take := func(l *nutrients.Limit, to **float64) {
		if l == nil {
			return
		}
		*to = &l.Amount
		kinds = addOnce(kinds, l.Kind)
		sources = addOnce(sources, marked(l.Source, l.Verified))
		notes = addOnce(notes, l.Note)
	}
	take(floor, &row.floor)
	take(ceiling, &row.ceiling)
	take(target, &row.target)
	if shown {
		kinds = append(kinds, "shown, not enforced")
		if row.floor == nil { // the figure is worth showing where nothing else is
			row.floor = row.target
		}
	}
	row.kind, row.sources, row.note = strings.Join(kinds, ", "), sources, strings.Join(notes, "; ")
	return row
}

func addOnce(list []string, s string) []string {
	for _, have := range list {
		if have == s {
			return list
		}
	}
	if s == "" {
		return list
	}
	return append(list, s)
}

// notCheckedOf lists the requirements that the food table cannot answer.
func notCheckedOf(people []nutrients.Needs) Section {
	var list []string
	for i := range people {
		for _, n := range people[i].NotChecked {
			list = addOnce(list, NutrientName(n))
		}
	}
	if len(list) == 0 {
		return Section{}
	}
	return Section{Title: "Not checked", Lead: []string{"Required, but the food table has no column for it: " + names(list) + "."}}
}

var needColumns = []string{"person", "count", "stage", "nutrient", "unit", "floor", "ceiling", "target", "kind", "enforced", "note", "source"}

// NeedsCSV writes one row a person and requirement.
func NeedsCSV(w io.Writer, people []nutrients.Needs) error {
	out := csv.NewWriter(w)
	rows := [][]string{needColumns}
	for i := range people {
		n := &people[i]
		head := []string{n.Person.Name, strconv.Itoa(max(n.Person.Count, 1)), n.Stage}
		if n.Refused != nil {
			rows = append(rows, append(head, "", "", "", "", "", "refused", "", n.Refused.Reason, marked(n.Refused.Source, n.Refused.Verified)))
			continue
		}
		for _, r := range needRows(n) {
			cells := append([]string{}, head...)
			rows = append(rows, append(cells, r.key, r.unit, maybe(r.floor), maybe(r.ceiling), maybe(r.target), r.kind, strconv.FormatBool(!r.shown), r.note, strings.Join(r.sources, "; ")))
		}
	}
	if err := out.WriteAll(rows); err != nil {
		return err
	}
	return out.Error()
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
	Needs      []needJSON `json:"needs,omitempty"`
	Notes      []noteJSON `json:"notes,omitempty"`
	NotChecked []string   `json:"not_checked,omitempty"`
}

type needJSON struct {
	Nutrient string   `json:"nutrient"`
	Unit     string   `json:"unit"`
	Floor    *float64 `json:"floor,omitempty"`
	Ceiling  *float64 `json:"ceiling,omitempty"`
	Target   *float64 `json:"target,omitempty"`
	Kind     string   `json:"kind"`
	Enforced bool     `json:"enforced"`
	Note     string   `json:"note,omitempty"`
	Source   string   `json:"source"`
}

type noteJSON struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// NeedsJSON writes {"people": […]} with one object a person, and "demo": true
// where the people are those of the demo household.
func NeedsJSON(w io.Writer, people []nutrients.Needs, demo bool) error {
	all := make([]personNeedsJSON, 0, len(people))
	for i := range people {
		n := &people[i]
		p := personNeedsJSON{Name: n.Person.Name, Count: max(n.Person.Count, 1), Stage: n.Stage, HeightCm: n.HeightCm, WeightKg: n.WeightKg, EER: n.EER.Amount, NotChecked: n.NotChecked}
		if n.Refused != nil {
			p.Refused = n.Refused.Reason
		} else {
			for _, r := range needRows(n) {
				p.Needs = append(p.Needs, needJSON{r.key, r.unit, r.floor, r.ceiling, r.target, r.kind, !r.shown, r.note, strings.Join(r.sources, "; ")})
			}
		}
		for _, note := range n.Notes {
			p.Notes = append(p.Notes, noteJSON{note.Text, marked(note.Source, note.Verified)})
		}
		all = append(all, p)
	}
	return JSON(w, struct {
		Demo   bool              `json:"demo,omitempty"` // the people are invented
		People []personNeedsJSON `json:"people"`
	}{demo, all})
}

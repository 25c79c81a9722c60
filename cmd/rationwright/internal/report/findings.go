package report

import (
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
)

// severities are the parts of a verification, gravest first, with the words
// they go by.
var severities = []struct {
	severity  foods.Severity
	title     string
	one, many string
}{
	{foods.Error, "Wrong", "check failed", "checks failed"},
	{foods.Warning, "To look at", "thing to look at", "things to look at"},
	{foods.Info, "Worth knowing", "thing worth knowing", "things worth knowing"},
}

// Findings lays out what the checks of the food table found.
func Findings(t *foods.Table, findings []foods.Finding) *sheet.Sheet {
	s := &sheet.Sheet{}
	var counts []string
	for _, kind := range severities {
		g := sheet.NewGrid("~of", "check", "~found")
		for _, f := range findings {
			if f.Severity == kind.severity {
				g.Row("", findingOf(f), f.Check, f.Text)
			}
		}
		counts = append(counts, sheet.Count(len(g.Rows()), kind.one, kind.many))
		s.Add(sheet.Section{Title: kind.title, Table: g})
	}
	head := fmt.Sprintf("%s, %s checked: %s.", sheet.Count(len(t.Foods), "food", "foods"),
		sheet.Count(len(t.Packs), "pack", "packs"), strings.Join(counts, ", "))
	s.Sections = append([]sheet.Section{{Lead: []string{head}}}, s.Sections...)
	return s
}

// findingOf names what a finding is about.
func findingOf(f foods.Finding) string {
	switch {
	case f.Pack != nil:
		return f.Pack.Key
	case f.Food != nil:
		return f.Food.NDB + " " + f.Food.Name
	}
	return "the whole table"
}

type findingJSON struct {
	Severity string `json:"severity"`
	Food     string `json:"food,omitempty"`
	NDB      string `json:"ndb,omitempty"`
	Pack     string `json:"pack,omitempty"`
	Check    string `json:"check"`
	Text     string `json:"text"`
}

// FindingsJSON writes {"foods": n, "packs": n, "findings": […]}.
func FindingsJSON(t *foods.Table, findings []foods.Finding) any {
	all := make([]findingJSON, 0, len(findings))
	for _, f := range findings {
		j := findingJSON{Severity: string(f.Severity), Check: f.Check, Text: f.Text}
		if f.Food != nil {
			j.Food, j.NDB = f.Food.Name, ndbOf(f.Food)
		}
		if f.Pack != nil {
			j.Pack = f.Pack.Key
		}
		all = append(all, j)
	}
	return struct {
		Foods    int           `json:"foods"`
		Packs    int           `json:"packs"`
		Findings []findingJSON `json:"findings"`
	}{len(t.Foods), len(t.Packs), all}
}

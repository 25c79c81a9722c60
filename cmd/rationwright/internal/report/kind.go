package report

import (
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
)

// Kind lays out what a word stands for that means several foods.
func Kind(m *foods.Meaning, all *kinds.Table, u sheet.Units) *sheet.Sheet {
	g := sheet.NewGrid("~food", "NDB", ">kcal in 100 g", "~packs that hold")
	for _, f := range m.Foods {
		var sizes []string
		for _, k := range f.Packs {
			sizes = append(sizes, u.Net(k.NetG))
		}
		g.Row("", f.Name, ndbOf(f), sheet.Decimals(f.Per100g[nutrients.Energy], 0), strings.Join(sizes, ", "))
	}
	s := &sheet.Sheet{}
	sec := sheet.Section{Title: fmt.Sprintf("%s: %d foods", m.Name, len(m.Foods)), Table: g}
	if m.Kind == nil {
		sec.Lead = []string{"A group of foods: every one of them is meant where it is named."}
	} else {
		sec.Lead = kindLines(m.Kind, all)
	}
	s.Add(sec)
	return s
}

func kindLines(k *kinds.Kind, all *kinds.Table) []string {
	var lines sheet.Lines
	lines.If(k.Note != "", "%s", sheet.Sentence(k.Note))
	holds, inside := namesOf(k.Holds(all)), namesOf(k.Inside(all))
	lines.If(len(k.Also) > 0, "Other words for it: %s.", strings.Join(k.Also, ", "))
	lines.If(len(holds) > 0, "Kinds within it: %s.", strings.Join(holds, ", "))
	lines.If(len(inside) > 0, "Lies within: %s.", strings.Join(inside, ", "))
	return lines
}

func namesOf(list []*kinds.Kind) []string {
	var names []string
	for _, k := range list {
		names = append(names, k.Name)
	}
	return names
}

// KindJSON writes what a word stands for, with all that is known of its foods.
func KindJSON(m *foods.Meaning, all *kinds.Table) any {
	j := struct {
		Kind   string     `json:"kind"`
		Note   string     `json:"note,omitempty"`
		Also   []string   `json:"also,omitempty"`
		Holds  []string   `json:"holds,omitempty"`
		Within []string   `json:"within,omitempty"`
		Foods  []foodJSON `json:"foods"`
	}{Kind: m.Name, Foods: foodsJSON(m.Foods, true)}
	if m.Kind != nil {
		j.Note, j.Also, j.Holds, j.Within = m.Kind.Note, m.Kind.Also, namesOf(m.Kind.Holds(all)), namesOf(m.Kind.Inside(all))
	}
	return j
}

package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/foods/kinds"
)

// TestKindAndGroup: a kind tells its other words and what lies within it, a group that all
// of it is meant; both list their foods.
func TestKindAndGroup(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	all := table.Kinds()
	var kind *kinds.Kind
	for i := range all.Kinds {
		if k := all.Kind(all.Kinds[i].Name); kind == nil && len(k.Also) > 1 && len(k.Holds(all)) > 0 {
			kind = k
		}
	}
	two := table.Foods[:2]
	for _, m := range []*foods.Meaning{{Name: kind.Name, Kind: kind, Foods: two}, {Name: "soups", Foods: two}} {
		text := strings.Join(strings.Fields(laidOut(t, Kind(m, all, sheet.Metric))), " ")
		words, within := "Other words for it: "+strings.Join(kind.Also, ", "), "Kinds within it: "+kind.Holds(all)[0].Name
		has(t, m.Name, text, []string{strings.ToUpper(m.Name) + ": 2 FOODS", two[0].Name, two[1].Name})
		if m.Kind != nil {
			has(t, m.Name, text, []string{words, within}, "A group of foods")
		} else {
			has(t, m.Name, text, []string{"A group of foods: every one of them is meant where it is named."}, words, within)
		}
		var out bytes.Buffer
		if err := JSON(&out, KindJSON(m, all)); err != nil {
			t.Fatal(err)
		}
		var j struct {
			Kind  string
			Also  []string
			Holds []string
			Foods []any
		}
		if err := json.Unmarshal(out.Bytes(), &j); err != nil || j.Kind != m.Name || len(j.Foods) != 2 || (len(j.Also) > 0) != (m.Kind != nil) || (len(j.Holds) > 0) != (m.Kind != nil) {
			t.Errorf("%s: %v, %+v", m.Name, err, j)
		}
	}
}

// TestKindByHand: what lies within a kind and in what it lies, with its note, and of each food
// its energy and the packs that it comes in; one word stands for one.
func TestKindByHand(t *testing.T) {
	f := fish()
	sea, white, ling := &kinds.Kind{Name: "seafood", Foods: []string{"15001", "15017", "15040"}}, &kinds.Kind{Name: "white fish", Foods: []string{"15001", "15017"}, Note: "of the sea"}, &kinds.Kind{Name: "ling", Foods: []string{"15001"}, Also: []string{"burbot"}}
	all := &kinds.Table{Kinds: []*kinds.Kind{ling, sea, white}}
	lines(t, "in the middle", kindLines(white, all), "Of the sea.", "Kinds within it: ling.", "Lies within: seafood.")
	lines(t, "the smallest", kindLines(ling, all), "Other words for it: burbot.", "Lies within: seafood, white fish.")
	lines(t, "the largest", kindLines(sea, all), "Kinds within it: ling, white fish.")
	sec := Kind(&foods.Meaning{Name: "white fish", Foods: []*foods.Food{f, gruel()}}, nil, sheet.Metric).Sections[0]
	lines(t, "the foods", barred(sec.Table), "ling, canned|15001|110|140 g, 1.10 kg", "gruel||0|")
}

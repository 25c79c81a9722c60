package rules

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestHandlingNamesEachFood: how food is made ready is said once for each way, with the name of
// every food that it is about in the order eaten. Under four years whole pieces are mashed and
// sticky food is spread thin, and sticky food for soft teeth (eligibility.csv, rules mash,
// spread-thin, soft-sticky); nothing is said from four years on, or of other food.
func TestHandlingNamesEachFood(t *testing.T) {
	made := func(name string, tags ...string) *foods.Food {
		return &foods.Food{Name: name, Texture: "soft", Tags: tags, Per100g: nutrients.Unknown()}
	}
	beans, peas, pears := made("beans", "whole-pieces"), made("peas", "whole-pieces"), made("pears", "whole-pieces")
	butter, dates, oats := made("nut butter", "sticky"), made("dates", "sticky", "whole-pieces"), made("oats")
	for _, c := range []struct {
		name   string
		months int
		soft   bool
		eaten  []*foods.Food
		want   map[string][]string // by how the text begins
	}{
		{"nothing", 24, false, nil, nil},
		{"what needs no word", 24, false, []*foods.Food{oats}, nil},
		{"one", 24, false, []*foods.Food{beans}, map[string][]string{"mash": {"beans"}}},
		{"two", 24, false, []*foods.Food{beans, peas}, map[string][]string{"mash": {"beans", "peas"}}},
		{"two, the other way round", 24, false, []*foods.Food{peas, beans}, map[string][]string{"mash": {"peas", "beans"}}},
		{"three and others between", 24, false, []*foods.Food{beans, oats, peas, oats, pears}, map[string][]string{"mash": {"beans", "peas", "pears"}}},
		{"two ways", 24, false, []*foods.Food{beans, butter, peas}, map[string][]string{"mash": {"beans", "peas"}, "spread thin under": {"nut butter"}}},
		{"a food of both ways", 24, false, []*foods.Food{butter, dates, beans}, map[string][]string{"mash": {"dates", "beans"}, "spread thin under": {"nut butter", "dates"}}},
		{"just under four", 47, false, []*foods.Food{beans, peas}, map[string][]string{"mash": {"beans", "peas"}}},
		{"just four", 48, false, []*foods.Food{beans, peas, butter}, nil},
		{"grown", 480, false, []*foods.Food{beans, dates}, nil},
		{"soft food", 480, true, []*foods.Food{beans, butter, dates}, map[string][]string{"spread thin: sticky": {"nut butter", "dates"}}},
	} {
		p := nutrients.Person{Name: "Siv", AgeMonths: c.months, Sex: nutrients.Female}
		if c.soft {
			p.Conditions = []nutrients.Condition{"soft-food"}
		}
		var eaten []Portion
		for _, f := range c.eaten {
			eaten = append(eaten, Portion{f, 100})
		}
		notes := Handling(p, eaten)
		if len(notes) != len(c.want) {
			t.Errorf("%s: %+v, want %v", c.name, notes, c.want)
		}
		for begins, names := range c.want {
			found := 0
			for _, n := range notes {
				if strings.HasPrefix(n.Text, begins) && strings.HasSuffix(n.Text, " ("+strings.Join(names, ", ")+")") && n.Source != "" {
					found++
				}
			}
			if found != 1 {
				t.Errorf("%s: %+v, want one note %q of %q", c.name, notes, begins, names)
			}
		}
	}
}

// TestAllInNeedOfAReserve: quick sugar is set aside for each of those to whom a low can happen, in
// the order of the household, whoever stands before or behind them, and it is such as every one of
// them may eat: none with milk where any of them is allergic to it, and as if they were alone
// where somebody else is.
func TestAllInNeedOfAReserve(t *testing.T) {
	names := []string{"Aud", "Brit", "Carl", "Dag"}
	milky := &foods.Food{Name: "caramels", Tags: []string{foods.TagFastSugar}, Allergens: []string{"milk"}, Per100g: nutrients.Unknown()}
	milky.Per100g[nutrients.Sugars] = 80
	plain := &foods.Food{Name: "dextrose", Tags: []string{foods.TagFastSugar}, Per100g: nutrients.Unknown()}
	plain.Per100g[nutrients.Sugars] = 90
	for set := range 1 << len(names) {
		for allergic := range names {
			var all []nutrients.Needs
			var people []nutrients.Person
			var want []string
			theirs := false
			for i, name := range names {
				n := nutrients.Needs{Person: nutrients.Person{Name: name, AgeMonths: 480, Sex: nutrients.Female}}
				if i == allergic {
					n.Person.Allergies = []nutrients.Allergy{{Allergen: "milk"}}
				}
				if set>>i&1 == 1 {
					n.Lows = &nutrients.LowReserve{}
					want = append(want, name)
					theirs = theirs || i == allergic
				}
				all, people = append(all, n), append(people, n.Person)
			}
			needy := NeedReserve(all)
			var got []string
			for _, p := range needy {
				got = append(got, p.Name)
			}
			if !slices.Equal(got, want) {
				t.Errorf("in need %q, want %q", got, want)
			}
			k := &kitchen{req: &ration.Request{People: people}}
			if may := k.MayReserve(needy, milky); may == theirs {
				t.Errorf("in need %q, %s is allergic to milk: caramels may be set aside: %v", want, names[allergic], may)
			}
			if !k.MayReserve(needy, plain) {
				t.Errorf("in need %q: dextrose may not be set aside", want)
			}
		}
	}
}

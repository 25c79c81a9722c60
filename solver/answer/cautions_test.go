package answer

import (
	"slices"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestCautionsOfWhatThereIs: each thing of a plan brings the warnings about it, and only
// then: supplements where something is short, a stove where there is heat, illness where
// somebody is ill, doubtful water where it is boiled, little energy where that is asked; and
// what is to be asked where a small child may have no milk.
func TestCautionsOfWhatThereIs(t *testing.T) {
	build := func(change func(*ration.Request)) *model.Model {
		signe := rationtest.Adult("Signe", 30, nutrients.Female)
		signe.State = nutrients.Pregnant2
		req := rationtest.Request(t, signe)
		change(req)
		m, err := model.Build(ration.Filled(req))
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	ids := func(m *model.Model, p *ration.Plan) []string {
		var list []string
		for _, c := range Cautions(m, p) {
			list = append(list, c.ID)
		}
		return list
	}
	plain := build(func(*ration.Request) {})
	base := ids(plain, &ration.Plan{Totals: &ration.Totals{}})
	for _, c := range []struct {
		name string
		m    *model.Model
		plan *ration.Plan
		tags []stores.Tag
	}{
		{"short of something", plain, &ration.Plan{Totals: &ration.Totals{}, Shortfalls: []ration.Shortfall{{}}}, []stores.Tag{stores.Supplements}},
		{"ill", build(func(r *ration.Request) { r.Ill = []string{"Signe"} }), &ration.Plan{Totals: &ration.Totals{}}, []stores.Tag{stores.Illness}},
		{"boiled water", build(func(r *ration.Request) { r.BoilWater = true }), &ration.Plan{Totals: &ration.Totals{}}, []stores.Tag{stores.DoubtfulWater}},
		{"little energy", build(func(r *ration.Request) { r.LeanEnergy = true }), &ration.Plan{Totals: &ration.Totals{}}, []stores.Tag{stores.LowEnergy}},
	} {
		got := ids(c.m, c.plan)
		var want []string
		for _, s := range stores.Cautions(append(c.tags, (stores.Situation{People: c.m.Request.People}).AllTags()...)...) {
			want = append(want, s.ID)
		}
		if slices.Equal(got, base) || !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v, without it %v", c.name, got, want, base)
		}
	}
	if hot := ids(plain, &ration.Plan{Totals: &ration.Totals{HeatMJ: 1}}); len(hot) <= len(base) {
		t.Errorf("a stove brings no warning: %v, without it %v", hot, base)
	}
	for _, c := range []struct {
		months  int
		without []string
		want    []string // whom C64 is about
	}{{20, nil, nil}, {20, []string{"milk"}, []string{"Bo"}}, {24, []string{"milk"}, nil}} {
		m := build(func(r *ration.Request) {
			r.People = append(r.People, nutrients.Person{Name: "Bo", AgeMonths: c.months, Sex: nutrients.Male, Count: 1})
			r.Without = c.without
		})
		var got []string
		for _, said := range Cautions(m, &ration.Plan{Totals: &ration.Totals{}}) {
			if said.ID == "C64" {
				got = append(got, said.People...)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%d months, without %v: C64 is about %v, want %v", c.months, c.without, got, c.want)
		}
	}
	pack := plain.Request.Table.Packs[0].Key
	if stored := ids(plain, &ration.Plan{Totals: &ration.Totals{}, Packs: []ration.PlanPack{{Pack: pack, Count: 1}}}); len(stored) <= len(base) {
		t.Errorf("a store brings no warning: %v, without it %v", stored, base)
	}
}

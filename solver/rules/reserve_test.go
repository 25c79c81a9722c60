package rules

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Doses of 15 g of quick sugar in a pack, by hand: whole ones only, one where it does
// not keep once it is open, none of what is no quick sugar.
func TestDosesOfAPack(t *testing.T) {
	for _, c := range []struct {
		grams, sugars, hours float64
		tag                  string
		want                 float64
	}{
		{44, 100, 8760, foods.TagFastSugar, 2}, {45, 100, 8760, foods.TagFastSugar, 3}, {46, 100, 8760, foods.TagFastSugar, 3},
		{60, 100, 8760, foods.TagFastSugar, 4}, {90, 50, 8760, foods.TagFastSugar, 3},
		{1000, 10, 24, foods.TagFastSugar, 1}, {1000, 10, 48, foods.TagFastSugar, 6}, {100, 10, 24, foods.TagFastSugar, 0}, {100, 100, 8760, "", 0},
	} {
		f := &foods.Food{Per100g: nutrients.Unknown(), Keeping: &foods.Keeping{AfterOpenHours: c.hours}, Tags: []string{c.tag}}
		f.Per100g[nutrients.Sugars] = c.sugars
		if got := Doses(&foods.Pack{Food: f, NetG: c.grams}); got != c.want {
			t.Errorf("%g g with %g %% of sugar that keeps %g h: %g doses, want %g", c.grams, c.sugars, c.hours, got, c.want)
		}
	}
}

// A pack holds doses up to twenty of them, 300 g of sugar, and from one on: own planning rule.
func TestPacksThatHoldDoses(t *testing.T) {
	for grams, holds := range map[float64]bool{14: false, 15: true, 300: true, 314: true, 315: false} {
		f := &foods.Food{Per100g: nutrients.Unknown(), Keeping: &foods.Keeping{AfterOpenHours: 8760}, Tags: []string{foods.TagFastSugar}}
		f.Per100g[nutrients.Sugars] = 100
		if got := HoldsDoses(&foods.Pack{Food: f, NetG: grams}); got != holds {
			t.Errorf("%g g of sugar hold doses: %v", grams, got)
		}
	}
}

// TestWhatMayBeSetAside: of the table's quick sugar, by its own marks, all that is no syrup
// may be set aside for a grown person with diabetes; what the household leaves out, by its
// name, its number or its kind, may not, and nothing else changes by it. No honey where a
// child is under 12 months (CDC), nothing that chokes where one is under 48 (AAP), nothing
// that one of those in need is allergic to or leaves by a diet.
func TestWhatMayBeSetAside(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	signe := nutrients.Person{Name: "Signe", AgeMonths: 480, Sex: nutrients.Female, Conditions: []nutrients.Condition{nutrients.Diabetes1}}
	vegan := signe
	vegan.Conditions = []nutrients.Condition{nutrients.Diabetes2, nutrients.Vegan}
	child := func(months int) nutrients.Person {
		return nutrients.Person{Name: "Odd", AgeMonths: months, Sex: nutrients.Male}
	}
	either := func(is ...func(*foods.Food) bool) func(*foods.Food) bool {
		return func(f *foods.Food) bool {
			return slices.ContainsFunc(is, func(is func(*foods.Food) bool) bool { return is(f) })
		}
	}
	tagged := func(tag string) func(*foods.Food) bool { return func(f *foods.Food) bool { return f.HasTag(tag) } }
	named := func(words ...string) func(*foods.Food) bool {
		return func(f *foods.Food) bool {
			return slices.Contains(words, f.Name) || slices.Contains(words, f.NDB) || slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(words, k) })
		}
	}
	honey, chokes, animal := tagged(foods.TagHoney), tagged(foods.TagChoking), either(tagged("animal"), tagged("gelatin"))
	none := either()
	type question struct {
		name    string
		people  []nutrients.Person // the first is in need
		without []string
		not     func(*foods.Food) bool
	}
	questions := []question{
		{"alone", []nutrients.Person{signe}, nil, none},
		{"with a child of 4 years", []nutrients.Person{signe, child(48)}, nil, none},
		{"with a child just under 4", []nutrients.Person{signe, child(47)}, nil, chokes},
		{"with a child of a year", []nutrients.Person{signe, child(12)}, nil, chokes},
		{"with an infant", []nutrients.Person{signe, child(11)}, nil, either(chokes, honey)},
		{"a vegan", []nutrients.Person{vegan}, nil, animal},
		{"with a vegan who has none", []nutrients.Person{signe, {Name: "Ask", AgeMonths: 480, Conditions: []nutrients.Condition{nutrients.Vegan}}}, nil, none},
		{"no juice", []nutrients.Person{signe}, []string{"fruit juice"}, named("fruit juice")},
		{"no honey by number", []nutrients.Person{signe}, []string{"19296"}, honey},
		{"no sweets, no sugar", []nutrients.Person{signe}, []string{"sweets", "sugar"}, named("sweets", "sugar")},
	}
	quick := 0
	for _, f := range table.Foods {
		if f.HasTag(foods.TagFastSugar) {
			quick++
			questions = append(questions, question{"no " + f.Name, []nutrients.Person{signe}, []string{f.Name}, named(f.Name)})
		}
	}
	if quick < 10 {
		t.Fatalf("%d foods of quick sugar", quick)
	}
	for _, q := range questions {
		k, err := OpenKitchen(&ration.Request{Table: table, Days: 14, Cook: ration.CookSimmer, People: q.people, Without: q.without}, false)
		if err != nil {
			t.Fatalf("%s: %v", q.name, err)
		}
		for _, f := range table.Foods {
			want := f.HasTag(foods.TagFastSugar) && !slices.Contains(f.Kinds, "syrups") && !q.not(f)
			if got := k.MayReserve(q.people[:1], f); got != want {
				t.Errorf("%s: %s may be set aside: %v, want %v", q.name, f.Name, got, want)
			}
		}
	}
}

// What weak hands open and lift: an easy lid and 1,500 g at most, own planning rule.
func TestEasyToOpen(t *testing.T) {
	for _, c := range []struct {
		easy  bool
		grams float64
		want  bool
	}{{true, 1499, true}, {true, 1500, true}, {true, 1501, false}, {false, 100, false}} {
		if got := EasyToOpen(&foods.Pack{EasyOpen: c.easy, GrossG: c.grams}); got != c.want {
			t.Errorf("an easy lid %v, %g g: %v, want %v", c.easy, c.grams, got, c.want)
		}
	}
}

// The usual allowance is a US gallon, 3.785 L, a head and day and as much a pet.
func TestAllowanceCountsHeadsAndPets(t *testing.T) {
	req := &ration.Request{Days: 14, People: []nutrients.Person{{Count: 2}, {Count: 1}}}
	people := AllowanceL(req)
	req.Pets = 2
	if got := AllowanceL(req) - people; math.Abs(got-2*14*3.785411784) > 0.02 {
		t.Errorf("two pets add %.2f L in 14 days, want %.2f", got, 2*14*3.785411784)
	}
	req.Pets, req.People[1].Count = 0, 2
	if got := AllowanceL(req) - people; math.Abs(got-people/3) > 1e-9 {
		t.Errorf("a fourth head adds %.2f L to the %.2f L of three", got, people)
	}
}

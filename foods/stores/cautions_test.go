package stores

import (
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

func ids(cautions []Caution) []string {
	var s []string
	for _, c := range cautions {
		s = append(s, c.ID)
	}
	return s
}

// The table itself: every caution complete, every tag a word that something
// can set, every caution reachable.
func TestCautionsTable(t *testing.T) {
	all := cautions()
	if len(all) != 64 {
		t.Errorf("%d cautions, want the table's 64", len(all))
	}
	known := tags()
	seen := map[string]bool{}
	for _, c := range all {
		if seen[c.ID] || c.Text == "" || c.Action == "" || c.Source == "" || c.Verified == "" || !slices.Contains(Severities, c.Severity) {
			t.Errorf("%s is incomplete or there twice: %+v", c.ID, c)
		}
		seen[c.ID] = true
		for _, tag := range slices.Concat(c.whenPeople, c.whenThings) {
			if !slices.Contains(known, tag) {
				t.Errorf("%s waits for %q, which nothing sets", c.ID, tag)
			}
		}
		var tags []Tag
		if len(c.whenPeople) > 0 {
			tags = append(tags, c.whenPeople[0])
		}
		if len(c.whenThings) > 0 {
			tags = append(tags, c.whenThings[0])
		}
		if !slices.Contains(ids(Cautions(tags...)), c.ID) {
			t.Errorf("%s does not come with %v", c.ID, tags)
		}
		for drop := range tags {
			fewer := slices.Delete(slices.Clone(tags), drop, drop+1)
			if slices.Contains(ids(Cautions(fewer...)), c.ID) {
				t.Errorf("%s comes without %s", c.ID, tags[drop])
			}
		}
	}
	for _, r := range rows("things") {
		if len(r.List("forms"))+len(r.List("food_tags"))+len(r.List("kinds"))+len(r.List("materials")) == 0 {
			t.Errorf("%s: nothing is such a thing", r.Text("thing"))
		}
		for _, kind := range r.List("kinds") {
			if !slices.ContainsFunc(containers(), func(c Container) bool { return c.Kind == kind }) {
				t.Errorf("%s: no container is a %q", r.Text("thing"), kind)
			}
		}
		for _, material := range r.List("materials") {
			if !slices.ContainsFunc(containers(), func(c Container) bool { return c.Material == material }) {
				t.Errorf("%s: no container is of %q", r.Text("thing"), material)
			}
		}
	}
}

// What must come and what must not, case by case.
func TestCautionsOfASituation(t *testing.T) {
	pack := func(form, container string) *foods.Pack {
		return &foods.Pack{Key: form, Container: container, Food: &foods.Food{Name: form, Form: form}}
	}
	person := func(months int, change func(*nutrients.Person)) nutrients.Person {
		p := nutrients.Person{Name: "p", AgeMonths: months, Sex: nutrients.Female, Count: 1}
		if change != nil {
			change(&p)
		}
		return p
	}
	adult := person(12*30, nil)
	tests := []struct {
		name     string
		s        Situation
		have     []string
		haveNot  []string
		concerns string // the caution whose People must be p
	}{
		{"nothing", Situation{}, []string{"C61"}, []string{"C01", "C06", "C12", "C16", "C62"}, ""},
		{"canned beans", Situation{People: []nutrients.Person{adult}, Packs: []*foods.Pack{pack("canned_beans", "can_303")}},
			[]string{"C01", "C02", "C05", "C06", "C07", "C36", "C38", "C59"}, []string{"C16", "C19", "C20", "C28", "C30", "C37", "C44"}, ""},
		{"glass", Situation{Packs: []*foods.Pack{pack("pickles_olives", "jar_16")}}, []string{"C37", "C01"}, []string{"C02", "C38"}, ""},
		{"dry beans on charcoal", Situation{Packs: []*foods.Pack{pack("beans_dried", "bag_beans_1")}, Stoves: []string{"charcoal"}},
			[]string{"C30", "C34", "C16", "C17", "C08"}, []string{"C18", "C01"}, ""},
		{"gas", Situation{Stoves: []string{"canister-230"}}, []string{"C16", "C17", "C18"}, nil, ""},
		{"a candle", Situation{Stoves: []string{"candle"}}, []string{"C17"}, []string{"C16", "C18"}, ""},
		{"infant of 3 months on formula", Situation{People: []nutrients.Person{person(3, func(p *nutrients.Person) { p.Feeding = nutrients.FormulaFed })},
			Packs: []*foods.Pack{pack("infant_formula_powder", "can_formula_powder")}},
			[]string{"C19", "C20", "C21", "C22", "C23", "C25", "C26", "C62"}, []string{"C28", "C30"}, "C26"},
		{"infant of 8 months, no formula", Situation{People: []nutrients.Person{person(8, nil)}}, []string{"C19", "C25"}, []string{"C20", "C21", "C26"}, "C19"},
		{"toddler and nuts", Situation{People: []nutrients.Person{person(30, nil)}, Foods: []*foods.Food{{Form: "nuts_canned_or_jar"}}}, []string{"C28"}, []string{"C19"}, "C28"},
		{"nuts without a toddler", Situation{People: []nutrients.Person{adult}, Foods: []*foods.Food{{Form: "nuts_canned_or_jar"}}}, nil, []string{"C28"}, ""},
		{"just four", Situation{People: []nutrients.Person{person(48, nil)}, Foods: []*foods.Food{{Form: "hard_candy"}}}, nil, []string{"C28"}, ""},
		{"pregnant", Situation{People: []nutrients.Person{person(12*30, func(p *nutrients.Person) { p.State = nutrients.Pregnant2 })}, Tags: []Tag{Iodine, WellWater}},
			[]string{"C15", "C24", "C47", "C62"}, []string{"C48"}, "C47"},
		{"nursing", Situation{People: []nutrients.Person{person(12*30, func(p *nutrients.Person) { p.State = nutrients.Lactating1 })}}, []string{"C48"}, []string{"C47"}, "C48"},
		{"type 1 diabetes", Situation{People: []nutrients.Person{person(12*30, func(p *nutrients.Person) { p.Conditions = []nutrients.Condition{nutrients.Diabetes1} })}},
			[]string{"C41", "C42", "C43", "C63"}, nil, "C41"},
		{"diabetes by diet", Situation{People: []nutrients.Person{person(12*30, func(p *nutrients.Person) { p.Conditions = []nutrients.Condition{nutrients.Diabetes2Diet} })}},
			[]string{"C43"}, []string{"C41", "C42"}, "C43"},
		{"kidney disease", Situation{People: []nutrients.Person{person(12*50, func(p *nutrients.Person) { p.Conditions = []nutrients.Condition{nutrients.KidneyDisease} })}},
			[]string{"C44", "C62"}, nil, "C44"},
		{"allergy", Situation{People: []nutrients.Person{person(12*50, func(p *nutrients.Person) { p.Allergies = []nutrients.Allergy{{Allergen: "milk"}} })}}, []string{"C39"}, []string{"C40"}, "C39"},
		{"a small child without milk", Situation{People: []nutrients.Person{person(20, nil)}, NoMilk: func(p *nutrients.Person) bool { return p.Name == "p" }}, []string{"C64"}, []string{"C39"}, "C64"},
		{"a small child with milk", Situation{People: []nutrients.Person{person(20, nil)}, NoMilk: func(*nutrients.Person) bool { return false }}, nil, []string{"C64"}, ""},
		{"a small child of whom nothing is known", Situation{People: []nutrients.Person{person(20, nil)}}, nil, []string{"C64"}, ""},
		{"coeliac", Situation{People: []nutrients.Person{person(12*50, func(p *nutrients.Person) { p.Conditions = []nutrients.Condition{nutrients.Coeliac} })}}, []string{"C40"}, []string{"C39"}, "C40"},
		{"older, crackers", Situation{People: []nutrients.Person{person(12*80, nil)}, Foods: []*foods.Food{{Form: "crackers"}}}, []string{"C29"}, nil, "C29"},
		{"doubtful water", Situation{Tags: []Tag{DoubtfulWater, Bleach}}, []string{"C11", "C14"}, []string{"C15", "C24"}, ""},
		{"stored water", Situation{Tags: []Tag{AnyWater}}, []string{"C12"}, []string{"C11"}, ""},
		{"pets", Situation{Pets: 1}, []string{"C58"}, nil, ""},
		{"a stove nobody knows", Situation{Stoves: []string{"nonsense"}}, []string{"C17"}, nil, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.s.Cautions()
			have := ids(got)
			for _, id := range tt.have {
				if !slices.Contains(have, id) {
					t.Errorf("%s is missing in %v", id, have)
				}
			}
			for _, id := range tt.haveNot {
				if slices.Contains(have, id) {
					t.Errorf("%s does not belong here", id)
				}
			}
			for i, c := range got {
				if slices.Index(have, c.ID) != i {
					t.Errorf("%s comes twice", c.ID)
				}
				if i > 0 && slices.Index(Severities, got[i-1].Severity) > slices.Index(Severities, c.Severity) {
					t.Errorf("%s stands after a lighter one", c.ID)
				}
				if c.ID == tt.concerns && !slices.Equal(c.People, []string{"p"}) {
					t.Errorf("%s concerns %v, want p", c.ID, c.People)
				}
			}
		})
	}
	// The table is not changed by what a situation adds.
	for _, c := range cautions() {
		if c.People != nil {
			t.Errorf("%s keeps %v", c.ID, c.People)
		}
	}
}

// Every embedded table loads, and every figure has a source and says whether a
// copy was seen.
func TestTablesLoad(t *testing.T) {
	entries, err := files.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		name := strings.TrimSuffix(e.Name(), ".csv")
		all := rows(name)
		if len(all) == 0 {
			t.Errorf("%s is empty", name)
		}
		for _, r := range all {
			ref := r.ref()
			if ref.Source == "" || !strings.HasPrefix(ref.Verified, "yes") && !ref.FromMemory() && !ref.NoSource() {
				t.Errorf("%s, line %d: source %q, verified %q", e.Name(), r.Line, ref.Source, ref.Verified)
			}
		}
	}
}

// tags returns every word that a situation can carry: those of people, those
// of things, and those that things.csv finds.
func tags() []Tag {
	all := []Tag{
		Infant, InfantUnder6, FormulaFed, NoMilk, Under4, Child, Pregnant, Nursing, Older, Diabetes, LowSugarDrug, AllergyTag,
		Coeliac, SoftFood, Kidney, Heart, Dysphagia, InbornError, TubeFeeding, Menstruating,
		Pets, Frail, Ill, Prescription, Gout, Warfarin, MAOInhibitor, Refeeding,
		AnyFood, AnyWater, Cooking, DoubtfulWater, WellWater, Bleach, Iodine, Flame, CarbonMonoxide, StoredFuel,
		HomeCanned, Flood, Illness, Sanitation, Supplements, Alcohol, Rationing, LowEnergy,
	}
	for _, t := range things() {
		all = append(all, t.tag)
	}
	return all
}

// With orders of the clinician the caution of a person for whom no ordinary plan is made
// says that they are kept, where everybody whom it concerns has some and is planned for.
func TestCautionsWithOrders(t *testing.T) {
	const plain, kept = "Do not use the ordinary plan. ", "This plan keeps the clinician's orders. Have at hand where they cannot be kept: "
	written := ""
	for _, r := range rows("cautions") {
		if r.Text("id") == "C44" {
			written = r.Text("action")
		}
	}
	rest, ok := strings.CutPrefix(written, plain)
	if !ok || rest == "" {
		t.Fatalf("C44: %q", written)
	}
	ordered := kept + strings.ToLower(rest[:1]) + rest[1:]
	patient := func(change ...func(*nutrients.Person)) nutrients.Person {
		p := nutrients.Person{Name: "p", AgeMonths: 600, Conditions: []nutrients.Condition{nutrients.KidneyDisease}, Orders: nutrients.Orders{List: make([]nutrients.Order, 1)}}
		for _, c := range change {
			c(&p)
		}
		return p
	}
	noOrders := patient(func(p *nutrients.Person) { p.Orders.List = nil })
	unplanned := patient(func(p *nutrients.Person) { p.Unplanned = &nutrients.Refusal{} })
	healthy := nutrients.Person{Name: "q", AgeMonths: 600}
	for _, tt := range []struct {
		name   string
		people []nutrients.Person
		want   string
	}{
		{"orders", []nutrients.Person{patient()}, ordered}, {"no orders", []nutrients.Person{noOrders}, written}, {"no plan", []nutrients.Person{unplanned}, written},
		{"one of two without", []nutrients.Person{patient(), noOrders}, written}, {"the first without", []nutrients.Person{noOrders, patient()}, written},
		{"beside a healthy one", []nutrients.Person{healthy, patient()}, ordered},
	} {
		for _, c := range (Situation{People: tt.people}).Cautions() {
			switch {
			case c.ID == "C44" && c.Action != tt.want:
				t.Errorf("%s: %q, want %q", tt.name, c.Action, tt.want)
			case c.ID != "C44" && strings.HasPrefix(c.Action, kept):
				t.Errorf("%s: %s keeps orders: %q", tt.name, c.ID, c.Action)
			}
		}
	}
}

// The tags of a person on both sides of each age: infant under 12 months, without water of
// its own under 6, choking under 4 years, a child under 18, older from 65 (common practice,
// no source), menstruation from 10 to 54 years but for the first two trimesters.
func TestTagsByAge(t *testing.T) {
	for _, tt := range []struct {
		months int
		change func(*nutrients.Person)
		want   []Tag
	}{
		{5, nil, []Tag{Infant, InfantUnder6, Under4, Child}},
		{6, nil, []Tag{Infant, Under4, Child}},
		{11, func(p *nutrients.Person) { p.Feeding = nutrients.MixedFed }, []Tag{Infant, FormulaFed, Under4, Child}},
		{11, func(p *nutrients.Person) { p.Feeding = nutrients.FormulaFed }, []Tag{Infant, FormulaFed, Under4, Child}},
		{11, func(p *nutrients.Person) { p.Feeding = nutrients.BreastFed }, []Tag{Infant, Under4, Child}},
		{12, func(p *nutrients.Person) { p.Feeding = nutrients.FormulaFed }, []Tag{Under4, Child}},
		{47, nil, []Tag{Under4, Child}}, {48, nil, []Tag{Child}}, {119, nil, []Tag{Child}}, {120, nil, []Tag{Child, Menstruating}},
		{215, nil, []Tag{Child, Menstruating}}, {216, nil, []Tag{Menstruating}}, {659, nil, []Tag{Menstruating}}, {660, nil, nil},
		{216, func(p *nutrients.Person) { p.Sex = nutrients.Male }, nil},
		{779, nil, nil}, {780, nil, []Tag{Older}},
		{360, func(p *nutrients.Person) { p.State = nutrients.Pregnant1 }, []Tag{Pregnant}},
		{360, func(p *nutrients.Person) { p.State = nutrients.Pregnant2 }, []Tag{Pregnant}},
		{360, func(p *nutrients.Person) { p.State = nutrients.Pregnant3 }, []Tag{Pregnant, Menstruating}},
		{360, func(p *nutrients.Person) { p.State = nutrients.Lactating1 }, []Tag{Nursing, Menstruating}},
		{700, func(p *nutrients.Person) { p.Allergies = []nutrients.Allergy{{Allergen: "egg"}} }, []Tag{AllergyTag}},
		{700, func(p *nutrients.Person) {
			p.Conditions = []nutrients.Condition{nutrients.Diabetes2Diet, nutrients.Coeliac}
		}, []Tag{Diabetes, Coeliac}},
		{700, func(p *nutrients.Person) { p.Conditions = []nutrients.Condition{nutrients.Diabetes2} }, []Tag{Diabetes, LowSugarDrug}},
		{700, func(p *nutrients.Person) { p.Conditions = []nutrients.Condition{nutrients.LowSodium} }, []Tag{Heart}},
	} {
		p := nutrients.Person{AgeMonths: tt.months, Sex: nutrients.Female}
		if tt.change != nil {
			tt.change(&p)
		}
		if got := PersonTags(&p); !slices.Equal(got, tt.want) {
			t.Errorf("%d months, %s %s %v: %v, want %v", tt.months, p.Sex, p.State, p.Conditions, got, tt.want)
		}
	}
}

// A food brings a tag by its form or by its own marks, a pack also by what it is in.
func TestTagsOfThings(t *testing.T) {
	for _, tt := range []struct {
		name string
		s    Situation
		want []Tag
	}{
		{"nothing", Situation{}, nil},
		{"a plain food", Situation{Foods: []*foods.Food{{Form: "rice_white"}}}, []Tag{AnyFood}},
		{"a form", Situation{Foods: []*foods.Food{{Form: "beans_dried"}}}, []Tag{AnyFood, "dry-beans"}},
		{"a mark", Situation{Foods: []*foods.Food{{Form: "rice_white", Tags: []string{"sticky"}}}}, []Tag{AnyFood, "choking"}},
		{"a pack without a food", Situation{Packs: []*foods.Pack{{Container: "can_303"}}}, []Tag{"can"}},
		{"a pack with one", Situation{Packs: []*foods.Pack{{Container: "jar_16", Food: &foods.Food{Form: "rice_white"}}}}, []Tag{AnyFood, "jar", "glass"}},
		{"glass or plastic", Situation{Packs: []*foods.Pack{{Container: "formula_rtf_2"}}}, []Tag{"jar", "glass"}},
		{"a pack of no container", Situation{Packs: []*foods.Pack{{Container: "sack"}}}, nil},
		{"said twice", Situation{Tags: []Tag{Gout, Gout}, Pets: 1}, []Tag{Pets, Gout}},
	} {
		if got := tt.s.AllTags(); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

// A cell of the program's own tables that is no number, or is empty where one must be, stops
// the program with the place of it.
func TestBrokenTablesAreToldByTheirPlace(t *testing.T) {
	all := parse("data/x.csv", []byte("key,value\na,1.5\nb,\nc,much\n"), nil)
	if v, known := all[0].number("value"); v != 1.5 || !known {
		t.Errorf("1.5 is %g, %v", v, known)
	}
	if v, known := all[1].number("value"); v != 0 || known {
		t.Errorf("an empty cell is %g, %v", v, known)
	}
	for i, read := range []func(){func() { all[1].must("value") }, func() { all[2].must("value") }, func() { all[2].number("value") }} {
		func() {
			defer func() {
				if said, _ := recover().(string); !strings.Contains(said, "data/x.csv:") || !strings.Contains(said, "value") {
					t.Errorf("%d: %q", i, said)
				}
			}()
			read()
		}()
	}
}

// What is said about people of a tag is what the table has with it and without a condition of
// what is stored: C64 of who may have no milk, C39 of an allergy and the general C62, nothing of
// choking, which waits for food that chokes, nor of nobody.
func TestCautionsAboutPeople(t *testing.T) {
	for _, tt := range []struct {
		tag  Tag
		want []string
	}{{NoMilk, []string{"C64"}}, {AllergyTag, []string{"C39", "C62"}}, {Under4, nil}, {AnyWater, nil}} {
		if got := ids(CautionsAbout(tt.tag)); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.tag, got, tt.want)
		}
	}
}

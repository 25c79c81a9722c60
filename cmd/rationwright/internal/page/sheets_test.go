package page

import (
	"context"
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// TestDoorOfItsOwnSubjects: a warning that belongs to no subject is one of its own, so that five
// of them fit; the gravest stand first, whatever the plan's order, those of the least weight last;
// each is there once.
func TestDoorOfItsOwnSubjects(t *testing.T) {
	of := func(severity string, ids ...string) (list []ration.Caution) {
		for _, id := range ids {
			list = append(list, ration.Caution{ID: id, Severity: severity})
		}
		return list
	}
	for _, c := range []struct {
		all  []ration.Caution
		want string
	}{
		{of("stop", "X1", "X2", "X3", "X4", "X5", "X6"), "X1 X2 X3 X4 X5"},
		{of("stop", "X1", "X2", "X2", "X1"), "X1 X2"},
		{append(append(of("info", "I1"), of("warn", "W1", "W2")...), of("stop", "S1")...), "S1 W1 W2 I1"},
		{of("stop", "X1", "C11", "C16", "C06", "C01"), "C16 C01 C06 C11 X1"}, // fumes, packs, food that stands, water, then its own
		{append(of("warn", "C17", "C18"), of("stop", "C16")...), "C16 C17"},  // two of one subject
	} {
		if got := idsOf(doorFive(c.all)); got != c.want {
			t.Errorf("%s: %s, want %s", idsOf(c.all), got, c.want)
		}
	}
	about := func(id string, people ...string) ration.Caution {
		return ration.Caution{ID: id, Severity: "stop", People: people}
	}
	if got := idsOf(doorFive([]ration.Caution{about("P1", "Liv"), about("P2", "Ask"), about("P3", "Odd"), about("P4", "Per")})); got != "P1 P2 P3" {
		t.Errorf("four people: %s, want three by name", got)
	}
	if got := idsOf(doorFive([]ration.Caution{about("P1", "Liv"), about("P2", "Liv"), about("P3", "Ask")})); got != "P1 P3 P2" {
		t.Errorf("two about Liv and one about Ask: %s, want each once before one twice", got)
	}
	for _, c := range []struct {
		r    Report
		want bool
	}{
		{Report{Plan: &view.Plan{}}, false}, {Report{Plan: &view.Plan{}, Avoid: []Avoid{{Dislike: []string{"a", "b"}}}}, false},
		{Report{Plan: &view.Plan{}, Avoid: []Avoid{{Dislike: []string{"a"}}, {MustNot: []string{"No milk."}}}}, true}, {Report{Plan: &view.Plan{Apart: []string{"Not for Liv"}}}, true},
	} {
		if got := c.r.MustNot(); got != c.want {
			t.Errorf("%+v: %v", c.r.Avoid, got)
		}
	}
}

// TestHandoutByHand: packs of one aisle stand together in the order in which they come, each
// once, with what each household buys of it; a pack whose key says no size has its key.
func TestHandoutByHand(t *testing.T) {
	of := func(who string, aisles ...view.Aisle) *Report {
		return &Report{Plan: &view.Plan{Shopping: aisles}, Who: who, Units: sheet.Metric}
	}
	rice := func(bag, sack int) view.Food {
		return view.Food{Name: "rice", Packs: []view.Packs{{Key: "rice-1kg-bag", Size: "1 kg bag", Buy: bag}, {Key: "rice-5kg-sack", Size: "5 kg sack", Buy: sack}}}
	}
	oats := view.Food{Name: "oats", Packs: []view.Packs{{Key: "oats own", Buy: 4}}}
	beans := view.Food{Name: "beans", Packs: []view.Packs{{Key: "beans-400g-can", Size: "400 g can", Buy: 9, Own: 2}}}
	var b strings.Builder
	if err := Handout(&b, []*Report{of("Ola", view.Aisle{Name: "grains", Foods: []view.Food{rice(2, 0)}}), of("Kari", view.Aisle{Name: "cans", Foods: []view.Food{beans}}, view.Aisle{Name: "grains", Foods: []view.Food{oats, rice(3, 1)}}), of("Per")}); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, m := range regexp.MustCompile(`rowgroup">([^<]*)<|<th scope="row">([^<]*) <small>([^<]*)</small></th>(.*)</tr>`).FindAllStringSubmatch(b.String(), -1) {
		if m[1] != "" {
			got = append(got, m[1])
			continue
		}
		cells := strings.NewReplacer(`<span class="spoken">none</span>`, "0", "<td>", "|", "</td>", "").Replace(m[4])
		got = append(got, m[2]+", "+m[3]+cells)
	}
	want := []string{"Grains", "rice, 1 kg bag|2|3|0", "oats, oats own|0|4|0", "rice, 5 kg sack|0|1|0", "Cans", "beans, 400 g can|0|9|0"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if n := strings.Count(b.String(), `colspan="4"`); n != 2 || !strings.Contains(b.String(), "<title>Rations side by side</title>") || !strings.Contains(b.String(), `<body class="handout">`) {
		t.Errorf("%d aisles go over four columns", n)
	}
}

// TestDueByMonth: what falls due in one month stands together, what has no date first.
func TestDueByMonth(t *testing.T) {
	a := func(what, by string) stores.Action { return stores.Action{Pack: what, By: by} }
	all := []stores.Action{a("find the date", ""), a("look", ""), a("rice", "2026-11-02"), a("beans", "2026-11-30"), a("oil", "2026-12-01"), a("salt", "2027-11-01")}
	want := []Month{{"", all[:2]}, {"November 2026", all[2:4]}, {"December 2026", all[4:5]}, {"November 2027", all[5:]}}
	if got := byMonth(all); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got := byMonth(nil); got != nil {
		t.Errorf("%+v", got)
	}
}

// TestSheetsAndTheirTitles: each sheet has its own title, and its own part only; where nothing
// fits there is one page, whichever is asked for.
func TestSheetsAndTheirTitles(t *testing.T) {
	r, _ := made(t)
	r.Strips = []Strip{{Title: "Day 1"}}
	for only, c := range map[Only]struct{ title, has, not string }{
		All: {"Ration for ", "In figures", "Door sheet"}, Shopping: {"Shopping list: ", "What to buy", "In figures"}, Menu: {"Menu: ", "What to eat on which day", "What to buy"}, Door: {"Door sheet: ", "<li>", "What to buy"},
	} {
		text := written(t, r, only)
		if !strings.Contains(text, "<title>"+c.title+r.Who+"</title>") || !strings.Contains(text, c.has) || strings.Contains(text, c.not) || strings.Contains(text, `<body class="door`) != (only == Door) {
			t.Errorf("%s: %.200s", only, text)
		}
		if !strings.Contains(text, "<style>"+CSS()) {
			t.Errorf("%s has no style", only)
		}
	}
	none := &Report{Plan: &view.Plan{Days: 3}, Who: "Ola", Nothing: []sheet.Section{{Title: "What cannot be met together", Lead: []string{"a budget"}}}}
	for _, only := range []Only{All, Shopping, Menu, Door} {
		if text := written(t, none, only); !strings.Contains(text, "<h1>No ration for Ola</h1>") || !strings.Contains(text, "What cannot be met together") {
			t.Errorf("%s: %.300s", only, text)
		}
	}
}

// TestMenuCutShort: where the time ends before the days are laid out the page says so, and is
// a page without a menu.
func TestMenuCutShort(t *testing.T) {
	r, p := made(t)
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(t.Context(), 0)
	defer stop()
	before := len(r.Lead)
	if err := r.AddMenu(ctx, p, req); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(r.NoMenu, "the menu is left out: ") || !strings.HasSuffix(r.NoMenu, "; with more --time it is there") || len(r.Strips) != 0 || len(r.Lead) != before+1 || r.Lead[before] != sheet.Sentence(r.NoMenu) {
		t.Errorf("%q, %q, %d strips", r.NoMenu, r.Lead, len(r.Strips))
	}
}

// TestManyNames: a title names eight; of nine it names two, and how many more. Pictures are
// shown of twelve rows, of one fewer for every four more, down to none.
func TestManyNames(t *testing.T) {
	names := func(n int) (list []string) {
		for i := range n {
			list = append(list, fmt.Sprintf("N%d", i+1))
		}
		return list
	}
	for n, want := range map[int]string{1: "N1", 2: "N1 and N2", 8: "N1, N2, N3, N4, N5, N6, N7 and N8", 9: "N1, N2 and 7 others", 40: "N1, N2 and 38 others"} {
		list := names(n)
		if got := titleNames(list); got != want || list[min(2, n-1)] != fmt.Sprintf("N%d", min(3, n)) {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
	for people, want := range map[int]int{0: 0, 1: 1, 12: 12, 13: 12, 15: 12, 16: 11, 19: 11, 20: 10, 59: 1, 60: 0, 64: 0, 300: 0} {
		if got := shown(people); got != want {
			t.Errorf("of %d people %d are shown, want %d", people, got, want)
		}
	}
}

// TestLinesGathered: lines that hang are gathered into lists, the others stay; a table of more
// than six columns is wide; the legend of what is from memory ends the page.
func TestLinesGathered(t *testing.T) {
	got := gather([]string{"a", "- b", "- c", "d", "e", "- f"})
	if want := []Lines{{false, []string{"a"}}, {true, []string{"b", "c"}}, {false, []string{"d"}}, {false, []string{"e"}}, {true, []string{"f"}}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := gather([]string{"- a"}); !reflect.DeepEqual(got, []Lines{{true, []string{"a"}}}) || gather(nil) != nil {
		t.Errorf("%v", got)
	}
	for columns, want := range map[int]bool{1: false, 6: false, 7: true} {
		if got := wide(sheet.NewGrid(make([]string, columns)...)); got != want {
			t.Errorf("%d columns are wide: %v", columns, got)
		}
	}
	legend := `<p class="fine">` + sheet.Legend + "</p>\n"
	for _, c := range [][2]string{
		{"<main>a (from memory)</main>b", "<main>a†" + legend + "</main>b"}, {"</main>a (from memory)", legend + "</main>a†"}, {"a (from memory)", "a†"}, {"<main>a</main>", "<main>a</main>"},
	} {
		if got := Marked(c[0]); got != c[1] {
			t.Errorf("%q: %q, want %q", c[0], got, c[1])
		}
	}
}

// TestPageOfAPlan: the page has the currency of the plan, who eats what, fuel where anything is
// heated and none where nothing is, and with a menu a strip for each of its days.
func TestPageOfAPlan(t *testing.T) {
	r, p := made(t)
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	if r.Currency == "" || r.Currency != p.Totals.Currency || len(r.Eats) == 0 || len(r.Eats[0].Table.Rows()) == 0 {
		t.Errorf("currency %q of %q, %d sections of who eats what", r.Currency, p.Totals.Currency, len(r.Eats))
	}
	if (r.Fuel.Packs > 0) != (p.Totals.HeatMJ > 0) || (r.Fuel.What != "") != (p.Totals.HeatMJ > 0) {
		t.Errorf("%+v for %g MJ", r.Fuel, p.Totals.HeatMJ)
	}
	cold, totals := *p, *p.Totals
	totals.HeatMJ, cold.Totals = 0, &totals
	if none, err := New(&cold, req, sheet.Metric); err != nil || none.Fuel != (Fuel{}) {
		t.Errorf("nothing is heated: %v, %+v", err, none.Fuel)
	}
	if err := r.AddMenu(t.Context(), p, req); err != nil || len(r.Strips) != p.Days || r.NoMenu != "" {
		t.Fatalf("%v, %d strips of %d days, %q", err, len(r.Strips), p.Days, r.NoMenu)
	}
	if first := r.Strips[0]; !strings.HasPrefix(first.Title, "Day 1, ") || len(first.Meals) == 0 {
		t.Errorf("%+v", first)
	}
}

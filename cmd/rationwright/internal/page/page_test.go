package page

import (
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"math"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/foods/stores"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
)

func ptr(v float64) *float64 { return &v }

// made is the report of a plan for one woman.
func made(t *testing.T) (*Report, *ration.Plan) {
	t.Helper()
	p, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	r, err := New(p, req, sheet.Metric)
	if err != nil {
		t.Fatal(err)
	}
	return r, p
}

func written(t *testing.T, r *Report, only Only) string {
	t.Helper()
	var b strings.Builder
	if err := r.Write(&b, only); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestNobodyIsFed: where everybody is refused the report says so in the place of a list.
func TestNobodyIsFed(t *testing.T) {
	p := &ration.Plan{Status: ration.StatusLimit, Days: 14, Refused: []ration.Refused{{Name: "Aud", Reason: "a clinician plans this"}}}
	r, err := New(p, &ration.Request{Days: 14}, sheet.Metric)
	if err != nil {
		t.Fatal(err)
	}
	text := written(t, r, All)
	if len(r.Shopping) > 0 || !strings.Contains(text, "AUD") {
		t.Errorf("%d shops to go to, AUD named %v", len(r.Shopping), strings.Contains(text, "AUD"))
	}
}

// TestWriteShowsThePlan: every pack with its number stands on the list once, every
// warning at the end, five on the door.
func TestWriteShowsThePlan(t *testing.T) {
	r, p := made(t)
	all, door := written(t, r, All), written(t, r, Door)
	if n := strings.Count(all, `type="checkbox"`); n != len(p.Packs) {
		t.Errorf("%d boxes to tick for %d packs", n, len(p.Packs))
	}
	for _, c := range p.Cautions {
		if head, _, _ := strings.Cut(c.Text, "."); !strings.Contains(all, html.EscapeString(head)) {
			t.Errorf("the warning %s is not in the report", c.ID)
		}
	}
	if n := strings.Count(door, "<li>"); n != doorCautions {
		t.Errorf("the door has %d warnings, want %d", n, doorCautions)
	}
	if strings.Contains(door, "What to buy") || !strings.Contains(door, r.Units.Water(p.Totals.WaterL)) {
		t.Error("the door sheet has a shopping list, or no water")
	}
	var b strings.Builder
	if err := r.Write(&b, Menu); !errors.Is(err, ErrNoMenu) {
		t.Errorf("a menu that was not made: %v", err)
	}
}

// TestSelfContained: nothing is fetched, nothing runs, and a whole report stays
// small.
func TestSelfContained(t *testing.T) {
	r, _ := made(t)
	whole := written(t, r, All)
	all := strings.ReplaceAll(whole, "xmlns='http://www.w3.org/2000/svg'", "") // what the pictures call SVG; it is not fetched
	for _, bad := range []string{"<script", "<link", "@import", "http://", "https://", " on"} {
		if k := strings.Index(all, bad+"="); k >= 0 || bad != " on" && strings.Contains(all, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
	for _, m := range regexp.MustCompile(`src="([^"]{0,40})`).FindAllStringSubmatch(all, -1) {
		if !strings.HasPrefix(m[1], "data:image/svg+xml;charset=utf-8,") {
			t.Errorf("src is %q", m[1])
		}
	}
	if len(whole) > 300_000 {
		t.Errorf("%d bytes", len(whole))
	}
}

// TestManyPeopleStaySmall: the page of as many people as a plan may have, each with all
// that the demo's first has, is no larger than that of a family, and says what it leaves
// out.
func TestManyPeopleStaySmall(t *testing.T) {
	_, p := made(t)
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	first := p.People[0]
	for _, n := range []int{13, 20, 36, ration.MostPeople} {
		many := *p
		many.People = nil
		for i := range n {
			person := first
			person.Name = fmt.Sprintf("Somebody of house %d", i+1)
			many.People = append(many.People, person)
		}
		r, err := New(&many, req, sheet.Metric)
		if err != nil {
			t.Fatal(err)
		}
		whole := written(t, r, All)
		if days := 14 * (leastStrip + n*stripEach); len(whole) > 300_000-days {
			t.Errorf("%d people: %d bytes, and %d are for the days", n, len(whole), days)
		}
		if want := fmt.Sprintf("<h1>Ration for Somebody of house 1, Somebody of house 2 and %d others</h1>", n-2); !strings.Contains(whole, want) {
			t.Errorf("%d people: the title is not %s", n, want)
		}
		if !strings.Contains(whole, "no picture here") || strings.Count(whole, "<figcaption>Somebody") >= n {
			t.Errorf("%d people: the page does not say that it leaves pictures out", n)
		}
	}
}

// Room for a day of the menu: those of sixty people of many kinds took up to 8,800 bytes.
const (
	leastStrip = 2_800
	stripEach  = 100
)

// TestNeedsPicture: the words beside a picture say what it draws, and the picture is
// sound XML.
func TestNeedsPicture(t *testing.T) {
	picture, err := needsPicture("Maja", []ration.PersonNeed{
		{Nutrient: "energy", Amount: 2200, Floor: ptr(2000)},
		{Nutrient: "vitamin_d", Amount: 12, Floor: ptr(15)},
		{Nutrient: "zinc", Amount: 4, Target: ptr(2)}, // shown to clinicians, not enforced
		{Nutrient: "fiber", Amount: 3, Floor: ptr(0)}, // no share of nothing
	})
	if err != nil {
		t.Fatal(err)
	}
	if want := "What Maja gets a day as a share of need. Short of vitamin D. Energy 110 %, vitamin D 80 %."; picture.Alt != want {
		t.Errorf("%q, want %q", picture.Alt, want)
	}
	for share, short := range map[float64]bool{0.9: true, 0.95: true, 0.999: true, 0.99995: false, 1: false} {
		near, err := needsPicture("Maja", []ration.PersonNeed{{Nutrient: "iron", Amount: 18 * share, Floor: ptr(18)}})
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(near.Alt, "Short of iron") != short || strings.Contains(near.Alt, "Nothing is short") == short {
			t.Errorf("%g of a need: %q", share, near.Alt)
		}
	}
	svg := drawing(t, picture)
	if at := heights(t, svg); at["energy"] <= at["vitamin D"] || math.Abs(at["energy"]-at["110 %"]) > 5 || math.Abs(at["vitamin D"]-at["80 %"]) > 5 {
		t.Errorf("the first does not stand on top, or a share not beside its need: %v", at)
	}
	for dec := xml.NewDecoder(strings.NewReader(svg)); ; {
		if _, err := dec.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	if none, err := needsPicture("Liv", []ration.PersonNeed{{Nutrient: "zinc", Amount: 4, Target: ptr(2)}}); none != nil || err != nil {
		t.Errorf("a picture of nothing: %v, %v", none, err)
	}
}

// heights are how high the words of an SVG stand; the library draws from the bottom up.
func heights(t *testing.T, svg string) map[string]float64 {
	t.Helper()
	at := map[string]float64{}
	for _, m := range regexp.MustCompile(`<text x='[^']*' y='([^']*)'[^>]*>([^<]*)</text>`).FindAllStringSubmatch(svg, -1) {
		y, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		at[strings.TrimSpace(m[2])] = -y
	}
	return at
}

// TestReportOfAPlan: the water stands in the containers of 20 L (packages.csv, can_water_20),
// as many as hold it; every food of the list is counted; each file has its style inside.
func TestReportOfAPlan(t *testing.T) {
	r, p := made(t)
	if want := (Cans{int(math.Ceil(p.Totals.WaterL/20 - 1e-9)), 20}); r.Cans != want {
		t.Errorf("%+v for %g L, want %+v", r.Cans, p.Totals.WaterL, want)
	}
	foods := map[string]bool{}
	for _, k := range p.Packs {
		foods[k.Food] = true
	}
	if r.Foods != len(foods) || r.Unshown != 0 || len(r.Figures) != 1 || len(r.Pictures) != 1 {
		t.Errorf("%d foods, want %d; %d people not shown", r.Foods, len(foods), r.Unshown)
	}
	if all := written(t, r, All); !strings.Contains(all, CSS()[:40]) {
		t.Error("the page has no style")
	}
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	if err := r.AddMenu(expired(t), p, req); err != nil || !strings.HasPrefix(r.NoMenu, "the menu is left out: ") || !strings.HasSuffix(r.Lead[len(r.Lead)-1], "; with more --time it is there.") || r.Strips != nil {
		t.Errorf("%v: %q, %q", err, r.NoMenu, r.Lead)
	}
	for columns, want := range map[int]bool{6: false, 7: true} {
		if got := wide(sheet.NewGrid(make([]string, columns)...)); got != want {
			t.Errorf("%d columns are wide: %v, want %v", columns, got, want)
		}
	}
	if got := Marked("rice (from memory)"); got != "rice†" {
		t.Errorf("%q", got)
	}
	if got := gather([]string{"a", "- b", "- c", "d", "- e"}); len(got) != 4 || !slices.Equal(got[1].Text, []string{"b", "c"}) || !got[1].List || got[2].List || !got[3].List {
		t.Errorf("%+v", got)
	}
	for people, want := range map[int]int{0: 0, 1: 1, 12: 12, 13: 12, 15: 12, 16: 11, 20: 10, 60: 0, 99: 0} {
		if got := shown(people); got != want {
			t.Errorf("of %d people %d are shown, want %d", people, got, want)
		}
	}
	for _, c := range []struct {
		n    int
		want string
	}{{1, "P"}, {2, "P and P"}, {8, "P, P, P, P, P, P, P and P"}, {9, "P, P and 7 others"}} {
		if got := titleNames(slices.Repeat([]string{"P"}, c.n)); got != c.want {
			t.Errorf("%d names: %q, want %q", c.n, got, c.want)
		}
	}
}

// expired is a context whose time is over.
func expired(t *testing.T) context.Context {
	ctx, cancel := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
	t.Cleanup(cancel)
	return ctx
}

// drawing is the SVG of a picture, as a browser reads it from the attribute.
func drawing(t *testing.T, p *Picture) string {
	t.Helper()
	link, ok := strings.CutPrefix(strings.TrimSuffix(html.UnescapeString(string(p.Src)), `"`), `src="data:image/svg+xml;charset=utf-8,`)
	text, err := url.PathUnescape(link)
	if err != nil || !ok || strings.ContainsAny(link, "\"<>#") {
		t.Fatalf("%v: %.60s", err, p.Src)
	}
	return text
}

// TestForeignText: names and sources of a user's files are text.
func TestForeignText(t *testing.T) {
	r, _ := made(t)
	evil := `<img src=x onerror=alert(1)>`
	r.Who, r.People[0].Name, r.Headline = evil, evil, []string{evil}
	r.Shopping[0].Foods[0].Name, r.Shopping[0].Name = evil, evil
	r.Avoid = []Avoid{{Name: evil, MustNot: []string{evil}, Dislike: []string{evil}}}
	var handout strings.Builder
	if err := Handout(&handout, []*Report{r, r}); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{written(t, r, All), written(t, r, Shopping), written(t, r, Door), handout.String()} {
		if strings.Contains(text, "<img src=x") || !strings.Contains(text, "&lt;img src=x") {
			t.Error("a name became markup, or is not shown")
		}
	}
}

// TestHandoutWarns: each household has its own five warnings, not those of the first.
func TestHandoutWarns(t *testing.T) {
	one, _ := made(t)
	two, three := *one, *one
	for _, r := range []*struct {
		*Report
		mark string
	}{{one, "first"}, {&two, "second"}, {&three, "third"}} {
		r.DoorFive = slices.Clone(r.DoorFive)
		for i := range r.DoorFive {
			r.DoorFive[i].Text = r.mark + " " + r.DoorFive[i].Text
		}
	}
	var b strings.Builder
	if err := Handout(&b, []*Report{one, &two, &three}); err != nil {
		t.Fatal(err)
	}
	for _, mark := range []string{"First ", "Second ", "Third "} {
		if n := strings.Count(b.String(), "<li>"+mark); n != doorCautions {
			t.Errorf("%d warnings of the household called %s, want %d", n, mark, doorCautions)
		}
	}
}

// TestHandoutCounts: what each household buys stands in its column.
func TestHandoutCounts(t *testing.T) {
	r, p := made(t)
	none, list := *r, *r.Plan
	list.Shopping, none.Plan = nil, &list
	var b strings.Builder
	if err := Handout(&b, []*Report{r, &none}); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), `<span class="spoken">none</span>`); n != len(p.Packs) {
		t.Errorf("%d packs that the other does not buy, want %d", n, len(p.Packs))
	}
}

// TestHandoutBuys: what a household has of its own is no line where no household buys it.
func TestHandoutBuys(t *testing.T) {
	of := func(buy, own int) *Report {
		return &Report{Plan: &view.Plan{Shopping: []view.Aisle{{Name: "grains", Foods: []view.Food{{Name: "barley", Packs: []view.Packs{{Key: "barley-1kg-bag", Size: "1 kg bag", Buy: buy, Own: own}}}}}}}, Units: sheet.Metric}
	}
	for _, c := range []struct {
		one, two [2]int // bought and owned by each
		want     bool
	}{{[2]int{2, 0}, [2]int{0, 3}, true}, {[2]int{0, 2}, [2]int{0, 3}, false}, {[2]int{1, 2}, [2]int{0, 0}, true}} {
		var b strings.Builder
		if err := Handout(&b, []*Report{of(c.one[0], c.one[1]), of(c.two[0], c.two[1])}); err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(b.String(), "barley"); got != c.want {
			t.Errorf("bought and owned %v and %v: on the list %v, want %v", c.one, c.two, got, c.want)
		}
	}
}

// TestStoreOverAYear: what is good to a day is in date at the start of the month that
// begins on it, and not at the next. By hand: 3 of 2 kg and 1 of 4 kg from 5 January.
func TestStoreOverAYear(t *testing.T) {
	p := &ration.Plan{Packs: []ration.PlanPack{{Pack: "rice", Count: 3, WeightKg: 6}, {Pack: "oil", Count: 1, WeightKg: 4}}}
	pic, err := storePicture(p, []stores.Action{{Pack: "rice", Count: 2, By: "2026-03-05"}, {Pack: "rice", Count: 1, By: "2026-04-04"}, {Pack: "oil", Count: 1}}, "2026-01-05")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasSuffix(pic.Alt, ", December 2026 4 kg, January 2027 4 kg.") {
		t.Errorf("a year on: %q", pic.Alt)
	}
	has := drawing(t, pic)
	for _, tick := range []string{"Jan 2026", "Mar 2026", "Nov 2026", "Jan 2027", "food in date, kg"} {
		if !strings.Contains(has, ">"+tick+"</text>") {
			t.Errorf("no %q is drawn", tick)
		}
	}
	if none, err := storePicture(p, nil, "no day"); none != nil || err != nil {
		t.Errorf("without a first day: %v, %v", none, err)
	}
	for _, want := range []string{"January 2026 10 kg", "February 2026 10 kg", "March 2026 10 kg", "April 2026 4 kg", "May 2026 4 kg"} {
		if !strings.Contains(pic.Alt, want) {
			t.Errorf("%q lacks %q", pic.Alt, want)
		}
	}
}

// TestStoreOfAHotClimate: food in store is followed at 32 °C (90 °F) for a plan that is made for a hot
// climate, else at 21 °C (70 °F), for which the table of best quality has its figures; that water must
// be boiled does not warm it.
func TestStoreOfAHotClimate(t *testing.T) {
	_, p := made(t)
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, req.BoilWater = range []bool{false, true} {
		for hot, want := range map[bool]float64{false: 21, true: 32} {
			req.Hot = hot
			due, err := Dates(p, req)
			if err != nil || due.TempC != want || due.Months != 12 {
				t.Errorf("hot %v, water boiled %v: %+v, %v, want %g degrees for a year", hot, req.BoilWater, due, err, want)
			}
		}
	}
}

// Whom no plan feeds has no rules in it: what the household file says they must not
// have stands as that, and not as a dislike. Of others the rules say it.
func TestAvoid(t *testing.T) {
	refused := avoid(&view.Person{Name: "Arne", MustNotEat: []string{"peanut!"}, Refused: &ration.Refused{Name: "Arne"}})
	if len(refused.MustNot) != 1 || !strings.Contains(refused.MustNot[0], "No peanut") || len(refused.Dislike) != 0 {
		t.Errorf("of one whom no plan feeds: %+v", refused)
	}
	fed := avoid(&view.Person{Name: "Maja", MustNotEat: []string{"peanut", "sauerkraut"}, Rules: []ration.RuleNote{{Text: "No peanut and nothing that may hold it"}}})
	if len(fed.MustNot) != 1 || len(fed.Dislike) != 1 || fed.Dislike[0] != "sauerkraut" {
		t.Errorf("of one who is fed: %+v", fed)
	}
}

// Where the store holds what somebody is allergic to, every sheet says in which foods, in
// the words of its list: who opens a pack may not have seen the plan.
func TestAllergyIsOnEverySheet(t *testing.T) {
	_, p := made(t)
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	plan, food := *p, p.Packs[0].Food
	plan.People = slices.Clone(p.People)
	plan.People[0].Rules = append(slices.Clone(plan.People[0].Rules), ration.RuleNote{Text: "No peanut", Apart: &ration.Apart{Allergen: "peanut", Holds: []string{food}}})
	r, err := New(&plan, req, sheet.Metric)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Avoid) != 1 || r.Avoid[0].Name != p.People[0].Name || !slices.Contains(r.Avoid[0].MustNot, "No peanut.") {
		t.Errorf("what somebody must not eat: %+v", r.Avoid)
	}
	if len(r.Apart) != 1 || !strings.HasPrefix(r.Apart[0], "Not for "+p.People[0].Name+" (peanut). It is in: ") {
		t.Fatalf("the allergy is said as %q", r.Apart)
	}
	r.Strips = []Strip{{Title: "Day 1"}}
	for _, only := range []Only{All, Shopping, Menu, Door} {
		if n := strings.Count(written(t, r, only), html.EscapeString(r.Apart[0])); n != 1 {
			t.Errorf("sheet %q says %d times what is not for whom, want once", only, n)
		}
	}
	var text strings.Builder
	if err := report.Plan(&plan, sheet.Metric).Text(&text); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(strings.Join(strings.Fields(text.String()), " "), r.Apart[0]); n != 1 {
		t.Errorf("the whole plan as text says it %d times, want once", n)
	}
	high := r.doorHeight(12)
	if r.Apart = nil; r.doorHeight(12) >= high {
		t.Error("the room of the door does not count the line")
	}
}

// What is from memory carries a mark, and its legend stands once on the sheet: the words
// are in no sentence that a family reads.
func TestFromMemoryIsMarked(t *testing.T) {
	r, _ := made(t)
	r.Cautions = append(slices.Clone(r.Cautions), ration.Caution{ID: "own", Severity: "warn", Text: "Keep it dry", Source: "a manual (from memory)"})
	all := written(t, r, All)
	if !strings.Contains(all, "<cite>a manual†</cite>") || strings.Contains(all, "(from memory)") || strings.Count(all, sheet.Legend) != 1 {
		t.Errorf("marked: %v, legends: %d", strings.Contains(all, "a manual†"), strings.Count(all, sheet.Legend))
	}
	if text := Marked("<main><p>Rice (label)</p></main>"); strings.Contains(text, "†") {
		t.Errorf("a page with nothing from memory reads %q", text)
	}
}

// Two cans of one kind that are opened at a meal are counted, not said once.
func TestOpenedIsCounted(t *testing.T) {
	got := opened([]string{"beans-400g-can", "rice-1000g-bag", "beans-400g-can"}, map[string]string{"beans-400g-can": "beans 400 g can", "rice-1000g-bag": "rice 1 kg bag"})
	if want := []string{"2 × beans 400 g can", "1 × rice 1 kg bag"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

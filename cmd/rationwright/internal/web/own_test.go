package web

import (
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// flatbread is a food made up for these tests; its label is that of no product.
func flatbread() url.Values {
	return url.Values{"name": {"Ternsund flatbread"}, "grams": {"500"}, "price": {"0.05"}, "like": {"rye crispbread"}, "allergens": {"wheat"},
		"label": {"per 100 g\r\nenergy 339 kcal\r\nfat 3 g\r\ncarbohydrate 68 g\r\nprotein 10 g\r\nsalt 0.5 g"}}
}

var one = url.Values{"rows": {"1"}, "do": {"plan"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}}

func uses(p *ration.Plan, food string) bool {
	return slices.ContainsFunc(p.Packs, func(k ration.PlanPack) bool { return k.Food == food })
}

// TestOwnFood: a food of one's own stays on the form until it can be taken, is then in
// the plan where it is cheap, is there in the next run, and is gone when taken out.
func TestOwnFood(t *testing.T) {
	folder := t.TempDir()
	x := serve(t, Options{Folder: folder})
	for name, c := range map[string]struct {
		spoil func(url.Values)
		want  string
	}{
		"no allergens": {func(v url.Values) { v.Del("allergens") }, "tick what it holds, or tick that it holds none"},
		"both":         {func(v url.Values) { v["allergens"] = []string{"wheat", "none"} }, "take one tick away"},
		"no name":      {func(v url.Values) { v.Set("name", "") }, "write at least the name"},
		"no like":      {func(v url.Values) { v.Set("like", "") }, "most like"},
		"what like":    {func(v url.Values) { v.Set("like", "moon dust") }, "moon dust"},
		"grams":        {func(v url.Values) { v.Set("grams", "half a kilo") }, "half a kilo"},
		"label":        {func(v url.Values) { v.Set("label", "per 100 g\nenergy many") }, "energy many"},
		"there":        {func(v url.Values) { v.Set("name", "Salt") }, "is there already"},
	} {
		form := flatbread()
		c.spoil(form)
		_, text := x.post(t, "/own", form)
		_, said, _ := strings.Cut(text, `role="alert"`)
		said, _, _ = strings.Cut(said, "</div>")
		if !strings.Contains(strings.ToLower(said), strings.ToLower(c.want)) || !strings.Contains(text, `value="0.05"`) {
			t.Errorf("%s: the page says %.300s", name, said)
		}
		if x.entered.Foods != nil {
			t.Errorf("%s: it was taken all the same", name)
		}
	}
	if _, text := x.post(t, "/own", flatbread()); !strings.Contains(text, "Take out Ternsund flatbread") || !strings.Contains(text, "What was understood") || strings.Contains(text, `role="alert"`) {
		t.Error("a food is not taken, or not shown")
	}
	x.post(t, "/household", one)
	x.finish(t)
	x.stopJob()
	if x.made == nil || !uses(x.made.plan, "Ternsund flatbread") {
		t.Error("the cheapest food by far is not in the plan")
	}
	if _, text := x.get(t, "/stock"); !strings.Contains(text, "Ternsund flatbread") {
		t.Error("it cannot be chosen on the stock list")
	}
	if next := newServer(t, Options{Folder: folder}); len(next.entered.Foods) != 2 || !uses(next.made.plan, "Ternsund flatbread") {
		t.Error("the next run does not know it")
	}
	x.post(t, "/own", url.Values{"remove": {"0"}})
	x.post(t, "/plan", url.Values{})
	x.finish(t)
	x.stopJob()
	if x.entered.Foods != nil || uses(x.made.plan, "Ternsund flatbread") {
		t.Error("it is there after it was taken out")
	}
}

// TestForeignFood: the name of a food of one's own is text on every page, and no
// formula in a file.
func TestForeignFood(t *testing.T) {
	x := serve(t, Options{})
	form := flatbread()
	form.Set("name", `=1+<b onclick=x>`)
	if _, text := x.post(t, "/own", form); strings.Contains(text, "<b onclick") || !strings.Contains(text, "&lt;b onclick") {
		t.Error("the name is markup, or is not shown")
	}
	x.post(t, "/household", one)
	x.finish(t)
	for _, path := range []string{"/plan", "/details", "/menu", "/stock", "/prices", "/own", "/get/report.html", "/get/list.html"} {
		if _, text := x.get(t, path); strings.Contains(text, "<b onclick") {
			t.Errorf("%s: a name became markup", path)
		}
	}
	_, csv := x.get(t, "/get/plan.csv")
	if !strings.Contains(csv, "<b onclick") {
		t.Fatal("the food is not in the plan")
	}
	for line := range strings.Lines(csv) {
		for cell := range strings.SplitSeq(line, ",") {
			if strings.HasPrefix(strings.Trim(cell, `"`), "=") {
				t.Errorf("a formula: %s", line)
			}
		}
	}
}

// TestShelves: shelves that cannot be read stay on the page; on others the plan stands,
// and the page says what stands where.
func TestShelves(t *testing.T) {
	x := serve(t, Options{})
	shelf := func(width string) url.Values {
		return url.Values{"rows": {"3"}, "do": {"save"}, "h0.width_cm": {width}, "h0.depth_cm": {"60"}, "h0.height_cm": {"60"}, "h0.load_kg": {"200"},
			"h1.shelf": {"upper"}, "h1.width_cm": {"120"}, "h1.depth_cm": {"60"}, "h1.height_cm": {"60"}, "h1.load_kg": {"200"}}
	}
	if _, text := x.post(t, "/shelves", shelf("wide")); !strings.Contains(text, `value="wide"`) || !strings.Contains(text, "Width cm &#34;wide&#34;") {
		t.Error("what is wrong is not said, or does not stay")
	}
	if x.post(t, "/shelves", shelf("120")); len(x.entered.Shelves) != 2 || x.entered.Shelves[0].Name != "shelf 1" || x.entered.Shelves[1].AboveFloorCm != 60 {
		t.Fatalf("%+v", x.entered.Shelves)
	}
	x.post(t, "/household", one)
	x.finish(t)
	_, p := x.shown()
	if p == nil {
		t.Fatal("there is no plan")
	}
	if fit := p.Shelves; fit == nil || !fit.Stands {
		t.Fatalf("%+v", fit)
	}
	if _, text := x.get(t, "/details"); !strings.Contains(text, "What stands where") {
		t.Error("the page does not say what stands where")
	}
	// What is from memory carries its mark there too, with the legend once.
	if _, text := x.get(t, "/details"); strings.Contains(text, "(from memory)") || !strings.Contains(text, "†") || strings.Count(text, sheet.Legend) != 1 {
		t.Errorf("/details: legend %d times, marks %d, words %d", strings.Count(text, sheet.Legend), strings.Count(text, "†"), strings.Count(text, "(from memory)"))
	}
	if x.post(t, "/shelves", url.Values{"rows": {"0"}}); x.entered.Shelves != nil {
		t.Error("shelves that were taken out are there")
	}
}

// TestWithMenu: with the tick the plan that is shown in the end is one whose dishes
// were chosen with its packs, or says why there is none.
func TestWithMenu(t *testing.T) {
	x := serve(t, Options{})
	x.post(t, "/household", url.Values{"rows": one["rows"], "do": {"save"}, "p0.name": one["p0.name"], "p0.age_years": one["p0.age_years"], "p0.sex": one["p0.sex"]})
	wishes := url.Values{"days": {"14"}, "pets": {"0"}, "start": {"2026-01-05"}, "least": {"cost"}, "cook": {"boil"}, "stove": {"butane-cartridge"}, "standard": {"rda"}, "with_menu": {"true"}, "do": {"plan"}}
	x.post(t, "/wishes", wishes)
	select {
	case <-x.job.done:
	case <-time.After(4 * time.Minute):
		t.Fatal("no end in four minutes")
	}
	p := x.made.plan
	if p.Menu == nil && (p.Dishes == nil || p.Dishes.None == "") {
		t.Fatal("no menu, and no word why")
	}
	if _, text := x.get(t, "/menu"); !strings.Contains(text, "Day 14") || strings.Contains(text, `role="alert"`) {
		t.Error("the menu is not shown")
	}
	wishes.Del("with_menu")
	wishes.Set("do", "save")
	if x.post(t, "/wishes", wishes); x.entered.Options["with_menu"] == "true" {
		t.Error("the tick cannot be taken away")
	}
}

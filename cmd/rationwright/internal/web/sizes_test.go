package web

import (
	"bytes"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/solver/ration"
)

// mostBytes is the size that no page may pass, with up to a dozen rows of people of
// every kind, or up to [ration.MostPeople] of whom little is said.
const mostBytes = 300_000

// twelve are people made up for this test, most of them with something that a page
// must say of them.
const twelve = `name,age_years,age_months,sex,weight_kg,state,feeding,conditions,allergies,dislikes
Liv,,4,f,6.4,,formula,,,
Tuva,2,,f,,,,,,
Ingrid,31,,f,68,pregnant-2,,,,liver
Rolf,57,,m,88,,,diabetes-2,,
Borghild,82,,f,58,,,soft-food,,
Henrik,41,,m,82,,,,,
Maja,38,,f,64,,,vegetarian,,
Ylva,15,,f,56,,,,peanut,
Emil,9,,m,31,,,,,fish
Solveig,71,,f,66,,,,,
Ragnhild,34,,f,66,,,,milk~,
Sverre,36,,m,84,,,,,
`

// send posts a file.
func (x *site) send(t *testing.T, path, name, text string) (int, string) {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	if err := form.WriteField("token", x.token); err != nil {
		t.Fatal(err)
	}
	part, err := form.CreateFormFile("file", name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := form.Close(); err != nil {
		t.Fatal(err)
	}
	r, err := http.NewRequest(http.MethodPost, x.base+path, &body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", form.FormDataContentType())
	return x.do(t, r)
}

// TestSizes: no page and no sheet passes [mostBytes], for a dozen people of all kinds
// and for the household of the special cases among the examples.
func TestSizes(t *testing.T) {
	special, err := os.ReadFile(filepath.FromSlash("../../../../testdata/examples/special.csv"))
	if err != nil {
		t.Fatal(err)
	}
	for name, household := range map[string]string{"twelve": twelve, "special": string(special)} {
		x := serve(t, Options{})
		if code, text := x.send(t, "/household", name+".csv", household); code != http.StatusOK || strings.Contains(text, `role="alert"`) {
			t.Fatalf("%s is not read", name)
		}
		x.post(t, "/plan", url.Values{})
		x.finish(t)
		x.stopJob()
		if x.made == nil || x.made.plan.Totals == nil {
			t.Fatalf("%s: no plan", name)
		}
		for _, path := range []string{"/", "/wishes", "/plan", "/details", "/menu", "/stock", "/prices", "/own", "/save", "/get/report.html", "/get/list.html", "/get/menu.html", "/get/door.html"} {
			code, text := x.get(t, path)
			if code != http.StatusOK || len(text) > mostBytes {
				t.Errorf("%s: %s answers %d with %d bytes", name, path, code, len(text))
			}
			if testing.Verbose() {
				t.Logf("%s: %s has %d bytes", name, path, len(text))
			}
		}
	}
}

// TestManyPeople: as many rows as can be planned still make a page of at most
// [mostBytes]; what few need can be opened for each; more are refused.
func TestManyPeople(t *testing.T) {
	x := serve(t, Options{})
	rows := func(n int) string {
		var b strings.Builder
		b.WriteString("name,age_years,sex\n")
		for i := range n {
			fmt.Fprintf(&b, "Somebody of house %d,34,f\n", i+1)
		}
		return b.String()
	}
	if _, text := x.send(t, "/household", "many.csv", rows(ration.MostPeople)); len(text) > mostBytes || strings.Count(text, "Take out Somebody") != ration.MostPeople {
		t.Errorf("%d bytes", len(text))
	}
	if _, text := x.get(t, "/?more=7"); strings.Count(text, `name="p7.height_cm"`) != 1 || strings.Contains(text, "p8.height_cm") {
		t.Error("what was asked for is not open, or more is")
	}
	if _, text := x.send(t, "/household", "more.csv", rows(ration.MostPeople+1)); !strings.Contains(text, "at most 60") || strings.Contains(text, "house 61") {
		t.Error("more people than can be planned are taken")
	}
	form := url.Values{"rows": {"1000000000"}, "do": {"save"}, "p0.name": {"Maja"}}
	if x.post(t, "/household", form); len(x.entered.Household) > ration.MostPeople+1 {
		t.Errorf("a form that says it has a thousand million rows made %d", len(x.entered.Household))
	}
}

// TestWayOut: where nothing fits the page says what conflicts, and a way out taken is
// a plan. On a machine that has much else to do it goes on for longer.
func TestWayOut(t *testing.T) {
	usual := stages
	stages = append(slices.Clone(usual), 5*time.Minute)
	t.Cleanup(func() { stages = usual })
	x := serve(t, Options{})
	x.post(t, "/household", one)
	x.finish(t)
	x.stopJob()
	cost := x.made.plan.Totals.Cost
	x.post(t, "/wishes", url.Values{"days": {"14"}, "pets": {"0"}, "start": {"2026-01-05"}, "least": {"cost"}, "cook": {"boil"}, "stove": {"butane-cartridge"}, "standard": {"rda"},
		"budget": {fmt.Sprint(int(cost / 2))}, "do": {"plan"}})
	select {
	case <-x.job.done:
	case <-time.After(10 * time.Minute):
		t.Fatal("no end in ten minutes")
	}
	_, text := x.get(t, "/plan")
	for _, want := range []string{"Nothing fits", "What cannot be met together", "Budget at most", "Take a way out", `action="/way-out"`} {
		if !strings.Contains(text, want) {
			t.Fatalf("the page does not say %s", want)
		}
	}
	x.post(t, "/way-out", url.Values{"way": {"999"}}) // there is none such
	for way := range x.made.plan.WaysOut {
		x.post(t, "/way-out", url.Values{"way": {fmt.Sprint(way)}})
		x.finish(t)
		x.stopJob()
		if p := x.made.plan; p.Totals == nil || len(p.Cautions) == 0 {
			t.Errorf("way out %d leads to no plan, or to one without its warnings", way)
		}
		if x.post(t, "/undo", url.Values{}); x.made.plan.Totals != nil {
			t.Fatal("undo does not bring the page of conflicts back")
		}
	}
}

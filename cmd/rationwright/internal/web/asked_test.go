package web

import (
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"net/http/httptest"
	"net/url"
	"reflect"
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
)

// TestAllWishes: each field of the form stands in its own place of what is asked; figures are
// each another one.
func TestAllWishes(t *testing.T) {
	x := serve(t, Options{})
	x.post(t, "/household", url.Values{"rows": {"1"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}})
	some := func(v *float64, want float64) bool { return v != nil && *v == want }
	_, text := x.post(t, "/wishes", wished(url.Values{
		"days": {" 9 "}, "pets": {"2"}, "start": {"2026-02-03"}, "least": {"volume"}, "cook": {"warm"}, "stove": {"charcoal"}, "standard": {"ear"}, "hot": {"true"}, "easy_open": {"true"},
		"budget": {"51,5"}, "weight_kg": {"52"}, "volume_l": {"53"}, "water_l": {"254"}, "heat_mj": {"55"}, "without": {"salt"}, "no": {"quinoa; bulgur"},
	}))
	if strings.Contains(text, `role="alert"`) {
		t.Fatalf("%s", text)
	}
	req, err := x.entered.request()
	if err != nil {
		t.Fatal(err)
	}
	if req.Days != 9 || req.Pets != 2 || req.Start != "2026-02-03" || req.Least != ration.LeastVolume || req.Cook != ration.CookWarm || req.Stove != "charcoal" || req.Standard != nutrients.StandardEAR || !req.Hot || !req.EasyOpen || req.BoilWater || req.Allowance || req.WithMenu {
		t.Errorf("%+v", req)
	}
	if l := req.Limits; !some(l.Budget, 51.5) || !some(l.WeightKg, 52) || !some(l.VolumeL, 53) || !some(l.WaterL, 254) || !some(l.HeatMJ, 55) || !slices.Equal(req.Without, []string{"salt", "quinoa", "bulgur"}) {
		t.Errorf("%+v, %q", l, req.Without)
	}
	x.post(t, "/wishes", wished(url.Values{"boil_water": {"true"}, "with_menu": {"true"}}))
	if req, err = x.entered.request(); err != nil || !req.BoilWater || !req.WithMenu || req.Hot || req.EasyOpen || req.Days != 14 || req.Limits != (ration.Limits{}) || len(req.Without) != 0 {
		t.Errorf("%v: %+v", err, req)
	}
}

// TestLimitsOfWishes: both sides of each limit of the form; of one that is refused nothing is taken.
func TestLimitsOfWishes(t *testing.T) {
	x := serve(t, Options{})
	x.post(t, "/household", url.Values{"rows": {"1"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}})
	for _, c := range []struct{ key, good, bad string }{
		{"days", "1 365", "0 366 x 1.5"}, {"pets", "0 1000", "-1 1001 x"}, {"washing", "0 100 0,5", "-0.1 100.1 x"}, {"slack", "0 50 2,5% 0%", "-1 50.1 x"}, {"start", "2026-02-28", "2026-02-29 28.2.2026 x"},
		{"budget", "0.01 999999999", "0 -1 1000000000 x"}, {"weight_kg", "0.01", "0 x"}, {"volume_l", "0.01", "0 x"}, {"water_l", "0.01", "0 x"}, {"heat_mj", "0.01", "0 x"},
	} {
		for text, good := range map[string]bool{c.good: true, c.bad: false} {
			for _, value := range strings.Fields(text) {
				x.post(t, "/wishes", wished(nil))
				_, shown := x.post(t, "/wishes", wished(url.Values{c.key: {value}, "hot": {"true"}}))
				if taken := x.entered.Options["hot"] == "true"; taken != good || strings.Contains(shown, `role="alert"`) == good {
					t.Errorf("%s of %q: taken %v, want %v", c.key, value, taken, good)
				}
			}
		}
	}
}

// posted is a form as a browser sends it.
func posted(form url.Values) *http.Request {
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return r
}

// TestKeptFoods: a food of the plan is kept, and let go again when it is asked a second time; one
// that the plan does not have is not. What was seen of the list before stays as it was.
func TestKeptFoods(t *testing.T) {
	s := newServer(t, Options{})
	c := changes{s}
	keep := func(food, want string) {
		t.Helper()
		if to, err := c.keepFood(posted(url.Values{"food": {food}})); to != "/plan" || err != nil || strings.Join(s.entered.Kept, ",") != want {
			t.Errorf("%s: %s, %v, %q, want %q", food, to, err, s.entered.Kept, want)
		}
	}
	keep("rice", "") // there is no plan
	s.made = &made{plan: &ration.Plan{Packs: []ration.PlanPack{{Food: "rice"}, {Food: "oats"}, {Food: "salt"}}}}
	keep("rice", "rice")
	keep("oats", "rice,oats")
	keep("salt", "rice,oats,salt")
	keep("moon cheese", "rice,oats,salt")
	seen := s.entered.Kept
	keep("oats", "rice,salt")
	if strings.Join(seen, ",") != "rice,oats,salt" {
		t.Errorf("who looked at the list has %q", seen)
	}
	keep("rice", "salt")
}

// TestUndone: the plan before comes back with what nobody got then; before the first there is none.
func TestUndone(t *testing.T) {
	s := newServer(t, Options{})
	of := func(without ...string) *made {
		return &made{plan: &ration.Plan{Request: &ration.RequestRecord{Without: without}}}
	}
	first, second, third := of(), of("rice"), of("rice", "oats")
	s.made, s.before = third, []*made{first, second}
	s.entered.Without = []string{"rice", "oats"}
	for _, want := range []struct {
		made    *made
		without string
		left    int
	}{{second, "rice", 1}, {first, "", 0}, {first, "", 0}} {
		if to, err := (changes{s}).undo(nil); to != "/plan" || err != nil || s.made != want.made || strings.Join(s.entered.Without, ",") != want.without || len(s.before) != want.left {
			t.Errorf("%s, %v: without %q, %d before, want %q, %d", to, err, s.entered.Without, len(s.before), want.without, want.left)
		}
	}
}

// TestRowsOfAPostedForm: rows up to the number that is said, without the one that is removed, and
// no more than there may be; words of several fields of one name are joined.
func TestRowsOfAPostedForm(t *testing.T) {
	form := url.Values{"rows": {"3"}, "remove": {"1"}, "s0.a": {" x "}, "s0.b": {"y", "z"}, "s1.a": {"gone"}, "s2.b": {"w"}, "s3.a": {"beyond"}}
	if got, want := rowsOf(posted(form), "s", []string{"a", "b"}), [][]string{{"a", "b"}, {"x", "y; z"}, {"", "w"}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for rows, want := range map[string]int{"": 0, "x": 0, "-1": 0, "0": 0, "1": 1, "500": 500, "501": 500, "999999": 500} {
		r := posted(url.Values{"rows": {rows}})
		if err := r.ParseForm(); err != nil {
			t.Fatal(err)
		}
		if got := len(rowsOf(r, "s", []string{"a"})) - 1; got != want {
			t.Errorf("%q rows: %d, want %d", rows, got, want)
		}
	}
	if got := withoutBlank([][]string{{"a", "b"}, {"", ""}, {"", "x"}, {}}); !reflect.DeepEqual(got, [][]string{{"a", "b"}, {"", "x"}}) {
		t.Errorf("%q", got)
	}
	if got := fitted([][]string{{"b", "c"}, {"1", "2"}, {"3"}}, []string{"a", "b", "c"}); !reflect.DeepEqual(got, [][]string{{"a", "b", "c"}, {"", "1", "2"}, {"", "3", ""}}) {
		t.Errorf("%q", got)
	}
}

// TestRefusalsArePlain: what is refused is one sentence of plain text.
func TestRefusalsArePlain(t *testing.T) {
	w := httptest.NewRecorder()
	refuse(w, http.StatusForbidden, "No.")
	if w.Code != http.StatusForbidden || w.Header().Get("Content-Type") != "text/plain; charset=utf-8" || w.Body.String() != "No.\n" {
		t.Errorf("%d, %q, %q", w.Code, w.Header().Get("Content-Type"), w.Body.String())
	}
}

// TestFilesOfAPlan: sheets are shown, with a style that is allowed by its digest alone, and kept
// where that is asked; other files are always kept, each of its own kind.
func TestFilesOfAPlan(t *testing.T) {
	x := serve(t, Options{})
	p, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	req, err := p.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	if code, text := x.get(t, "/get/plan.csv"); code != http.StatusNotFound {
		t.Errorf("before there is a plan: %d, %.100s", code, text)
	}
	m, err := x.show(p, req)
	if err != nil {
		t.Fatal(err)
	}
	x.locked(func() { x.made = m })
	sum := sha256.Sum256([]byte(page.CSS()))
	digest := "style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	for path, want := range map[string]struct{ kind, begins, kept string }{
		"list.html": {"text/html; charset=utf-8", "<!doctype html>", ""}, "door.html": {"text/html; charset=utf-8", "<!doctype html>", ""}, "door.html?save": {"text/html; charset=utf-8", "<!doctype html>", `attachment; filename="door.html"`},
		"plan.json": {"application/json", "{", `attachment; filename="plan.json"`}, "plan.csv": {"text/csv; charset=utf-8", "section,", `attachment; filename="plan.csv"`}, "dates.ics": {"text/calendar; charset=utf-8", "BEGIN:VCALENDAR", `attachment; filename="dates.ics"`},
	} {
		res, err := x.client.Get(x.base + "/get/" + path)
		if err != nil {
			t.Fatal(err)
		}
		begin := make([]byte, len(want.begins))
		if _, err := res.Body.Read(begin); err != nil {
			t.Error(err)
		}
		res.Body.Close()
		csp := res.Header.Get("Content-Security-Policy")
		if res.StatusCode != http.StatusOK || string(begin) != want.begins || res.Header.Get("Content-Type") != want.kind || res.Header.Get("Content-Disposition") != want.kept || strings.Contains(csp, digest) != strings.Contains(path, ".html") || strings.Contains(csp, "style-src 'self'") == strings.Contains(path, ".html") {
			t.Errorf("%s: %d, %q, %v", path, res.StatusCode, begin, res.Header)
		}
	}
	if code, _ := x.get(t, "/get/passwd"); code != http.StatusNotFound {
		t.Errorf("no such file: %d", code)
	}
}

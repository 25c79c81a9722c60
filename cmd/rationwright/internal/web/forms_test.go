package web

import (
	"errors"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// formOf is a request with a form.
func formOf(t *testing.T, form url.Values) *http.Request {
	t.Helper()
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	if err := r.ParseForm(); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestRowsOfAForm: rows by their numbers, cells by their columns, several of one name joined;
// a row that is taken out is left out, rows that are said but not sent are empty, and no form
// has more than 500 (own limit).
func TestRowsOfAForm(t *testing.T) {
	columns := []string{"pack", "count"}
	for _, c := range []struct {
		name string
		form url.Values
		want [][]string
	}{
		{"two", url.Values{"rows": {"2"}, "s0.pack": {" rice "}, "s0.count": {"3"}, "s1.pack": {"a", "b"}, "c0.pack": {"x"}}, [][]string{{"rice", "3"}, {"a; b", ""}}},
		{"the first is taken out", url.Values{"rows": {"2"}, "remove": {"0"}, "s0.pack": {"rice"}, "s1.pack": {"oil"}}, [][]string{{"oil", ""}}},
		{"none", url.Values{"s0.pack": {"rice"}}, nil}, {"no number", url.Values{"rows": {"x"}, "s0.pack": {"rice"}}, nil}, {"below none", url.Values{"rows": {"-3"}, "s0.pack": {"rice"}}, nil},
	} {
		got := rowsOf(formOf(t, c.form), "s", columns)
		if !slices.EqualFunc(got, append([][]string{columns}, c.want...), slices.Equal[[]string]) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	if got := len(rowsOf(formOf(t, url.Values{"rows": {"501"}}), "s", columns)); got != 1+500 {
		t.Errorf("%d rows of 501", got)
	}
	at := func(row []string, column string) string { return row[slices.Index(personColumns, column)] }
	row := make([]string, len(personColumns))
	row[slices.Index(personColumns, "dislikes")] = "liver ; fish"
	addFood(formOf(t, url.Values{"p3.dislike": {" beets; eggs "}, "p4.dislike": {"x"}}), row, "p3.")
	addAllergies(formOf(t, url.Values{"p3.allergy." + nutrients.Allergens[0]: {"yes"}, "p3.allergy." + nutrients.Allergens[1]: {"traces"}, "p3.allergy." + nutrients.Allergens[2]: {"nobody"}, "p3.allergy." + nutrients.Allergens[3]: {"no"}}), row, "p3.")
	if got, want := at(row, "allergies"), nutrients.Allergens[0]+"; "+nutrients.Allergens[1]+"~; "+nutrients.Allergens[2]+"!"; at(row, "dislikes") != "liver; fish; beets; eggs" || got != want {
		t.Errorf("%q, %q, want %q", at(row, "dislikes"), got, want)
	}
	addFood(formOf(t, nil), row, "p3.")
	if at(row, "dislikes") != "liver; fish; beets; eggs" {
		t.Errorf("nothing is added: %q", at(row, "dislikes"))
	}
	if got := withoutBlank([][]string{{"a"}, {"", ""}, {"", "b"}, nil}); len(got) != 2 {
		t.Errorf("%q", got)
	}
	if got := listOf(" a; ;b;"); !slices.Equal(got, []string{"a", "b"}) {
		t.Errorf("%q", got)
	}
}

// TestFaultsInTheWordsOfTheForm: nobody entered; a fault is said of the person whose cell it
// is, by name or, without one, by number; a word that is no food of whose dislikes it is.
func TestFaultsInTheWordsOfTheForm(t *testing.T) {
	e := fresh("2026-01-05")
	if e.Start != "2026-01-05" || !e.Demo.Prices || e.Demo.Household || len(e.Household) != 1+blankPeople || len(e.filled()) != 1 || len(e.names()) != 0 {
		t.Errorf("%+v", e)
	}
	if _, err := e.request(); !errors.Is(err, errNobody) {
		t.Errorf("%v, want %v", err, errNobody)
	}
	person := func(cells map[string]string) []string {
		row := make([]string, len(personColumns))
		for column, text := range cells {
			row[slices.Index(personColumns, column)] = text
		}
		return row
	}
	said := func(people ...map[string]string) []string {
		e := fresh("2026-01-05")
		e.Household = [][]string{personColumns}
		for _, p := range people {
			e.Household = append(e.Household, person(p))
		}
		_, err := e.request()
		return problemsOf(err)
	}
	maja := map[string]string{"name": "Maja", "age_years": "38", "sex": "f"}
	if got := said(maja, nil, map[string]string{"name": "Odd", "age_years": "50", "sex": "m"}); got != nil {
		t.Errorf("nothing is wrong: %q", got)
	}
	got := said(maja, map[string]string{"name": "Odd", "age_years": "x", "sex": "m"}, map[string]string{"age_years": "50", "sex": "m"})
	if len(got) != 2 || !strings.HasPrefix(got[0], `Odd: age years "x": not a number; `) || !strings.HasPrefix(got[1], "Person 3: name: ") {
		t.Errorf("%q", got)
	}
	got = said(map[string]string{"name": "Maja", "age_years": "38", "sex": "f", "dislikes": "zwrnk", "rules": "most zwrnx 9 g/day"})
	if len(got) != 2 || !strings.HasPrefix(got[0], `Maja: no food or kind is called "zwrnk"; `) || !strings.Contains(got[1], `"zwrnx"`) {
		t.Errorf("%q", got)
	}
	e.Household, e.Without = [][]string{personColumns, person(maja)}, []string{"zwrnk"}
	if _, err := e.request(); err == nil || !strings.HasPrefix(problemsOf(err)[0], `No food or kind is called "zwrnk"; `) {
		t.Error(err)
	}
	e.Without, e.Prices = nil, [][]string{priceColumns, {"white-rice-1000g-bag", "2.5", "TSD"}}
	if req, err := e.request(); err != nil || req.Demo.Prices || req.Start != "2026-01-05" || req.Slack != 0.03 {
		t.Errorf("%v: %+v", err, req)
	}
}

// TestWishesAtTheirEdges: 1 to 365 days, 0 to 1000 pets, 0 to 100 L for washing, 0 to 50 % for
// what people like; a date as a date, a limit above nothing.
func TestWishesAtTheirEdges(t *testing.T) {
	s := newServer(t, Options{})
	for _, c := range []struct {
		key, text, fault string
	}{
		{"days", "1", ""}, {"days", "365", ""}, {"days", "0", "Days"}, {"days", "366", "Days"}, {"days", "x", "Days"}, {"pets", "0", ""}, {"pets", "1000", ""}, {"pets", "1001", "Pets"}, {"pets", "-1", "Pets"},
		{"washing", "0", ""}, {"washing", "100", ""}, {"washing", "100,5", "Water for washing"}, {"washing", "-0.1", "Water for washing"}, {"washing", "x", "Water for washing"},
		{"slack", "0", ""}, {"slack", "50 %", ""}, {"slack", "50.1", "What it may cost more"}, {"slack", "-1", "What it may cost more"},
		{"start", "2026-11-25", ""}, {"start", "25.11.2026", "First day"}, {"start", "", "First day"},
		{"budget", "99,50", ""}, {"budget", "0", "Most that it may cost"}, {"weight_kg", "x", "Most that it may weigh"}, {"volume_l", "-3", "Most that it may fill"}, {"water_l", "0", "Most water stored"}, {"heat_mj", "x", "Most heat for cooking"},
		{"least", "joy", "least"},
	} {
		form := wished(url.Values{c.key: {c.text}})
		form.Set("do", "save")
		_, err := changes{s}.changeWishes(formOf(t, form))
		if (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s %q: %v, want a fault of %q", c.key, c.text, err, c.fault)
		}
	}
	form := wished(url.Values{"days": {"9"}, "pets": {"2"}, "weight_kg": {"120.5"}, "no": {"peanuts; fish"}, "without": {"eggs"}, "hot": {"true"}, "with_menu": {"true"}, "slack": {"0"}})
	form.Set("do", "save")
	if to, err := (changes{s}).changeWishes(formOf(t, form)); err != nil || to != "/wishes" {
		t.Fatalf("%v, %s", err, to)
	}
	e := s.said()
	if o := e.Options; o["days"] != "9" || o["pets"] != "2" || o["hot"] != "true" || o["easy_open"] != "false" || o["with_menu"] != "true" || o["slack"] != "" || e.Limits["weight_kg"] != 120.5 || len(e.Limits) != 1 || !slices.Equal(e.Without, []string{"eggs", "peanuts", "fish"}) {
		t.Errorf("%v, %v, %q", o, e.Limits, e.Without)
	}
}

// TestHouseholdForm: the demo's people are said to be invented until they are changed; so many
// people and not one more; months of age count before years; what is asked for more leads to
// that person.
func TestHouseholdForm(t *testing.T) {
	s := newServer(t, Options{})
	change := func(form url.Values) (string, error) { return changes{s}.changeHousehold(formOf(t, form)) }
	if to, err := change(url.Values{"do": {"demo"}}); err != nil || to != "/" || !s.said().Demo.Household || !slices.Equal(s.entered.names(), []string{"Henrik", "Solveig"}) {
		t.Errorf("%v, %s, %q", err, to, s.entered.names())
	}
	same := url.Values{"rows": {"2"}, "do": {"save"}}
	for i, row := range s.said().Household[1:] {
		for k, column := range personColumns {
			same.Set("p"+string(rune('0'+i))+"."+column, row[k])
		}
	}
	if _, err := change(same); err != nil || !s.said().Demo.Household {
		t.Errorf("%v: they are as they were, and no demo any more", err)
	}
	same.Set("p0.name", "Henning")
	if _, err := change(same); err != nil || s.said().Demo.Household || s.entered.names()[0] != "Henning" {
		t.Errorf("%v: a name is another, and it is a demo still", err)
	}
	same.Set("p1.age_months", "7")
	same.Set("do", "add")
	if to, err := change(same); err != nil || to != "/" || len(s.said().Household) != 4 || cell(s.said().Household[2], personColumns, "age_years") != "" || cell(s.said().Household[2], personColumns, "age_months") != "7" {
		t.Errorf("%v, %s: %q", err, to, s.said().Household)
	}
	same.Set("more", "1")
	if to, err := change(same); err != nil || to != "/?more=1#person1" {
		t.Errorf("%v, %s", err, to)
	}
	for rows, fits := range map[string]bool{"60": true, "61": false} {
		if _, err := change(url.Values{"rows": {rows}, "do": {"add"}, "remove": {"0"}}); (err == nil) != fits {
			t.Errorf("%s rows: %v", rows, err)
		}
	}
	full := make([][]string, 1+ration.MostPeople)
	for i := range full {
		full[i] = personColumns
	}
	if err := (changes{s}).setHousehold(full, false); err != nil {
		t.Error(err)
	}
	if err := (changes{s}).setHousehold(append(full, personColumns), false); err == nil || !strings.HasPrefix(err.Error(), "61 rows of people, at most 60:") {
		t.Error(err)
	}
}

// TestKeyOnce: the link of the program carries the key once, to a page and no other way; the
// cookie that it leaves is for this machine's own pages alone. Style and script are sent as
// what they are, and nothing else is there.
func TestKeyOnce(t *testing.T) {
	s := newServer(t, Options{})
	s.port = "8099"
	ask := func(method, path string, cookie string) *http.Response {
		r := httptest.NewRequest(method, "http://127.0.0.1:8099"+path, nil)
		if cookie != "" {
			r.AddCookie(&http.Cookie{Name: cookiePrefix + "8099", Value: cookie})
		}
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, r)
		return w.Result()
	}
	res := ask(http.MethodGet, "/plan?token="+s.token, "")
	if c := res.Cookies(); res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != "/plan" || len(c) != 1 || c[0].Value != s.token || !c[0].HttpOnly || c[0].SameSite != http.SameSiteStrictMode || c[0].Path != "/" {
		t.Errorf("%d, %v", res.StatusCode, res.Header)
	}
	for _, c := range []struct {
		method, path, cookie string
		want                 int
	}{
		{http.MethodPost, "/plan?token=" + s.token, "", 403}, {http.MethodGet, "/", s.token, 200}, {http.MethodGet, "/", s.token + "x", 403}, {http.MethodGet, "/", s.token[1:], 403}, {http.MethodHead, "/?token=" + s.token, "", 403},
		{http.MethodGet, "/static/style.css", s.token, 200}, {http.MethodGet, "/static/page.js", s.token, 200}, {http.MethodGet, "/static/none.js", s.token, 404}, {http.MethodGet, "/get/none.csv", s.token, 404}, {http.MethodGet, "/get/plan.csv", s.token, 404},
	} {
		res := ask(c.method, c.path, c.cookie)
		if res.StatusCode != c.want || len(res.Cookies()) != 0 {
			t.Errorf("%s %s: %d, want %d", c.method, c.path, res.StatusCode, c.want)
		}
		for header, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-store", "Content-Security-Policy": policy} {
			if got := res.Header.Get(header); got != want {
				t.Errorf("%s %s: %s is %q, want %q", c.method, c.path, header, got, want)
			}
		}
		if kind := map[string]string{"/static/style.css": "text/css; charset=utf-8", "/static/page.js": "text/javascript; charset=utf-8"}[c.path]; kind != "" && res.Header.Get("Content-Type") != kind {
			t.Errorf("%s is sent as %q", c.path, res.Header.Get("Content-Type"))
		}
	}
	w := httptest.NewRecorder()
	r := httptest.NewRequest(http.MethodGet, "http://127.0.0.1:8099/static/style.css", nil)
	r.AddCookie(&http.Cookie{Name: cookiePrefix + "8099", Value: s.token})
	s.Handler().ServeHTTP(w, r)
	if text := w.Body.String(); !strings.HasPrefix(text, page.CSS()) || len(text) <= len(page.CSS()) {
		t.Error("the style of the pages is not that of the sheets and more")
	}
}

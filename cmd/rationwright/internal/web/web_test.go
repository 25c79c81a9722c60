package web

import (
	"bytes"
	"encoding/csv"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/cmd/rationwright/internal/sheet"
)

// demoRows is a household made up for these tests.
var demoRows = [][]string{{"name", "age_years", "sex"}, {"Henrik", "41", "m"}, {"Solveig", "71", "f"}}

func newServer(t *testing.T, opt Options) *Server {
	t.Helper()
	opt.Units, opt.Demo = sheet.Metric, demoRows
	opt.Today = func() string { return "2026-01-05" }
	s, err := New(opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// site is a server under test and a browser that holds its key.
type site struct {
	*Server
	base   string
	client *http.Client
}

func serve(t *testing.T, opt Options) *site {
	t.Helper()
	s := newServer(t, opt)
	web := httptest.NewUnstartedServer(s.Handler())
	_, port, err := net.SplitHostPort(web.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	s.port = port
	web.Config.ReadTimeout, web.Config.IdleTimeout = time.Second, idleTime // stands for bodyTime
	web.Start()
	t.Cleanup(func() { s.stopJob(); web.Close() })
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	x := &site{s, "http://127.0.0.1:" + port, &http.Client{Jar: jar}}
	if code, _ := x.get(t, "/?token="+s.token); code != http.StatusOK {
		t.Fatalf("the link answers %d", code)
	}
	return x
}

func (x *site) do(t *testing.T, r *http.Request) (int, string) {
	t.Helper()
	res, err := x.client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	text, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	return res.StatusCode, string(text)
}

func (x *site) get(t *testing.T, path string) (int, string) {
	t.Helper()
	r, err := http.NewRequest(http.MethodGet, x.base+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	return x.do(t, r)
}

func (x *site) post(t *testing.T, path string, form url.Values) (int, string) {
	t.Helper()
	form.Set("token", x.token)
	r, err := http.NewRequest(http.MethodPost, x.base+path, strings.NewReader(form.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return x.do(t, r)
}

// TestForeignHost: a name of another machine that points here is refused, and so is
// another port.
func TestForeignHost(t *testing.T) {
	x := serve(t, Options{})
	for host, want := range map[string]int{
		"127.0.0.1:" + x.port: 200, "localhost:" + x.port: 200, "[::1]:" + x.port: 200,
		"evil.example": 421, "evil.example:" + x.port: 421, "127.0.0.1": 421, "127.0.0.1:1": 421, "127.0.0.1.evil.example:" + x.port: 421,
	} {
		r, err := http.NewRequest(http.MethodGet, x.base+"/", nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Host = host
		r.AddCookie(&http.Cookie{Name: cookiePrefix + x.port, Value: x.token})
		if code, _ := x.do(t, r); code != want {
			t.Errorf("host %s answers %d, want %d", host, code, want)
		}
	}
}

// TestWithoutTheKey: nothing is shown or changed without the token of this run.
func TestWithoutTheKey(t *testing.T) {
	x := serve(t, Options{})
	x.client = &http.Client{}
	for _, path := range []string{"/", "/plan", "/static/page.js", "/get/plan.json", "/progress", "/?token=wrong", "/?token="} {
		if code, body := x.get(t, path); code != http.StatusForbidden || strings.Count(body, "\n") > 1 || strings.Contains(body, "<form") {
			t.Errorf("%s answers %d: %q", path, code, body)
		}
	}
}

// TestCrossSite: a post from another page, or with the form of another run, changes
// nothing.
func TestCrossSite(t *testing.T) {
	x := serve(t, Options{})
	for name, spoil := range map[string]func(*http.Request, url.Values){
		"cross-site":   func(r *http.Request, _ url.Values) { r.Header.Set("Sec-Fetch-Site", "cross-site") },
		"same-site":    func(r *http.Request, _ url.Values) { r.Header.Set("Sec-Fetch-Site", "same-site") },
		"other origin": func(r *http.Request, _ url.Values) { r.Header.Set("Origin", "http://evil.example") },
		"null origin":  func(r *http.Request, _ url.Values) { r.Header.Set("Origin", "null") },
		"no token":     func(_ *http.Request, f url.Values) { f.Del("token") },
		"wrong token":  func(_ *http.Request, f url.Values) { f.Set("token", "x") },
	} {
		form := url.Values{"do": {"demo"}, "token": {x.token}}
		r, err := http.NewRequest(http.MethodPost, x.base+"/household", nil)
		if err != nil {
			t.Fatal(err)
		}
		spoil(r, form)
		r.Body = io.NopCloser(strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		if code, _ := x.do(t, r); code != http.StatusForbidden {
			t.Errorf("%s: %d", name, code)
		}
	}
	if _, text := x.get(t, "/"); strings.Contains(text, "Henrik") {
		t.Error("a refused post changed the household")
	}
	if code, text := x.post(t, "/household", url.Values{"do": {"demo"}}); code != 200 || !strings.Contains(text, "Henrik") {
		t.Errorf("a post of its own: %d", code)
	}
	if code, _ := x.get(t, "/strike"); code != http.StatusMethodNotAllowed {
		t.Errorf("a change by GET answers %d", code)
	}
}

// TestHeaders: no page may run or load anything that this server does not send.
func TestHeaders(t *testing.T) {
	x := serve(t, Options{})
	res, err := x.client.Get(x.base + "/")
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	csp := res.Header.Get("Content-Security-Policy")
	for _, want := range []string{"default-src 'none'", "script-src 'self'", "style-src 'self'", "frame-ancestors 'none'", "form-action 'self'"} {
		if !strings.Contains(csp, want) {
			t.Errorf("the policy lacks %s: %s", want, csp)
		}
	}
	if strings.Contains(csp, "unsafe") || res.Header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("%s, %v", csp, res.Header)
	}
	text, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"<style", " style=", "onclick", "javascript:"} {
		if strings.Contains(string(text), bad) {
			t.Errorf("the page has %q inside", bad)
		}
	}
}

// TestLargeAndSlow: a body over the limit is refused, one that dribbles is cut off.
func TestLargeAndSlow(t *testing.T) {
	x := serve(t, Options{})
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	if err := form.WriteField("token", x.token); err != nil {
		t.Fatal(err)
	}
	part, err := form.CreateFormFile("file", "household.csv")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write(bytes.Repeat([]byte("x"), mostBody+1)); err != nil {
		t.Fatal(err)
	}
	if err := form.Close(); err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest(http.MethodPost, x.base+"/household", &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	r.AddCookie(&http.Cookie{Name: cookiePrefix + x.port, Value: x.token})
	w := httptest.NewRecorder()
	x.Handler().ServeHTTP(w, r)
	if w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("%d bytes answer %d", mostBody+1, w.Code)
	}

	conn, err := net.Dial("tcp", strings.TrimPrefix(x.base, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	head := "POST /household HTTP/1.1\r\nHost: 127.0.0.1:" + x.port + "\r\nCookie: " + cookiePrefix + x.port + "=" + x.token +
		"\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100000\r\n\r\ndo=demo"
	if _, err := conn.Write([]byte(head)); err != nil {
		t.Fatal(err)
	}
	if err := conn.SetReadDeadline(time.Now().Add(10 * time.Second)); err != nil {
		t.Fatal(err)
	}
	answer, err := io.ReadAll(conn)
	if err != nil || strings.Contains(string(answer), "303") {
		t.Errorf("a body that never ends: %v, %.60s", err, answer)
	}
}

// TestQueue: more requests at once than there are slots are asked to come again.
func TestQueue(t *testing.T) {
	s := newServer(t, Options{})
	s.port = "1"
	block, in := make(chan struct{}), make(chan struct{}, mostAtOnce)
	h := s.guard(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { in <- struct{}{}; <-block }))
	ask := func() int {
		r := httptest.NewRequest(http.MethodGet, "http://127.0.0.1:1/", nil)
		r.AddCookie(&http.Cookie{Name: cookiePrefix + "1", Value: s.token})
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w.Code
	}
	for range mostAtOnce {
		go ask()
		<-in
	}
	if code := ask(); code != http.StatusServiceUnavailable {
		t.Errorf("request %d answers %d", mostAtOnce+1, code)
	}
	close(block)
}

// TestPaths: no path leads to a file of the machine.
func TestPaths(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(filepath.Dir(folder), "secret.csv"), []byte("secret"), 0o600); err != nil {
		t.Fatal(err)
	}
	x := serve(t, Options{Folder: folder})
	for _, path := range []string{"/get/..%2fsecret.csv", "/get/../secret.csv", "/get/%2e%2e%2fsecret.csv", "/static/..%2fdoc.go", "/static/page.js/..", "/get/entered.json", "/etc/passwd", "/get/..%5csecret.csv"} {
		if code, text := x.get(t, path); code != http.StatusNotFound || strings.Contains(text, "secret") {
			t.Errorf("%s answers %d", path, code)
		}
	}
	if err := os.Symlink(filepath.Join("..", "secret.csv"), filepath.Join(folder, planFile)); err != nil {
		t.Fatal(err)
	}
	if _, err := New(Options{Folder: folder, Today: func() string { return "2026-01-05" }}); err == nil {
		t.Error("a link out of the folder was followed")
	}
}

// TestForeignNames: names are text on every page, and no formula in a file.
func TestForeignNames(t *testing.T) {
	x := serve(t, Options{})
	form := url.Values{"rows": {"2"}, "do": {"save"},
		"p0.name": {`<script>alert(1)</script>`}, "p0.age_years": {"34"}, "p0.sex": {"f"}, "p0.dislike": {`"><img src=x onerror=alert(1)>`},
		"p1.name": {`=HYPERLINK("http://evil.example")`}, "p1.age_years": {"40"}, "p1.sex": {"m"}}
	_, text := x.post(t, "/household", form)
	if strings.Contains(text, "<script>alert") || strings.Contains(text, "<img src=x") || !strings.Contains(text, "&lt;script&gt;alert") {
		t.Error("a name became markup, or is gone")
	}
	_, csv := x.get(t, "/get/household.csv")
	if !strings.Contains(csv, "'=HYPERLINK") || strings.Contains(csv, "\n=") || strings.Contains(csv, "\n\"=") {
		t.Errorf("a formula in %s", csv)
	}
}

// TestTablesToSave: the files of the household, the stock and the prices hold what was entered in
// each, whichever of them were, and nothing of the others; a table in which nothing was entered is
// its header. They are sent as tables to be kept.
func TestTablesToSave(t *testing.T) {
	type table struct {
		file, path string
		form       url.Values
		header     []string
		rows       [][]string // the cells that are filled, by column
	}
	tables := []table{
		{"household.csv", "/household", url.Values{"rows": {"2"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}, "p1.name": {"Emil"}, "p1.age_years": {"9"}, "p1.sex": {"m"}},
			personColumns, [][]string{{"name", "Maja", "age_years", "38", "sex", "f"}, {"name", "Emil", "age_years", "9", "sex", "m"}}},
		{"stock.csv", "/stock", url.Values{"rows": {"2"}, "s0.pack": {"white-rice-1000g-bag"}, "s0.count": {"3"}, "s0.place": {"cellar"}, "s1.pack": {"water"}, "s1.count": {"40"}},
			stockColumns, [][]string{{"pack", "white-rice-1000g-bag", "count", "3", "place", "cellar"}, {"pack", "water", "count", "40"}}},
		{"prices.csv", "/prices", url.Values{"rows": {"2"}, "currency": {"TSD"}, "c0.pack": {"white-rice-1000g-bag"}, "c0.price": {"2.5"}, "c1.pack": {"rolled-oats-1000g-bag"}, "c1.price": {"3"}},
			priceColumns, [][]string{{"pack", "white-rice-1000g-bag", "price", "2.5", "currency", "TSD"}, {"pack", "rolled-oats-1000g-bag", "price", "3", "currency", "TSD"}}},
	}
	for entered := range 1 << len(tables) {
		x := serve(t, Options{})
		for i, c := range tables {
			if entered>>i&1 == 1 {
				x.post(t, c.path, c.form)
			}
		}
		for i, c := range tables {
			var rows [][]string
			if entered>>i&1 == 1 {
				rows = c.rows
			}
			res, err := x.client.Get(x.base + "/get/" + c.file)
			if err != nil {
				t.Fatal(err)
			}
			got, err := csv.NewReader(res.Body).ReadAll()
			res.Body.Close()
			if err != nil || len(got) != len(rows)+1 || !slices.Equal(got[0], c.header) {
				t.Errorf("set %d: %s: %q, %v, want a header and %q", entered, c.file, got, err, rows)
				continue
			}
			for k, filled := range rows {
				for j, name := range c.header {
					want := ""
					if at := slices.Index(filled, name); at >= 0 && at%2 == 0 {
						want = filled[at+1]
					}
					if name == "count" && c.file == "household.csv" && got[k+1][j] == "1" {
						want = "1" // one of each, said or not
					}
					if got[k+1][j] != want {
						t.Errorf("set %d: %s: %s of row %d is %q, want %q", entered, c.file, name, k+1, got[k+1][j], want)
					}
				}
			}
			if kind, kept := res.Header.Get("Content-Type"), res.Header.Get("Content-Disposition"); kind != "text/csv; charset=utf-8" || kept != `attachment; filename="`+c.file+`"` {
				t.Errorf("%s is sent as %q, %q", c.file, kind, kept)
			}
		}
	}
}

// TestMistakesStay: what is wrong is said of the person whose cell it is, all at
// once, and what was entered stays on the page.
func TestMistakesStay(t *testing.T) {
	x := serve(t, Options{})
	_, text := x.post(t, "/household", url.Values{"rows": {"2"}, "do": {"plan"},
		"p0.name": {"Maja"}, "p0.age_years": {"old"}, "p0.sex": {"f"}, "p1.name": {"Emil"}, "p1.age_years": {"9"}, "p1.sex": {"m"}, "p1.weight_kg": {"-3"}})
	for _, want := range []string{`role="alert"`, "Maja: age years", "Emil: weight kg", `value="old"`, `value="-3"`} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if _, again := x.get(t, "/"); !strings.Contains(again, `value="old"`) || strings.Contains(again, `role="alert"`) {
		t.Error("a reload loses what was entered, or repeats the complaint")
	}
}

// TestPlanStrikeUndo goes the whole way over HTTP: plan, strike out, undo, files; and
// what was kept in the folder is there in the next run.
func TestPlanStrikeUndo(t *testing.T) {
	folder := t.TempDir()
	x := serve(t, Options{Folder: folder})
	form := url.Values{"rows": {"1"}, "do": {"plan"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}}
	x.post(t, "/household", form)
	x.finish(t)
	_, text := x.get(t, "/plan")
	if !strings.Contains(text, "Ration for Maja") || len(text) > 300_000 {
		t.Fatalf("no plan in %d bytes", len(text))
	}
	_, p := x.shown()
	food := p.Packs[0].Food
	x.post(t, "/strike", url.Values{"food": {food}})
	x.finish(t)
	_, text = x.get(t, "/plan")
	if !strings.Contains(text, "What has just changed") {
		t.Errorf("no word of the change")
	}
	_, p = x.shown()
	for _, k := range p.Packs {
		if k.Food == food {
			t.Errorf("%s is still in the plan", food)
		}
	}
	// Each file, and each page, begins as what it is.
	for file, begins := range map[string]string{
		"plan.json": "{", "plan.csv": "section,", "dates.ics": "BEGIN:VCALENDAR", "menu.ics": "BEGIN:VCALENDAR",
		"report.html": "<h1>Ration for Maja", "list.html": "<h1>Shopping list for Maja", "door.html": "<h1>14 days for Maja", "menu.html": "<h1>Menu for Maja",
	} {
		code, text := x.get(t, "/get/"+file)
		if code != 200 || len(text) < 500 || len(text) > 300_000 {
			t.Errorf("%s: %d, %d bytes", file, code, len(text))
		}
		if i := strings.Index(text, "<h1>"); i > 0 {
			text = text[i:]
		}
		if !strings.HasPrefix(text, begins) {
			t.Errorf("%s begins with %.60q, want %q", file, text, begins)
		}
	}
	for path, heading := range map[string]string{
		"/": "Who is fed?", "/wishes": "What is the store to be like?", "/stock": "What is in store?", "/prices": "Prices", "/own": "Your own foods and shelves",
		"/plan": "Ration for Maja", "/details": "The plan in full", "/menu": "The menu", "/compare": "Cheapest, lightest, smallest", "/save": "Print, save, open",
	} {
		if _, text := x.get(t, path); !strings.Contains(text, "<h1>"+heading+"</h1>") {
			t.Errorf("%s has no heading %q", path, heading)
		}
	}
	x.stopJob() // which goes on for a better plan, and keeps that at its end
	next := newServer(t, Options{Folder: folder})
	if next.made == nil || next.made.plan.Packs[0].Pack != x.made.plan.Packs[0].Pack || !slices.Equal(next.entered.filled()[1], x.entered.filled()[1]) {
		t.Error("the next run does not find the plan or the people")
	}
	x.post(t, "/undo", url.Values{})
	if x.made.plan.Packs[0].Food != food {
		t.Errorf("undo does not bring %s back", food)
	}
}

// finish waits for the first answer of the search.
func (x *site) finish(t *testing.T) {
	t.Helper()
	select {
	case <-x.job.first:
	case <-time.After(10 * time.Minute):
		t.Fatal("no answer in ten minutes")
	}
}

// TestOneSearch: a new search ends the one before it, and a browser that has left
// ends its own.
func TestOneSearch(t *testing.T) {
	x := serve(t, Options{})
	form := url.Values{"rows": {"1"}, "do": {"plan"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}}
	x.post(t, "/household", form)
	first := x.job
	x.post(t, "/plan", url.Values{})
	if first.running() || x.job == first {
		t.Error("two searches at once")
	}
	x.finish(t)
	go x.watch(t.Context())
	x.mu.Lock()
	x.lastSeen = time.Now().Add(-2 * leftTime)
	x.mu.Unlock()
	select {
	case <-x.job.done:
	case <-time.After(10 * time.Second):
		t.Error("the search goes on although the browser has left")
	}
}

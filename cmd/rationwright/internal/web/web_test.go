package web

import (
	"bytes"
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
	for _, file := range []string{"plan.json", "plan.csv", "dates.ics", "menu.ics", "report.html", "list.html", "door.html", "menu.html"} {
		if code, text := x.get(t, "/get/"+file); code != 200 || len(text) < 500 || len(text) > 300_000 {
			t.Errorf("%s: %d, %d bytes", file, code, len(text))
		}
	}
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

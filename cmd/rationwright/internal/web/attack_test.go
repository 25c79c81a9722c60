package web

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// running is a server as it is run, and a browser that holds its key.
func running(t *testing.T, ctx context.Context) (x *site, ended chan error) {
	t.Helper()
	s := newServer(t, Options{})
	link := make(chan string, 1)
	ended = make(chan error, 1)
	go func() { ended <- s.Run(ctx, func(l string) { link <- l }) }()
	<-link
	return &site{s, "http://127.0.0.1:" + s.port, http.DefaultClient}, ended
}

// ask sends a request with the key of the run.
func (x *site) ask(t *testing.T, method, path string, form url.Values) int {
	t.Helper()
	form.Set("token", x.token)
	r, err := http.NewRequest(method, x.base+path, strings.NewReader(form.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.AddCookie(&http.Cookie{Name: cookiePrefix + x.port, Value: x.token})
	res, err := (&http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}).Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	if _, err := io.Copy(io.Discard, res.Body); err != nil {
		t.Fatal(err)
	}
	return res.StatusCode
}

// TestEndWhileSearching: told to end in the midst of a search, with a page open that is
// told of its progress, the server ends within its time, and so does the search.
func TestEndWhileSearching(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	x, ended := running(t, ctx)
	if code := x.ask(t, http.MethodPost, "/household", one); code != http.StatusSeeOther {
		t.Fatalf("%d", code)
	}
	x.mu.Lock()
	j := x.job
	x.mu.Unlock()
	if !j.running() {
		t.Fatal("the search ended before it could be ended")
	}
	go func() {
		r, err := http.NewRequest(http.MethodGet, x.base+"/progress", nil)
		if err != nil {
			return
		}
		r.AddCookie(&http.Cookie{Name: cookiePrefix + x.port, Value: x.token})
		if res, err := http.DefaultClient.Do(r); err == nil {
			_, _ = io.Copy(io.Discard, res.Body)
			_ = res.Body.Close()
		}
	}()
	time.Sleep(200 * time.Millisecond) // until the page is open
	began := time.Now()
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Errorf("it ended with %v", err)
		}
	case <-time.After(stopTime + 10*time.Second):
		t.Fatal("it does not end")
	}
	if j.running() {
		t.Error("the search goes on after the server")
	}
	t.Logf("ended after %v", time.Since(began))
}

// TestLargeHeader: a header over the limit, and one that never ends, are cut off.
func TestLargeHeader(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	x, ended := running(t, ctx)
	defer func() { stop(); <-ended }()
	for what, head := range map[string]string{
		"large": "GET / HTTP/1.1\r\nHost: 127.0.0.1:" + x.port + "\r\nX-Long: " + strings.Repeat("x", 4*mostHeader) + "\r\n\r\n",
		"slow":  "GET / HTTP/1.1\r\nHost: 127.0.0.1:" + x.port + "\r\nX-Slow: ",
	} {
		conn, err := net.Dial("tcp", "127.0.0.1:"+x.port)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = io.WriteString(conn, head) // the server may have closed before the end
		if err := conn.SetReadDeadline(time.Now().Add(headerTime + 10*time.Second)); err != nil {
			t.Fatal(err)
		}
		answer, err := io.ReadAll(conn)
		if timeout, ok := err.(net.Error); ok && timeout.Timeout() || strings.Contains(string(answer), "200 OK") {
			t.Errorf("%s: %v, %.60s", what, err, answer)
		}
		_ = conn.Close()
	}
}

// TestReloadWhileSearching: a page that is loaded again in the midst of a search shows
// it and does not begin it anew; the stop button keeps what there is.
func TestReloadWhileSearching(t *testing.T) {
	x := serve(t, Options{})
	x.post(t, "/household", one)
	first := x.job
	for range 5 {
		if code, text := x.get(t, "/plan"); code != http.StatusOK || first.running() && !strings.Contains(text, `id="search"`) {
			t.Errorf("%d, and no word of the search", code)
		}
	}
	if x.job != first {
		t.Error("a reload began another search")
	}
	x.finish(t)
	shown := x.made
	_, text := x.post(t, "/stop", url.Values{})
	if first.running() || x.made == nil || shown == nil || !strings.Contains(text, "Ration for Maja") || strings.Contains(text, "Stopped before") {
		t.Error("the stop button loses what there is, or does not stop")
	}
	x.post(t, "/plan", url.Values{})
	if x.job == first {
		t.Error("no search can be begun after a stop")
	}
}

// TestTwoTabs: two tabs that change everything at once leave a server that answers, with
// what one of them said last.
func TestTwoTabs(t *testing.T) {
	x := serve(t, Options{Folder: t.TempDir()})
	x.post(t, "/household", one)
	x.finish(t)
	food := x.made.plan.Packs[0].Food
	var both sync.WaitGroup
	for tab := range 2 {
		both.Go(func() {
			for round := range 4 {
				form := url.Values{"rows": {"1"}, "do": {"save"}, "p0.name": {fmt.Sprintf("Maja of tab %d", tab)}, "p0.age_years": {"38"}, "p0.sex": {"f"}}
				for _, step := range []struct {
					path string
					form url.Values
				}{{"/household", form}, {"/plan", url.Values{}}, {"/keep", url.Values{"food": {food}}}, {"/strike", url.Values{"food": {food}}}, {"/undo", url.Values{}}, {"/stop", url.Values{}}} {
					if code := x.ask(t, http.MethodPost, step.path, step.form); code != http.StatusSeeOther {
						t.Errorf("tab %d, round %d: %s answers %d", tab, round, step.path, code)
					}
					for _, page := range []string{"/", "/plan", "/save"} {
						if code := x.ask(t, http.MethodGet, page, url.Values{}); code != http.StatusOK {
							t.Errorf("tab %d, round %d: %s answers %d", tab, round, page, code)
						}
					}
				}
			}
		})
	}
	both.Wait()
	if name := x.entered.filled()[1][0]; !strings.HasPrefix(name, "Maja of tab ") {
		t.Errorf("the household is %q", name)
	}
	if x.stopJob(); x.job.running() {
		t.Error("a search is left")
	}
}

// TestFolders: a folder that is none is refused; what is written goes nowhere else, even
// where the folder holds a link out of it.
func TestFolders(t *testing.T) {
	dir := t.TempDir()
	kept, secret := filepath.Join(dir, "kept"), filepath.Join(dir, "secret")
	if err := os.WriteFile(secret, []byte("secret"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(kept, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, folder := range []string{secret, filepath.Join(dir, "nowhere"), filepath.Join(kept, "..", "nowhere"), "\x00"} {
		if _, err := New(Options{Folder: folder, Today: func() string { return "2026-01-05" }}); err == nil {
			t.Errorf("%q is taken for a folder", folder)
		}
	}
	x := serve(t, Options{Folder: kept})
	if err := os.Symlink(filepath.Join("..", "secret"), filepath.Join(kept, "."+enteredFile+".part")); err != nil {
		t.Fatal(err)
	}
	form := url.Values{"rows": {"1"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}}
	if _, text := x.post(t, "/household", form); !strings.Contains(text, "Not kept in the folder") || !strings.Contains(text, `value="Maja"`) {
		t.Error("what could not be kept is not said, or lost")
	}
	if text, err := os.ReadFile(secret); err != nil || string(text) != "secret" {
		t.Errorf("a file outside the folder was written: %q, %v", text, err)
	}
}

// TestUploadNames: the name of a file that is sent is text and no path.
func TestUploadNames(t *testing.T) {
	x := serve(t, Options{})
	for _, path := range []string{"/household", "/stock", "/prices", "/own", "/shelves", "/open"} {
		_, text := x.send(t, path, `../../<img src=x onerror=alert(1)>.csv`, "nonsense\n\"")
		if strings.Contains(text, "<img src=x") || !strings.Contains(text, `role="alert"`) {
			t.Errorf("%s: a name became markup, or nonsense was taken", path)
		}
	}
}

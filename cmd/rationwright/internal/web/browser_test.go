//go:build browser

package web

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

var (
	chromium = flag.String("chromium", "chromium", "the browser to drive")
	axe      = flag.String("axe", "", "axe.min.js of axe-core; required")
	pictures = flag.String("pictures", "", "keep pictures and printed sheets in this directory")
)

// browser is a fresh Chromium that holds the link of a server.
type browser struct {
	ctx    context.Context
	server *Server
	clicks int
	bad    []string // errors in the console
}

func open(t *testing.T, opt Options) *browser {
	t.Helper()
	if *axe == "" {
		t.Fatal("say where axe-core is: -axe node_modules/axe-core/axe.min.js")
	}
	s := newServer(t, opt)
	profile, err := os.MkdirTemp("", "chromium-")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	link, ended := make(chan string, 1), make(chan error, 1)
	go func() { ended <- s.Run(ctx, func(l string) { link <- l }) }()
	flags := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(*chromium), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.UserDataDir(profile))
	alloc, stopAlloc := chromedp.NewExecAllocator(ctx, flags...)
	tab, stopTab := chromedp.NewContext(alloc)
	timed, stopTime := context.WithTimeout(tab, 8*time.Minute)
	b := &browser{ctx: timed, server: s}
	t.Cleanup(func() {
		stopTime()
		stopTab()
		stopAlloc()
		stop()
		if err := <-ended; err != nil {
			t.Errorf("the server ended with %v", err)
		}
		_ = os.RemoveAll(profile) // the browser may still write its last
	})
	chromedp.ListenTarget(timed, func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventConsoleAPICalled:
			if ev.Type == runtime.APITypeError || ev.Type == runtime.APITypeWarning {
				b.bad = append(b.bad, fmt.Sprint(ev.Args))
			}
		case *runtime.EventExceptionThrown:
			b.bad = append(b.bad, ev.ExceptionDetails.Error())
		}
	})
	b.do(t, chromedp.Navigate(<-link))
	return b
}

func (b *browser) do(t *testing.T, actions ...chromedp.Action) {
	t.Helper()
	if err := chromedp.Run(b.ctx, actions...); err != nil {
		t.Fatal(err)
	}
}

// click clicks and waits for another page, one that holds text.
func (b *browser) click(t *testing.T, selector, text string) {
	t.Helper()
	b.clicks++
	b.do(t, chromedp.Evaluate("window.old = true", nil), chromedp.Click(selector, chromedp.ByQuery))
	b.wait(t, text)
}

func (b *browser) wait(t *testing.T, text string) {
	t.Helper()
	quoted, err := json.Marshal(text)
	if err != nil {
		t.Fatal(err)
	}
	var shown string
	for end := time.Now().Add(2 * time.Minute); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		found := false // an error is a page that is on its way to another
		if err := chromedp.Run(b.ctx, chromedp.Evaluate("document.readyState === 'complete' && !window.old && document.body.innerText.includes("+string(quoted)+")", &found)); err == nil && found {
			return
		}
	}
	_ = chromedp.Run(b.ctx, chromedp.Evaluate("document.body.innerText.slice(0, 1500)", &shown))
	t.Fatalf("%q does not appear; the page says %s", text, shown)
}

func (b *browser) fill(t *testing.T, name, value string) {
	t.Helper()
	b.do(t, chromedp.SetValue(`[name="`+name+`"]`, value, chromedp.ByQuery))
}

// look holds the page against axe-core, looks for a page wider than the window at
// three widths, and keeps pictures.
func (b *browser) look(t *testing.T, name string) {
	t.Helper()
	text, err := os.ReadFile(*axe)
	if err != nil {
		t.Fatal(err)
	}
	b.rest(t)
	var findings []string
	b.do(t, chromedp.Evaluate(string(text), nil), chromedp.Evaluate(`axe.run(document, {resultTypes: ["violations"]}).then(r => r.violations.flatMap(v => v.nodes.map(n => v.id + ": " + n.target + " " + n.failureSummary)))`, &findings,
		func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }))
	for _, f := range findings {
		t.Errorf("%s: axe-core finds %s", name, f)
	}
	for _, width := range []int64{360, 800, 1400} {
		var wide float64
		b.do(t, chromedp.EmulateViewport(width, 900), chromedp.Evaluate("document.documentElement.scrollWidth - window.innerWidth", &wide))
		if wide > 0 {
			t.Errorf("%s: the page is %g px wider than a window of %d", name, wide, width)
		}
		if *pictures != "" {
			var shot []byte
			b.do(t, chromedp.FullScreenshot(&shot, 100))
			keepFile(t, fmt.Sprintf("%s-%d.png", name, width), shot)
		}
	}
}

func keepFile(t *testing.T, name string, content []byte) {
	t.Helper()
	if *pictures == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*pictures, name), content, 0o644); err != nil {
		t.Error(err)
	}
}

// print prints the page to PDF and returns how many pages it takes.
func (b *browser) print(t *testing.T, path, text string, a4 bool) int {
	t.Helper()
	b.goTo(t, path, text)
	width, height, size := 8.5, 11.0, "letter"
	if a4 {
		width, height, size = 8.27, 11.69, "a4"
	}
	var pdf []byte
	b.do(t, chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPaperWidth(width).WithPaperHeight(height).WithPreferCSSPageSize(false).WithPrintBackground(true).Do(ctx)
		return err
	}))
	keepFile(t, strings.ReplaceAll(strings.Trim(path, "/"), "/", "-")+"-"+size+".pdf", pdf)
	return len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1))
}

func (b *browser) goTo(t *testing.T, path, text string) {
	t.Helper()
	// Not by Navigate, which waits for a load that a page may put off by loading anew.
	b.do(t, chromedp.Evaluate("window.old = true; location.href = '"+path+"'", nil))
	b.wait(t, text)
}

// rest ends the search and waits until the page has heard of it: a better plan, or the
// end, loads the page anew, under whatever is done with it or instead of where it is sent.
func (b *browser) rest(t *testing.T) {
	t.Helper()
	b.server.stopJob()
	time.Sleep(4 * liveEvery)
	b.wait(t, "")
}

// enter fills in a person.
func (b *browser) enter(t *testing.T, i int, name, age, sex string) {
	t.Helper()
	b.wait(t, "Who is fed?")
	at := fmt.Sprintf("p%d.", i)
	b.fill(t, at+"name", name)
	b.fill(t, at+"age_years", age)
	b.fill(t, at+"sex", sex)
}

// waitDone waits for the end of the search.
func (b *browser) waitDone(t *testing.T) {
	t.Helper()
	b.server.mu.Lock()
	j := b.server.job
	b.server.mu.Unlock()
	select {
	case <-j.done:
	case <-time.After(2 * time.Minute):
		t.Fatal("the search does not end in two minutes")
	}
}

// sound fails where anything stands in the console.
func (b *browser) sound(t *testing.T) {
	t.Helper()
	if len(b.bad) > 0 {
		t.Errorf("in the console: %q", b.bad)
	}
}

var family = []struct{ name, age, sex string }{{"Ragnhild", "34", "f"}, {"Sverre", "36", "m"}, {"Jorunn", "7", "f"}, {"Eivind", "4", "m"}}

// TestWholeWay: a newcomer enters a family of four, gets a shopping list to print,
// strikes a food out, checks a stock, looks at the menu; nothing is in the console and
// axe-core finds nothing.
func TestWholeWay(t *testing.T) {
	folder := t.TempDir()
	b := open(t, Options{Folder: folder})
	b.wait(t, "Who is fed?")
	b.look(t, "household-empty")
	began := time.Now()
	for i, p := range family {
		b.enter(t, i, p.name, p.age, p.sex)
		b.clicks += 2 // into the name, and the choice of the sex; ages are reached by the Tab key
	}
	b.fill(t, "p2.dislike", "fish")
	b.click(t, "button.main", "Ration for Ragnhild, Sverre, Jorunn and Eivind")
	planned := time.Since(began)
	b.click(t, `a[href="/get/list.html"]`, "Shopping list for Ragnhild")
	t.Logf("from the empty form to the page that prints the shopping list: %d clicks, %.1f s of the machine (the plan after %.1f s), typing apart", b.clicks, time.Since(began).Seconds(), planned.Seconds())

	b.goTo(t, "/", "Leave out for Jorunn")
	b.look(t, "household")
	b.goTo(t, "/plan", "What to buy")
	b.click(t, `button[formaction="/strike"]`, "What has just changed")
	b.look(t, "plan")
	b.click(t, `button[formaction="/keep"]`, "Kept")
	b.click(t, `button[formaction="/undo"]`, "Ration for Ragnhild")
	for _, x := range []struct{ path, text, name string }{{"/details", "Before use", "details"}, {"/menu", "Day 14", "menu"}, {"/wishes", "What is the store to be like", "wishes"}, {"/save", "What was entered", "save"}, {"/prices", "Prices are of one pack", "prices"}, {"/own", "Foods of your own shop", "own-empty"}} {
		b.goTo(t, x.path, x.text)
		b.look(t, x.name)
	}

	b.goTo(t, "/stock", "What is in store?")
	b.fill(t, "s0.pack", b.server.made.plan.Packs[0].Pack)
	b.fill(t, "s0.count", "3")
	b.click(t, "button.main", "What this stock is worth")
	b.look(t, "stock")

	b.goTo(t, "/compare", "Cheapest, lightest, smallest")
	b.click(t, "button.main", "Take the plan of least weight")
	b.look(t, "compare")

	for path, most := range map[string]int{"/get/list.html": 3, "/get/door.html": 1, "/get/menu.html": 8, "/get/report.html": 40} {
		for _, a4 := range []bool{true, false} {
			n := b.print(t, path, "Ragnhild", a4)
			t.Logf("%s: %d pages (A4 %v)", path, n, a4)
			if n < 1 || n > most {
				t.Errorf("%s prints on %d pages, want 1 to %d", path, n, most)
			}
		}
	}
	b.sound(t)
	for _, name := range []string{enteredFile, planFile} {
		if _, err := os.Stat(filepath.Join(folder, name)); errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s is not in the folder", name)
		}
	}
}

//go:build browser

package web

import (
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// markRows writes a number at the beginning and the end of every cell of every row, of
// every line of a list, every picture's title and every day of a menu, and returns how
// many there are; the heads of tables, which stand on every page, have none. The marks
// are too small to be seen or to move anything.
const markRows = `(() => {
	let n = 0;
	const mark = (text) => { const s = document.createElement("span"); s.textContent = text; s.style.cssText = "display:inline;font-size:1px;line-height:0"; return s; };
	for (const row of document.querySelectorAll("tbody tr, li, figure, .strip, dl > div, .alert")) {
		if (row.offsetHeight === 0) continue;
		const parts = row.matches("tr") ? row.cells : row.matches(".strip") ? [row.querySelector("h3"), row.querySelector("dl").lastElementChild.lastElementChild] : row.matches("dl > div") ? [row.firstElementChild, row.lastElementChild] : [row];
		for (const part of parts) {
			if (part.matches("figure")) { part.firstElementChild.append(mark(" qz" + n + "z ")); part.append(mark(" qz" + n + "z ")); continue; }
			part.prepend(mark(" qz" + n + "z "));
			part.append(mark(" qz" + n + "z "));
		}
		n++;
	}
	return n;
})()`

var rowMark = regexp.MustCompile(`qz([0-9]+)z`)

// pagesOf prints what is shown, its rows marked, and returns the text of each page and
// the number of rows.
func (b *browser) pagesOf(t *testing.T, path, text string, a4 bool) (pages []string, rows int) {
	t.Helper()
	b.goTo(t, path, text)
	var at string
	b.do(t, chromedp.Evaluate("location.pathname", &at), chromedp.Evaluate(markRows, &rows))
	if at != path {
		t.Fatalf("sent to %s, the browser is at %s", path, at)
	}
	width, height := 8.5, 11.0
	if a4 {
		width, height = 8.27, 11.69
	}
	var pdf []byte
	b.do(t, chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPaperWidth(width).WithPaperHeight(height).WithPrintBackground(true).Do(ctx)
		return err
	}))
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext of poppler-utils: %v", err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f"), rows
}

// TestNoCutRow: on the printed sheets, read back from the PDF, no row of a table, no
// line of a list, no picture and no day of a menu is on two pages; the door is one.
func TestNoCutRow(t *testing.T) {
	b := open(t, Options{})
	for _, file := range []string{"special.csv", "household.csv"} {
		f, err := os.Open(filepath.FromSlash("../../../../testdata/examples/" + file))
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(f).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		_ = f.Close()
		b.server.mu.Lock()
		b.server.entered.Household = fitted(rows, personColumns)
		b.server.mu.Unlock()
		b.goTo(t, "/", "Who is fed?")
		b.click(t, "button.main", "Ration for "+rows[1][0])
		b.rest(t)
		for _, sheet := range []string{"list", "door", "menu", "report"} {
			for _, a4 := range []bool{true, false} {
				pages, n := b.pagesOf(t, "/get/"+sheet+".html", rows[1][0], a4)
				on := map[string]int{}
				for k, text := range pages {
					for _, m := range rowMark.FindAllStringSubmatch(text, -1) {
						if at, ok := on[m[1]]; ok && at != k {
							t.Errorf("%s, %s (A4 %v): row %s is on pages %d and %d", file, sheet, a4, m[1], at+1, k+1)
						}
						on[m[1]] = k
					}
				}
				if len(on) != n || n < 5 {
					t.Errorf("%s, %s: %d rows are on the page and %d on paper", file, sheet, n, len(on))
				}
				if sheet == "door" && len(pages) != 1 {
					t.Errorf("%s: the door sheet takes %d pages (A4 %v)", file, len(pages), a4)
				}
				t.Logf("%s, %s (A4 %v): %d rows on %d pages", file, sheet, a4, n, len(pages))
			}
		}
	}
	b.sound(t)
}

// TestCutIsSeen: the same look finds a cut row where the style lets rows be cut.
func TestCutIsSeen(t *testing.T) {
	b := open(t, Options{})
	b.goTo(t, "/", "Who is fed?")
	var lines strings.Builder
	for i := range 60 {
		fmt.Fprintf(&lines, "<li style='break-inside:auto'>one<br>two<br>three<br>four<br>five %d</li>", i)
	}
	b.do(t, chromedp.Evaluate("document.open(); document.write(`<ul>"+lines.String()+"</ul>`); document.close()", nil))
	var rows int
	b.do(t, chromedp.Evaluate(markRows, &rows))
	var pdf []byte
	b.do(t, chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().Do(ctx)
		return err
	}))
	name := filepath.Join(t.TempDir(), "cut.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	cut, on := 0, map[string]int{}
	for k, text := range strings.Split(string(out), "\f") {
		for _, m := range rowMark.FindAllStringSubmatch(text, -1) {
			if at, ok := on[m[1]]; ok && at != k {
				cut++
			}
			on[m[1]] = k
		}
	}
	if rows != 60 || cut == 0 {
		t.Errorf("%d rows, of which %d are found cut", rows, cut)
	}
}

//go:build browser

package web

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// TestNothingFits: where nothing fits the page says so and what conflicts, lists ways
// out, and one that is taken is a plan.
func TestNothingFits(t *testing.T) {
	b := open(t, Options{})
	b.enter(t, 0, "Maja", "38", "f")
	b.click(t, "button.main", "Ration for Maja")
	b.rest(t)
	b.goTo(t, "/wishes", "What is the store to be like?")
	b.fill(t, "budget", "35")
	b.click(t, "button.main", "What cannot be met together")
	b.waitDone(t)
	b.goTo(t, "/plan", "Take a way out")
	b.wait(t, "Budget at most 35")
	b.look(t, "nothing-fits")
	b.click(t, `form[action="/way-out"] button`, "Ration for Maja")
	b.wait(t, "What to buy")
	b.sound(t)
}

// TestRefused: whoever a clinician must plan for is named first, and where that is
// everyone there is no list.
func TestRefused(t *testing.T) {
	b := open(t, Options{})
	b.enter(t, 0, "Aud", "60", "f")
	b.do(t, chromedp.Evaluate(`document.querySelector("details").open = true`, nil), chromedp.Click(`input[name="p0.conditions"][value="kidney-disease"]`, chromedp.ByQuery))
	b.click(t, "button.main", "THIS PLAN DOES NOT FEED AUD")
	b.look(t, "refused-all")
	var text string
	b.do(t, chromedp.Evaluate("document.body.innerText", &text))
	if strings.Contains(text, "What to buy") {
		t.Error("there is a list for somebody who is not planned for")
	}
	b.goTo(t, "/", "Who is fed?")
	b.enter(t, 1, "Torleif", "50", "m")
	b.click(t, "button.main", "Ration for Torleif")
	b.wait(t, "THIS PLAN DOES NOT FEED AUD")
	b.rest(t)
	b.look(t, "refused-one")
	b.goTo(t, "/get/door.html", "14 days for Torleif")
	b.wait(t, "THIS PLAN DOES NOT FEED AUD")
	b.sound(t)
}

// TestOwnInBrowser: a food of one's own and shelves are entered by hand.
func TestOwnInBrowser(t *testing.T) {
	b := open(t, Options{})
	b.enter(t, 0, "Maja", "38", "f")
	b.click(t, `button[value="save"].quiet`, "Who is fed?")
	b.goTo(t, "/own", "Foods of your own shop")
	for name, value := range map[string]string{"name": "Ternsund flatbread", "grams": "500", "price": "0.05", "like": "rye crispbread"} {
		b.fill(t, name, value)
	}
	b.click(t, `form[action="/own"] button.main`, "This has to be put right")
	b.do(t, chromedp.Click(`input[name=allergens][value=wheat]`, chromedp.ByQuery))
	b.click(t, `form[action="/own"] button.main`, "What was understood of the new food")
	for name, value := range map[string]string{"h0.width_cm": "120", "h0.depth_cm": "60", "h0.height_cm": "60", "h0.load_kg": "200", "h1.width_cm": "120", "h1.depth_cm": "60", "h1.height_cm": "60", "h1.load_kg": "200"} {
		b.fill(t, name, value)
	}
	b.look(t, "own")
	b.click(t, `form[action="/shelves"] button.main`, "Ternsund flatbread")
	b.goTo(t, "/details", "What stands where")
	b.sound(t)
}

// TestScriptsOff: the whole way without scripts: enter, plan, strike out, undo, check a
// stock, menu, sheets.
func TestScriptsOff(t *testing.T) {
	b := open(t, Options{})
	b.do(t, emulation.SetScriptExecutionDisabled(true))
	b.goTo(t, "/", "Who is fed?")
	b.click(t, `button[value="demo"]`, "These people are invented")
	b.click(t, "button.main", "Ration for Henrik")
	b.click(t, `button[formaction="/strike"]`, "What has just changed")
	b.click(t, `button[formaction="/undo"]`, "Ration for Henrik")
	b.click(t, `a[href="/stock"]`, "What is in store?")
	b.do(t, chromedp.SendKeys(`[name="s0.pack"]`, b.server.made.plan.Packs[0].Pack, chromedp.ByQuery), chromedp.SendKeys(`[name="s0.count"]`, "3", chromedp.ByQuery))
	b.click(t, "button.main", "What this stock is worth")
	b.click(t, `a[href="/menu"]`, "Day 14")
	b.click(t, `a[href="/save"]`, "Shopping list")
	b.click(t, `a[href="/get/list.html"]`, "Shopping list for Henrik")
}

// tabTo presses Tab until the focus is on what the selector names.
func (b *browser) tabTo(t *testing.T, selector string) {
	t.Helper()
	for range 200 {
		here := false
		b.do(t, chromedp.KeyEvent(kb.Tab), chromedp.Evaluate("document.activeElement.matches(`"+selector+"`)", &here))
		if here {
			return
		}
	}
	t.Fatalf("200 presses of Tab do not reach %s", selector)
}

// press presses Enter on what has the focus, and waits for the next page.
func (b *browser) press(t *testing.T, text string) {
	t.Helper()
	b.do(t, chromedp.Evaluate("window.old = true", nil), chromedp.KeyEvent(kb.Enter))
	b.wait(t, text)
}

// TestKeyboard: the whole way by keys alone, in the order of the page: enter somebody,
// plan, strike a food out, take it back, check a stock, open the list to print.
func TestKeyboard(t *testing.T) {
	b := open(t, Options{})
	b.wait(t, "Who is fed?")
	b.do(t, chromedp.KeyEvent(kb.Tab))
	var focus string
	b.do(t, chromedp.Evaluate("document.activeElement.textContent", &focus))
	if focus != "Skip to the page" {
		t.Errorf("the first stop is %q", focus)
	}
	b.do(t, chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("Maja"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("38"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("f"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("liver"))
	b.press(t, "Ration for Maja")
	b.rest(t)
	b.goTo(t, "/plan", "What to buy")
	b.tabTo(t, `button[formaction="/strike"]`)
	b.press(t, "What has just changed")
	b.tabTo(t, `button[formaction="/undo"]`)
	b.press(t, "Ration for Maja")
	b.tabTo(t, `a[href="/stock"]`)
	b.press(t, "What is in store?")
	b.tabTo(t, `[name="s0.pack"]`)
	b.do(t, chromedp.KeyEvent(b.server.made.plan.Packs[0].Pack), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("3"))
	b.tabTo(t, "button.main")
	b.press(t, "What this stock is worth")
	b.tabTo(t, `a[href="/plan"]`)
	b.press(t, "What to buy")
	b.tabTo(t, `a[href="/get/list.html"]`)
	b.press(t, "Shopping list for Maja")
	b.sound(t)
}

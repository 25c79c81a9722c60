package batch

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"rationwright/cmd/rationwright/internal/register"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// asked is a request of which a household is planned in a moment.
func asked(t *testing.T) ration.Request {
	t.Helper()
	return ration.Request{
		Table: rationtest.SmallTable(t, rationtest.SmallShop...), Days: 3, Standard: nutrients.StandardBasic, IgnoreEatable: true,
		Start: "2026-11-25", Time: 50 * time.Millisecond,
	}
}

// endless is a register of n households of five bodies, made as it is read.
func endless(n int) io.Reader {
	r, w := io.Pipe()
	go func() {
		fmt.Fprintln(w, "household,name,age_years,sex")
		for i := range n {
			if _, err := fmt.Fprintf(w, "H%d,Person %d,%d,%s\n", i, i, 30+i%5, []string{"f", "m"}[i%5%2]); err != nil {
				return
			}
		}
		w.Close()
	}()
	return r
}

// Over many households memory does not grow but for the ids: what is alike is planned
// once, lines come in order, and none is missing. -campaign 10 takes ten thousand.
func TestManyHouseholds(t *testing.T) {
	n := 1000
	if *rationtest.Campaign >= 10 {
		n = 10_000
	}
	scan, err := ScanRegister("register", endless(n))
	if err != nil {
		t.Fatal(err)
	}
	if scan.Households != n {
		t.Fatalf("%d households, want %d", scan.Households, n)
	}
	planner, err := NewPlanner(asked(t), false)
	if err != nil {
		t.Fatal(err)
	}
	heap := func() float64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapInuse) / 1e6
	}
	out := &checker{}
	total := &Total{}
	early := 0.0
	before := debug.SetMemoryLimit(-1)
	run := &Run{Name: "register", Scan: scan, Planner: planner, Out: out, Total: total, Told: func(string) {}, Wrote: func(done int) {
		if done == n/10 {
			early = heap()
			if most := debug.SetMemoryLimit(-1); most > 300e6 {
				t.Errorf("garbage is let be up to %d MB while households are planned, want under 300", most/1e6)
			}
		}
	}}
	if err := run.Go(t.Context(), endless(n)); err != nil {
		t.Fatal(err)
	}
	if after := debug.SetMemoryLimit(-1); after != before {
		t.Errorf("the limit of memory is left at %d, it was %d", after, before)
	}
	if out.wrong != "" || out.lines != n || total.Households != n {
		t.Errorf("%d lines, %d households, want %d; %s", out.lines, total.Households, n, out.wrong)
	}
	if len(planner.recent.Keys()) != 5 {
		t.Errorf("%d planned, want the 5 that differ", len(planner.recent.Keys()))
	}
	late := heap()
	t.Logf("%.1f MB at a tenth, %.1f MB at the end", early, late)
	if late > early+10 {
		t.Errorf("memory grew from %.1f to %.1f MB", early, late)
	}
}

// checker takes lines, each in one write, and looks at their order.
type checker struct {
	lines int
	wrong string
}

func (c *checker) Write(text []byte) (int, error) {
	var l Line
	if err := json.Unmarshal(text, &l); err != nil || bytes.Count(text, []byte{'\n'}) != 1 || l.ID != fmt.Sprintf("H%d", c.lines) || l.Value == nil {
		c.wrong = string(text)
	}
	c.lines++
	return len(text), nil
}

// A run that goes on writes the lines that are not there, from the first of them: none is
// left out and none comes twice, wherever the run before had ended.
func TestGoesOnBehindTheLast(t *testing.T) {
	const n = 6
	scan, err := ScanRegister("register", endless(n))
	if err != nil {
		t.Fatal(err)
	}
	for done := range n + 1 {
		planner, err := NewPlanner(asked(t), false)
		if err != nil {
			t.Fatal(err)
		}
		out := &checker{lines: done}
		run := &Run{Name: "register", Scan: scan, Planner: planner, Out: out, Done: done, Total: &Total{Households: done}, Told: func(string) {}, Wrote: func(int) {}}
		if err := run.Go(t.Context(), endless(n)); err != nil {
			t.Fatal(err)
		}
		if out.lines != n || out.wrong != "" {
			t.Errorf("behind %d of %d households, %d lines are there at the end; %s", done, n, out.lines, out.wrong)
		}
	}
}

// A place that cannot be written to any more ends the run, with whole lines behind it.
func TestWriteThatFails(t *testing.T) {
	scan, err := ScanRegister("register", endless(20))
	if err != nil {
		t.Fatal(err)
	}
	planner, err := NewPlanner(asked(t), false)
	if err != nil {
		t.Fatal(err)
	}
	total := &Total{}
	run := &Run{Name: "register", Scan: scan, Planner: planner, Out: &full{left: 7}, Total: total, Told: func(string) {}, Wrote: func(int) {}}
	if err := run.Go(t.Context(), endless(20)); !errors.Is(err, errFull) || total.Households != 7 {
		t.Errorf("%v behind %d households, want %v behind 7", err, total.Households, errFull)
	}
	if err := (&Run{Name: "register", Scan: scan, Planner: planner, Out: io.Discard, Total: &Total{}, Told: func(string) {}, Wrote: func(int) {}}).Go(t.Context(), endless(21)); !errors.Is(err, ErrChanged) {
		t.Errorf("%v of a register that has grown, want %v", err, ErrChanged)
	}
}

var errFull = errors.New("no space left")

type full struct{ left int }

func (f *full) Write(text []byte) (int, error) {
	if f.left--; f.left < 0 {
		return 0, errFull
	}
	return len(text), nil
}

// Whoever is the same but for the name is one row of an alike, in whatever order they
// stand; names come back where their marks stood, whatever is in them.
func TestAlike(t *testing.T) {
	ola, kari := rationtest.Adult("Ola", 34, nutrients.Male), rationtest.Adult(`Kari "K" <&>`, 33, nutrients.Female)
	twin := rationtest.Adult("Per", 34, nutrients.Male)
	twin.Count = 2
	a, b := alikeOf([]nutrients.Person{ola, kari, twin}), alikeOf([]nutrients.Person{twin, kari, ola})
	if a.key != b.key || len(a.people) != 2 {
		t.Fatalf("%q and %q, %d rows", a.key, b.key, len(a.people))
	}
	heads := 0
	for _, p := range a.people {
		heads += p.Count
	}
	if heads != 4 {
		t.Errorf("%d heads, want 4", heads)
	}
	if c := alikeOf([]nutrients.Person{ola, kari, ola}); c.key == a.key {
		t.Error("three people are alike to four")
	}
	text, err := ration.Marshal([]string{mark(0), mark(1)})
	if err != nil {
		t.Fatal(err)
	}
	if text, err = a.named(text); err != nil {
		t.Fatal(err)
	}
	var names []string
	if err := json.Unmarshal(text, &names); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	if all := strings.Join(names, "|"); !strings.Contains(all, "Ola, Per × 2") || !strings.Contains(all, `Kari "K" <&>`) {
		t.Errorf("named %q", names)
	}
}

// A line does not depend on what was planned before it, beside it or after it.
func TestLineStandsAlone(t *testing.T) {
	plan := func(p *Planner, age int) string {
		h := register.Parse(fmt.Appendf(nil, `{"id":"H%d","household":[["name","age_years","sex"],["Ola",%d,"m"]]}`, age, age))
		made, err := p.Plan(context.Background(), h)
		if err != nil {
			t.Fatal(err)
		}
		return string(made.Line)
	}
	fresh := func() *Planner {
		p, err := NewPlanner(asked(t), false)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	used := fresh()
	for _, age := range []int{30, 45, 71, 30} {
		if got, want := plan(used, age), plan(fresh(), age); got != want {
			t.Errorf("age %d: %s alone, %s after others", age, want, got)
		}
	}
}

// The name of a page stays in its directory, and no two ids share one.
func TestPageNames(t *testing.T) {
	seen := map[string]string{}
	for _, id := range []string{"H1", "h-2_x", "../../etc/passwd", "..", ".", "/", `a\b`, "a/b", "ab", "a b", "Åse", "CON", strings.Repeat("x", 200), strings.Repeat("x", 199), "~", "x~", "\u202eabc"} {
		name := PageName(id)
		if filepath.Base(name) != name || strings.ContainsAny(name, `/\:`) || len(name) > 100 || !strings.HasPrefix(name, "household-") {
			t.Errorf("%q is called %q", id, name)
		}
		if other, twice := seen[name]; twice {
			t.Errorf("%q and %q are both called %q", id, other, name)
		}
		seen[name] = id
	}
}

package batch

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestLineOfAPlan: each figure of a plan stands in its own place of the line, by figures made up
// for this test; it ends as plan would.
func TestLineOfAPlan(t *testing.T) {
	num := func(v float64) *float64 { return &v }
	proven := true
	totals := &ration.Totals{WaterL: 61}
	p := &ration.Plan{
		Status: ration.StatusLimit, Proven: &proven, Value: num(31), Bound: num(30), Gap: num(0.03), Totals: totals, Packs: []ration.PlanPack{{Pack: "rice", Count: 3}}, People: make([]ration.PlanPerson, 1),
		Shortfalls: []ration.Shortfall{{Person: "Liv", Nutrient: "iron"}}, Refused: []ration.Refused{{Name: "Aud"}},
	}
	want := Line{Status: "limit", Exit: exit.Done, Value: num(31), Bound: num(30), Gap: num(0.03), Totals: totals, Packs: p.Packs, Shortfalls: p.Shortfalls, Refused: p.Refused}
	if got := lineOf(p); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	for _, c := range []struct {
		err  error
		want Line
	}{
		{errors.New("a.csv:1:1: bad\na.csv:2:2: worse"), Line{Status: "unread", Exit: 3, Errors: []string{"a.csv:1:1: bad", "a.csv:2:2: worse"}}},
		{ration.ErrNoPlan, Line{Status: "limit", Exit: 6, Errors: strings.Split(ration.ErrNoPlan.Error(), "\n")}},
		{ration.ErrNumerical, Line{Status: "numerical", Exit: 1, Errors: strings.Split(ration.ErrNumerical.Error(), "\n")}}, // solve would end with 1 too, a plan with 1
	} {
		if got := failed(c.err); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%v: %+v, want %+v", c.err, got, c.want)
		}
	}
}

// TestAlikeByHand: rows that are the same but for their names are one, in the order of what they
// say; a row that stands for several says so beside its name, and one of no count is one.
func TestAlikeByHand(t *testing.T) {
	man := func(name string, count int) nutrients.Person {
		p := rationtest.Adult(name, 34, nutrients.Male)
		p.Count = count
		return p
	}
	for _, c := range []struct {
		rows  []nutrients.Person
		heads int
		names string
	}{
		{[]nutrients.Person{man("Ola", 1)}, 1, "Ola"}, {[]nutrients.Person{man("Ola", 0)}, 1, "Ola"}, {[]nutrients.Person{man("Ola", 2)}, 2, "Ola × 2"},
		{[]nutrients.Person{man("Ola", 1), man("Per", 1)}, 2, "Ola, Per"}, {[]nutrients.Person{man("Ola", 0), man("Per", 0)}, 2, "Ola, Per"},
		{[]nutrients.Person{man("Ola", 3), man("Per", 1), man("Odd", 2)}, 6, "Ola × 3, Per, Odd × 2"},
	} {
		a := alikeOf(c.rows)
		if len(a.people) != 1 || a.people[0].Count != c.heads || a.people[0].Name != "⟦0⟧" {
			t.Fatalf("%s: %+v", c.names, a.people)
		}
		people := a.namedPeople()
		if people[0].Name != c.names || people[0].Count != c.heads || a.people[0].Name != "⟦0⟧" {
			t.Errorf("%d called %q, want %d called %q", people[0].Count, people[0].Name, c.heads, c.names)
		}
		if one := alikeOf([]nutrients.Person{man("Siv", c.heads)}); one.key != a.key {
			t.Errorf("%s are not alike to %d in one row", c.names, c.heads)
		}
		if more := alikeOf([]nutrients.Person{man("Siv", c.heads+1)}); more.key == a.key {
			t.Errorf("%s are alike to one more", c.names)
		}
		plan, err := a.namedPlan(&ration.Plan{People: []ration.PlanPerson{{Name: "⟦0⟧", Count: c.heads}}, Notes: []string{"⟦0⟧ eats", "⟦1⟧ is nobody"}})
		if err != nil || plan.People[0].Name != c.names || plan.Notes[0] != c.names+" eats" || plan.Notes[1] != "⟦1⟧ is nobody" {
			t.Errorf("%v: %+v", err, plan)
		}
	}
}

// broken is a file that cannot be read on behind its text.
type broken struct {
	io.Reader
	seek error
}

var errBroken = errors.New("the disk is broken")

func (b broken) Seek(int64, int) (int64, error) { return 0, b.seek }

// TestFilesThatBreak: a file that cannot be read to its end is said to be none, and nothing is
// counted of it; a register that is another one when it is read again ends the run.
func TestFilesThatBreak(t *testing.T) {
	half := func() io.Reader { return io.MultiReader(strings.NewReader("a\nb\n"), failing{}) }
	if n, err := Count(broken{half(), nil}); n != 2 || !errors.Is(err, errBroken) {
		t.Errorf("%d, %v", n, err)
	}
	if n, err := Count(broken{half(), errBroken}); n != 0 || !errors.Is(err, errBroken) {
		t.Errorf("%d, %v", n, err)
	}
	out, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	if total, err := Resume("out", out, &Begun{}, &Begun{}); total != nil || !errors.Is(err, os.ErrClosed) {
		t.Errorf("a file that is closed: %+v, %v", total, err)
	}
	if err := os.WriteFile(out.Name()+BegunSuffix, []byte(`{"households":3,"register":5}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if b, err := ReadBegun(out.Name()); b != nil || err == nil || err.Error() != out.Name()+BegunSuffix+": not the note of a run" {
		t.Errorf("half a note: %+v, %v", b, err)
	}
	if err := os.Mkdir(out.Name()+"2"+BegunSuffix, 0o700); err != nil {
		t.Fatal(err)
	}
	if b, err := ReadBegun(out.Name() + "2"); b != nil || err == nil {
		t.Errorf("a directory as note: %+v, %v", b, err)
	}

	const register = "household,name,age_years,sex\nH1,Ola,x,m\nH2,Per,x,m\n"
	scan, err := ScanRegister("r.csv", strings.NewReader(register))
	if err != nil || scan.Households != 2 {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text  string
		lines int
		want  error
	}{
		{register, 2, nil}, {register + "H3,Liv,x,f\n", 3, ErrChanged}, {strings.TrimSuffix(register, "H2,Per,x,m\n"), 1, ErrChanged},
	} {
		planner, err := NewPlanner(asked(t), false)
		if err != nil {
			t.Fatal(err)
		}
		var to strings.Builder
		run := &Run{Name: "r.csv", Scan: scan, Planner: planner, Out: &to, Total: &Total{}, Told: func(string) {}, Wrote: func(int) {}}
		if err := run.Go(t.Context(), strings.NewReader(c.text)); !errors.Is(err, c.want) || c.want == nil && (err != nil || strings.Count(to.String(), "\n") != c.lines) || run.Total.Households != strings.Count(to.String(), "\n") {
			t.Errorf("%q: %v, want %v:\n%s", c.text, err, c.want, to.String())
		}
	}
	planner, err := NewPlanner(asked(t), false)
	if err != nil {
		t.Fatal(err)
	}
	for what, in := range map[string]io.Reader{"nothing": strings.NewReader(""), "what cannot be read": failing{}, "half": io.MultiReader(strings.NewReader(register), failing{})} {
		run := &Run{Name: "r.csv", Scan: scan, Planner: planner, Out: io.Discard, Total: &Total{}, Told: func(string) {}, Wrote: func(int) {}}
		if err := run.Go(t.Context(), in); err == nil || errors.Is(err, ErrChanged) {
			t.Errorf("%s: %v", what, err)
		}
	}
	for _, empty := range []string{"", "\n\n", "household,name,age_years,sex\n"} {
		if scan, err := ScanRegister("r.csv", strings.NewReader(empty)); scan != nil || err == nil || !strings.HasPrefix(err.Error(), "r.csv:1:1: ") {
			t.Errorf("%q: %+v, %v", empty, scan, err)
		}
	}
}

// failing is what cannot be read.
type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errBroken }

// TestFaultOfOneHousehold: where the program breaks down over a household, its line says so and
// the run goes on.
func TestFaultOfOneHousehold(t *testing.T) {
	broken := asked(t)
	broken.Table = nil
	planner, err := NewPlanner(broken, true)
	if err != nil {
		t.Fatal(err)
	}
	found := &answer{}
	planner.answer(t.Context(), alikeOf([]nutrients.Person{rationtest.Adult("Ola", 34, nutrients.Male)}), found)
	if l := found.line; found.plan != nil || l.Status != "numerical" || l.Exit != exit.Fault || len(l.Errors) == 0 || !strings.HasPrefix(l.Errors[0], ration.ErrNumerical.Error()+": ") {
		t.Errorf("%+v", l)
	}
}

// TestPageNamesByHand: an id of sixty plain letters stands as it is; of a longer one the first
// sixty do, and of another one what is plain in it, with sixteen digits of a digest behind.
func TestPageNamesByHand(t *testing.T) {
	sixty := strings.Repeat("x", 60)
	for id, want := range map[string]string{"H-1_a": "H-1_a", sixty: sixty, sixty + "x": sixty + "~", "a b/Å": "ab~", "..": "~"} {
		got := strings.TrimSuffix(strings.TrimPrefix(PageName(id), "household-"), ".html")
		if plain, digest, cut := strings.Cut(got, "~"); got != want && (!cut || plain+"~" != want || len(digest) != 16 || strings.Trim(digest, "0123456789abcdef") != "") {
			t.Errorf("%q is called %q, want %q", id, got, want)
		}
	}
	for _, c := range []struct {
		done, before int
		spent        time.Duration
	}{{5, 0, 0}, {5, 0, -time.Second}, {5, 5, time.Second}, {4, 5, time.Second}} {
		if rate, left := Left(10, c.done, c.before, c.spent); rate != 0 || left != 0 {
			t.Errorf("%+v: %g a second, %v left, want nothing known", c, rate, left)
		}
	}
}

package batch

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"rationwright/cmd/rationwright/internal/register"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestResumeByHand: whole lines are added up, what is cut behind them goes, and the file is
// left at its end; what is no line, or more lines than households, is told with its place.
func TestResumeByHand(t *testing.T) {
	fed := `{"id":"A","status":"optimal","exit":0,"gap":0.01,"totals":{"cost":7,"currency":"TSD"},"packs":[{"pack":"rice","count":3}]}` + "\n"
	unread := `{"id":"B","status":"unread","exit":3,"refused":[{"name":"Arne"}]}` + "\n"
	begun := &Begun{Version: "1", Register: "d", Households: 3}
	for _, c := range []struct {
		name, text string
		whole      string
		households int
		err        error
		at         string
	}{
		{"nothing", "", "", 0, nil, ""},
		{"whole", fed + unread, fed + unread, 2, nil, ""},
		{"cut", fed + unread[:20], fed, 1, nil, ""},
		{"all", fed + unread + fed, fed + unread + fed, 3, nil, ""},
		{"no status", fed + "{}\n", "", 0, ErrNoLine, ":2:1:"},
		{"no object", "x\n", "", 0, ErrNoLine, ":1:1:"},
		{"an amount in words", fed + `{"id":"B","status":"optimal","exit":"none"}` + "\n", "", 0, ErrNoLine, ":2:1:"},
		{"too many", fed + fed + fed + unread, "", 0, ErrManyLines, ":4:1:"},
	} {
		name := filepath.Join(t.TempDir(), "out.ndjson")
		if err := os.WriteFile(name, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := os.OpenFile(name, os.O_RDWR, 0)
		if err != nil {
			t.Fatal(err)
		}
		total, err := Resume("out", out, begun, begun)
		if !errors.Is(err, c.err) || err != nil && !strings.HasPrefix(err.Error(), "out"+c.at) {
			t.Errorf("%s: %v, want %v at %s", c.name, err, c.err, c.at)
		}
		if err == nil {
			if _, err := out.WriteString("END"); err != nil {
				t.Fatal(err)
			}
			left, err := os.ReadFile(name)
			if err != nil || string(left) != c.whole+"END" || total.Households != c.households {
				t.Errorf("%s: %d households, the file is %q, %v; want %d and %q", c.name, total.Households, left, err, c.households, c.whole+"END")
			}
		}
		if c.name == "whole" && (total.Unread != 1 || total.Refusing != 1 || total.Sum.Cost != 7 || total.Gaps != 1 || total.packs["rice"].Count != 3) {
			t.Errorf("they come to %+v", total)
		}
		if err := out.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Resume("out", nil, begun, nil); !errors.Is(err, ErrNoRun) {
		t.Errorf("%v, want %v", err, ErrNoRun)
	}
	other := *begun
	other.Register = "e"
	if _, err := Resume("out", nil, begun, &other); !errors.Is(err, ErrOtherRun) || !strings.Contains(err.Error(), "other: the register;") {
		t.Errorf("%v, want %v", err, ErrOtherRun)
	}
}

// TestWhatDiffers: the version first, then the register, then every option that either has and
// the other has not so, in order.
func TestWhatDiffers(t *testing.T) {
	asked := func(pairs ...string) map[string]json.RawMessage {
		m := map[string]json.RawMessage{}
		for i := 0; i < len(pairs); i += 2 {
			m[pairs[i]] = json.RawMessage(pairs[i+1])
		}
		return m
	}
	base := Begun{Version: "1", Register: "d", Asked: asked("days", "14", "lean_energy", "true")}
	for want, from := range map[string]Begun{
		"":                                 {Version: "1", Register: "d", Asked: asked("days", "14", "lean_energy", "true")},
		"the version of the program":       {Version: "2", Register: "e"},
		"the register":                     {Version: "1", Register: "e"},
		"days":                             {Version: "1", Register: "d", Asked: asked("days", "7", "lean_energy", "true")},
		"lean energy":                      {Version: "1", Register: "d", Asked: asked("days", "14")},
		"pets":                             {Version: "1", Register: "d", Asked: asked("days", "14", "lean_energy", "true", "pets", "1")},
		"a first, days, lean energy, pets": {Version: "1", Register: "d", Asked: asked("a_first", "1", "pets", "1")},
	} {
		if got := base.differs(&from); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestNoteOfARun: what is kept beside the lines is read back; what is no note of a run is
// said to be none.
func TestNoteOfARun(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	if b, err := ReadBegun(out); b != nil || err != nil {
		t.Errorf("%+v, %v of none", b, err)
	}
	for text, good := range map[string]bool{`{"households":1,"register":"d","asked":{"start":"2026-11-25"}}`: true, `{"households":0}`: false, `x`: false} {
		if err := os.WriteFile(out+BegunSuffix, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		b, err := ReadBegun(out)
		if (err == nil) != good || good && (b.Register != "d" || b.Start() != "2026-11-25") {
			t.Errorf("%s: %+v, %v", text, b, err)
		}
	}
	if got := (&Begun{}).Start(); got != "" {
		t.Errorf("no start is %q", got)
	}
}

// TestPlansAreKept: with plans a household has its own, with the names of its people, and the
// request of it; what was read with a warning says so, and each line is counted.
func TestPlansAreKept(t *testing.T) {
	const text = `{"id":"A","household":[{"name":"Ola","age_years":34,"sex":"m","village":"x"},{"name":"Per","age_years":34,"sex":"m"}]}` + "\n" +
		`{"id":"B","household":[{"name":"Aud","age_years":34,"sex":"m"},{"name":"Liv","age_years":34,"sex":"m"}]}` + "\n" + `{"id":"C","household":[{"name":"Odd","age_years":34,"sex":"q"}]}` + "\n"
	scan, err := ScanRegister("r", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, plans := range []bool{true, false} {
		planner, err := NewPlanner(asked(t), plans)
		if err != nil {
			t.Fatal(err)
		}
		var lock sync.Mutex // households are planned beside each other
		names := map[string]string{}
		var told []string
		var wrote []int
		var out strings.Builder
		run := &Run{Name: "r", Scan: scan, Planner: planner, Out: &out, Total: &Total{}, Told: func(w string) { told = append(told, w) }, Wrote: func(n int) { wrote = append(wrote, n) },
			Each: func(h *register.Household, m *Made) error {
				lock.Lock()
				defer lock.Unlock()
				if m.Plan != nil {
					names[h.ID] = m.Plan.People[0].Name + "|" + m.Request.People[0].Name
				}
				return nil
			}}
		if err := run.Go(t.Context(), strings.NewReader(text)); err != nil {
			t.Fatal(err)
		}
		if plans && (len(names) != 2 || names["A"] != "Ola, Per|Ola, Per" || names["B"] != "Aud, Liv|Aud, Liv") || !plans && len(names) != 0 {
			t.Errorf("with plans %v: %q", plans, names)
		}
		if len(told) != 1 || !strings.Contains(told[0], "village") || len(wrote) != 3 || wrote[2] != 3 {
			t.Errorf("told %q, wrote %v", told, wrote)
		}
		var last Line
		if err := json.Unmarshal([]byte(strings.Split(out.String(), "\n")[2]), &last); err != nil || last.ID != "C" || last.Exit != 3 || last.Status != "unread" || len(last.Errors) == 0 {
			t.Errorf("%v: %+v", err, last)
		}
	}
	planner, err := NewPlanner(asked(t), false)
	if err != nil {
		t.Fatal(err)
	}
	refused := rationtest.Adult("Arne", 40, nutrients.Male)
	refused.Conditions = []nutrients.Condition{nutrients.KidneyDisease}
	rows, err := json.Marshal(nutrients.HouseholdRows([]nutrients.Person{refused, rationtest.Adult("Liv", 34, nutrients.Female)}))
	if err != nil {
		t.Fatal(err)
	}
	made, err := planner.Plan(t.Context(), register.Parse([]byte(`{"id":"D","household":`+string(rows)+`}`)))
	if err != nil || strings.Contains(string(made.Line), "⟦") || !strings.Contains(string(made.Line), `"name":"Arne"`) {
		t.Errorf("%v: %s", err, made.Line)
	}
}

// TestPlannerOfARecord: workers elsewhere plan what was asked, whoever stands in the record.
func TestPlannerOfARecord(t *testing.T) {
	record := RecordOf(ration.Request{Days: 9, Pets: 2, Start: "2026-11-25"})
	planner, err := PlannerOf(record)
	if err != nil {
		t.Fatal(err)
	}
	req := planner.request([]nutrients.Person{rationtest.Adult("Liv", 34, nutrients.Female)})
	if req.Days != 9 || req.Pets != 2 || req.Start != "2026-11-25" || len(req.People) != 1 || req.People[0].Name != "Liv" || !req.Terse {
		t.Errorf("%+v", req)
	}
	record.Version = "0"
	if _, err := PlannerOf(record); !errors.Is(err, ration.ErrVersion) {
		t.Errorf("%v, want %v", err, ration.ErrVersion)
	}
}

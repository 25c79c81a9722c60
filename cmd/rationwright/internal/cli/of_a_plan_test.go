package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/solver/ration"
)

// threeDays is the plan of two people for three days, made once.
var threeDays = sync.OnceValue(func() []byte {
	var out, errs bytes.Buffer
	code := Run([]string{"plan", "--household", "-", "--standard", "basic", "--days", "3", "--least", "weight", "--within", "50%", "--slack", "0", "--time", "1m", "--start", "2026-01-05", "--hot", "--format", "json"},
		strings.NewReader("name,age_years,sex\nJonas,36,m\nSiri,34,f\n"), &out, &errs)
	if code != exit.Done {
		panic(fmt.Sprintf("no plan: %d, %s", code, errs.String()))
	}
	return out.Bytes()
})

// planFile is the name of a file with that plan.
func planFile(t *testing.T) string {
	t.Helper()
	return writer(t, t.TempDir())("plan.json", string(threeDays()))
}

// ran runs a command line and keeps apart what it answers and what it says.
func ran(args ...string) (code int, answer, said string) {
	var out, errs bytes.Buffer
	code = Run(args, strings.NewReader(""), &out, &errs)
	return code, out.String(), errs.String()
}

// refused holds command lines that end with a code before anything is answered.
func refused(t *testing.T, code int, lines map[string]string) {
	t.Helper()
	for line, says := range lines {
		if got, answer, said := ran(strings.Split(line, " ")...); got != code || answer != "" || !strings.Contains(said, says) {
			t.Errorf("%s: %d, want %d; %q, want %q", line, got, code, said, says)
		}
	}
}

// daysOf reads the days of a menu in JSON: their numbers, dates and which are cold.
func daysOf(t *testing.T, args ...string) string {
	t.Helper()
	code, answer, said := ran(append([]string{"menu", "--format", "json"}, args...)...)
	var m ration.Menu
	if err := json.Unmarshal([]byte(answer), &m); err != nil || code != exit.Done {
		t.Fatalf("%q: %d, %v, %s", args, code, err, said)
	}
	var days []string
	for _, d := range m.Days {
		text := fmt.Sprint(d.Day, " ", d.Date)
		if d.Cold {
			text += " cold"
		}
		days = append(days, text)
	}
	return strings.Join(days, ", ")
}

// TestMenuOfAPlan: the days of the plan with their dates, cold where that is asked; from a day on
// those that are left, of what is in store then. A day outside is refused, and so are flags
// that do not go together.
func TestMenuOfAPlan(t *testing.T) {
	plan := planFile(t)
	write := writer(t, t.TempDir())
	stock := write("left.csv", "pack,count,best_before\nwhite-rice-907g-bag,9,2028-01-01\npeanut-butter-350g-jar,9,2028-01-01\nbaked-beans-415g-can,30,2028-01-01\n")
	one := write("one.csv", "name,age_years,sex\nGuest,50,f\n")
	if got := daysOf(t, "--plan", plan); got != "1 2026-01-05, 2 2026-01-06, 3 2026-01-07" {
		t.Error(got)
	}
	if got := daysOf(t, "--plan", plan, "--cold-days", "3, 1,3"); got != "1 2026-01-05 cold, 2 2026-01-06, 3 2026-01-07 cold" {
		t.Error(got)
	}
	if got := daysOf(t, "--plan", plan, "--from-day", "3", "--stock", stock); got != "3 2026-01-07" {
		t.Error(got)
	}
	if got := daysOf(t, "--plan", plan, "--from-day", "2", "--stock", stock, "--household", one, "--cold-days", "3"); got != "2 2026-01-06, 3 2026-01-07 cold" {
		t.Error(got)
	}
	_, answer, _ := ran("menu", "--plan", plan, "--from-day", "3", "--stock", stock, "--household", one, "--only", "days")
	if !strings.Contains(answer, "Guest") || strings.Contains(answer, "Jonas") {
		t.Errorf("for a guest:\n%s", answer)
	}
	refused(t, exit.Usage, map[string]string{
		"menu": "say which plan", "menu --plan " + plan + " --dishes d.csv": "--dishes and --dish-parts go together", "menu --plan " + plan + " --dish-parts d.csv": "--dishes and --dish-parts go together",
		"menu --plan " + plan + " --from-day 2": "--from-day needs --stock", "menu --plan " + plan + " --stock " + stock: "--stock and --household go with --from-day", "menu --plan " + plan + " --household " + one: "--stock and --household go with --from-day",
		"menu --plan " + plan + " --from-day 0 --stock " + stock: "--from-day 0: the plan has days 1 to 3", "menu --plan " + plan + " --from-day 4 --stock " + stock: "--from-day 4: the plan has days 1 to 3",
		"menu --plan " + plan + " --cold-days 0": "write days from 1 to 3", "menu --plan " + plan + " --cold-days 4": "write days from 1 to 3", "menu --plan " + plan + " --cold-days x": "write days from 1 to 3",
		"menu --plan " + plan + " --from-day 2 --stock " + stock + " --cold-days 1": "write days from 2 to 3", "menu --plan - --dishes - --dish-parts p.csv": "--plan and --dishes cannot all read standard input",
	})
	for only, has := range map[string][2]bool{"all": {true, true}, "overview": {true, false}, "days": {false, true}} {
		_, answer, _ := ran("menu", "--plan", plan, "--only", only)
		if got := [2]bool{strings.Contains(answer, "ALL DAYS"), strings.Contains(answer, "DAY 1, MONDAY 5 JANUARY 2026")}; got != has {
			t.Errorf("--only %s has the overview and the days: %v, want %v", only, got, has)
		}
	}
	if code, answer, _ := ran("menu", "--plan", plan, "--format", "ics"); code != exit.Done || !strings.HasPrefix(answer, "BEGIN:VCALENDAR") || !strings.Contains(answer, "20260107") {
		t.Errorf("%d, %.200s", code, answer)
	}
	if code, answer, _ := ran("menu", "--plan", plan, "--time", "1ns"); code != exit.Limit || answer != "" {
		t.Errorf("out of time: %d, %.100s", code, answer)
	}
}

// TestReadDays: days once each in the order in which they are written, between the first and the
// last that there are.
func TestReadDays(t *testing.T) {
	for _, c := range []struct {
		text string
		want []int
		good bool
	}{
		{"", nil, true}, {" , ", nil, true}, {"2", []int{2}, true}, {"5,2", []int{5, 2}, true}, {" 3 , 2,3", []int{3, 2}, true}, {"1", nil, false}, {"6", nil, false}, {"2,6", nil, false}, {"2;3", nil, false}, {"2.0", nil, false},
	} {
		if got, err := readDays(c.text, 2, 5); (err == nil) != c.good || !slices.Equal(got, c.want) || err != nil && exitCode(err) != exit.Usage {
			t.Errorf("%q: %v, %v, want %v", c.text, got, err, c.want)
		}
	}
}

// TestReadReduce: a food and its share, which is under all of it; the last equals sign parts them.
func TestReadReduce(t *testing.T) {
	for _, c := range []struct {
		text, name string
		share      float64
	}{
		{"raisins=50%", "raisins", 0.5}, {" wheat bran = 25 %", "wheat bran", 0.25}, {"a=b=0.1", "a=b", 0.1}, {"rice=0", "rice", 0}, {"rice=0%", "rice", 0}, {"rice=99.9%", "rice", 0.999},
		{"rice=100%", "", -1}, {"rice=1", "", -1}, {"=50%", "", -1}, {"rice", "", -1}, {"rice=", "", -1}, {"rice=half", "", -1}, {"rice=-1%", "", -1}, {"", "", -1},
	} {
		name, share, err := readReduce(c.text)
		if bad := c.share < 0; (err != nil) != bad || !bad && (name != c.name || share < c.share-1e-12 || share > c.share+1e-12) || bad && (exitCode(err) != exit.Usage || name != "" || share != 0) {
			t.Errorf("%q: %q, %g, %v, want %q, %g", c.text, name, share, err, c.name, c.share)
		}
	}
}

// TestReportOfPlans: one plan has all its sheets or one of them, several are a handout, which has
// room for three; where the time ends before the menu the page says so, and a menu alone is none.
func TestReportOfPlans(t *testing.T) {
	plan := planFile(t)
	four := strings.Repeat(" --plan "+plan, 4)
	refused(t, exit.Usage, map[string]string{
		"report": "say which plan", "report" + four: "4 plans; a handout has room for 3", "report" + four[:len(four)/2] + " --only door": "--only and --frontier are about one plan", "report" + four[:len(four)/2] + " --frontier": "--only and --frontier are about one plan",
	})
	for only, title := range map[string]string{"all": "Ration for ", "shopping": "Shopping list: ", "menu": "Menu: ", "door": "Door sheet: "} {
		code, answer, said := ran("report", "--plan", plan, "--only", only)
		if code != exit.Done || !strings.Contains(answer, "<title>"+title+"Jonas and Siri</title>") || (only == "all" || only == "menu") != strings.Contains(answer, "What to eat on which day") {
			t.Errorf("--only %s: %d, %s, %.300s", only, code, said, answer)
		}
		code, answer, said = ran("report", "--plan", plan, "--only", only, "--time", "1ns")
		if (code == exit.Done) != (only != "menu") || only == "menu" && (code != exit.Limit || answer != "" || said == "") || strings.Contains(strings.ToLower(answer), "the menu is left out") != (only == "all") {
			t.Errorf("--only %s without time: %d, %s, %.300s", only, code, said, answer)
		}
	}
	for n := 2; n <= 3; n++ {
		code, answer, said := ran(strings.Fields("report" + strings.Repeat(" --plan "+plan, n) + " --time 1ns")...)
		if code != exit.Done || !strings.Contains(answer, "<title>Rations side by side</title>") || strings.Count(answer, `<th scope="col">Jonas and Siri</th>`) != n {
			t.Errorf("%d plans: %d, %s", n, code, said)
		}
	}
	if code, _, said := ran("report", "--plan", writer(t, t.TempDir())("none.json", "{}")); code != exit.BadInput || !strings.Contains(said, "none.json") {
		t.Errorf("what is no plan: %d, %s", code, said)
	}
}

// TestQuestionsAboutAPlan: what each command needs is asked for before the plan is read; what
// decides a plan is refused beside one; who is not its household is told.
func TestQuestionsAboutAPlan(t *testing.T) {
	plan := planFile(t)
	other := writer(t, t.TempDir())("other.csv", "name,age_years,sex\nJonas,36,m\nSiri,35,f\n")
	same := writer(t, t.TempDir())("same.csv", "name,age_years,sex\nJonas,36,m\nSiri,34,f\n")
	refused(t, exit.Usage, map[string]string{
		"why": "say which plan", "swap": "say which plan", "swap --plan x": "say what to change", "swap --plan x --keep rice": "say what to change", "swap --plan x --instead-of rice --drop oats": "--instead-of only looks", "swap --plan x --instead-of rice --keep oats": "--instead-of only looks",
		"swap --plan x --instead-of rice --reduce oats=50%": "--instead-of only looks", "swap --plan x --reduce rice": "write the food, =, and its share",
		"stores tread": `there is no command "stores tread"; did you mean treat?`, "stores --plan x --days 3": "--days cannot go with --plan", "stores --plan - --shelves -": "--plan and --shelves cannot all read standard input",
		"rotate": "say what is in store", "rotate --stock x --earlier y": "--earlier goes with --format ics only", "rotate --stock x --start soon": `--start "soon"`, "rotate --plan " + plan + " --foods x": "--foods and --prices cannot go with --plan", "rotate --plan " + plan + " --prices x": "--foods and --prices cannot go with --plan",
		"check": "say what is in store", "check --stock x --least cost": "--least cannot go with check", "export x": `takes no argument such as "x"`,
		"plan --with-menu --compare": "--with-menu makes one plan", "plan --with-menu --show-model": "--with-menu makes one plan", "plan --with-menu --audit": "--with-menu makes one plan", "plan --with-menu --shelves x": "--with-menu makes one plan",
		"plan --dishes x --dish-parts y": "go with --with-menu here", "plan --dishes x": "go with --with-menu here", "plan --with-menu --dishes x": "--dishes and --dish-parts go together",
		"plan --frontier cost-weight": "--frontier goes with --compare", "plan --plot x.svg": "--plot draws a frontier", "plan --compare --plot x.svg": "--plot draws a frontier", "plan --compare --frontier cost-weight --plot x.pdf": "must end in .png or .svg", "plan --compare --least cost": "--least cannot go with --compare",
	})
	refused(t, exit.BadInput, map[string]string{
		"stores --plan " + plan + " --household " + other: "other.csv is not the household of the plan", "swap --plan " + plan + " --drop zwrnk": "zwrnk", "swap --plan " + plan + " --drop rice --keep zwrnk": "zwrnk", "swap --plan " + plan + " --reduce zwrnk=50%": "zwrnk",
		"swap --plan " + plan + " --instead-of zwrnk": "zwrnk", "why --plan " + plan + " --food zwrnk": "zwrnk", "why --plan none.json": "none.json", "rotate --plan " + plan + " --format ics --earlier none.ics": "--earlier: ",
	})
	if code, answer, said := ran("stores", "--plan", plan, "--household", same, "--altitude", "1000ft", "--devices", "2", "--stove", "charcoal"); code != exit.Done || !strings.Contains(answer, "at 305 m") || !strings.Contains(answer, "charcoal") { // 304.8 m
		t.Errorf("%d, %s\n%s", code, said, answer)
	}
	if _, answer, _ := ran("stores", "--plan", plan); strings.Contains(answer, " boil of 1 min at ") {
		t.Errorf("an altitude that nobody said:\n%s", answer)
	}
	for plot, want := range map[string]string{"a.svg": "svg", "a.PNG": "png", "a.pdf": "", "svg": "", "": ""} {
		if got := (&comparing{plot: plot}).form(); got != want {
			t.Errorf("%q is drawn as %q, want %q", plot, got, want)
		}
	}
	if code, answer, said := ran("why", "--plan", plan, "--food", "rice", "--format", "csv"); code != exit.Done || strings.Count(answer, "\npack,") == 0 || strings.Contains(answer, "oats") {
		t.Errorf("%d, %s\n%.500s", code, said, answer)
	}
}

// TestRotationOfAPlan: one made for a hot climate is stored at 32 °C, unless another temperature
// is said; months go into the list by month.
func TestRotationOfAPlan(t *testing.T) {
	plan := planFile(t)
	stock := writer(t, t.TempDir())("stock.csv", "pack,count,best_before\nwhite-rice-907g-bag,4,2027-01-01\n")
	for _, c := range []struct {
		args   string
		temp   float64
		months int
		demo   ration.Demo
	}{
		{"--plan " + plan, 32, 12, ration.Demo{Prices: true}}, {"--plan " + plan + " --temp 10", 10, 12, ration.Demo{Prices: true}}, {"--plan " + plan + " --stock " + stock + " --months 120", 32, 120, ration.Demo{Prices: true}},
		{"--stock " + stock + " --months 1", 21, 1, ration.Demo{Prices: true}}, {"--stock " + stock + " --temp 50F", 10, 12, ration.Demo{Prices: true}},
	} {
		code, answer, said := ran(strings.Fields("rotate --format json --start 2026-02-03 " + c.args)...)
		var r struct {
			Start  string      `json:"start"`
			TempC  float64     `json:"temp_c"`
			Months int         `json:"months"`
			Demo   ration.Demo `json:"demo"`
		}
		if err := json.Unmarshal([]byte(answer), &r); err != nil || code != exit.Done || r.Start != "2026-02-03" || r.TempC < c.temp-1e-9 || r.TempC > c.temp+1e-9 || r.Months != c.months || r.Demo != c.demo {
			t.Errorf("%s: %d, %v, %s, %+v, want %g degrees, %d months", c.args, code, err, said, r, c.temp, c.months)
		}
	}
	dir := t.TempDir()
	first, second := filepath.Join(dir, "first.ics"), filepath.Join(dir, "second.ics")
	for _, args := range [][]string{{"--out", first}, {"--earlier", first, "--out", second}} {
		if code, _, said := ran(append([]string{"rotate", "--stock", stock, "--start", "2026-02-03", "--format", "ics"}, args...)...); code != exit.Done {
			t.Fatalf("%d, %s", code, said)
		}
	}
	a, err := os.ReadFile(first)
	b, err2 := os.ReadFile(second)
	if err != nil || err2 != nil || !bytes.Equal(a, b) || !bytes.Contains(a, []byte("BEGIN:VEVENT")) {
		t.Errorf("the same stock gives other events: %v, %v", err, err2)
	}
	if code, _, said := ran("rotate", "--stock", stock, "--format", "ics", "--earlier", stock); code != exit.BadInput || !strings.Contains(said, stock+": ") {
		t.Errorf("what is no calendar: %d, %s", code, said)
	}
}

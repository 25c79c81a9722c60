//go:build solvers

package solver

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"rationwright/solver/branch"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// The race: the product's own models by this engine and by general solvers, in
// one run. See DEVELOPERS.md for the command. It compares and prints; it fails
// only where a solver is missing or where two proofs contradict each other.
var (
	racePeople  = flag.String("race-people", "1", "people of the models, as 1,2,3,5,8")
	raceLeast   = flag.String("race-least", "cost,weight,volume", "objectives of the models")
	raceSeconds = flag.String("race-seconds", "1,5", "seconds after which the gaps are read, as 1,5,30")
	raceHighs   = flag.String("race-highs", os.Getenv("HIGHS_DIR"), "folder in which npm has installed highs; empty: without it")
	raceScip    = flag.String("race-scip", os.Getenv("SCIP_DIR"), "folder in which npm has installed or-tools-wasm, which holds SCIP; empty: without it")
)

// racer is one solver: after that many seconds on that model, its best value
// and its bound; NaN where it has none.
type racer struct {
	name string
	run  func(t *testing.T, mps string, seconds float64, gap float64) stand
}

// stand is where a solver stands when it stops.
type stand struct {
	value, bound float64
	seconds      float64
}

func (s stand) gap() float64 {
	if math.IsNaN(s.value) || math.IsNaN(s.bound) {
		return math.Inf(1)
	}
	return math.Max(0, (s.value-s.bound)/math.Max(math.Abs(s.value), 1e-9))
}

func TestRace(t *testing.T) {
	racers := []racer{{"glpsol", runGLPK}, {"cbc", runCBC}}
	for _, r := range racers {
		if _, err := exec.LookPath(r.name); err != nil {
			t.Fatalf("%s is missing: apt-get install glpk-utils coinor-cbc", r.name)
		}
	}
	if *raceHighs != "" {
		racers = append(racers, racer{"highs", runHighs})
	}
	if *raceScip != "" {
		racers = append(racers, racer{"scip", runScip})
	}
	var out strings.Builder
	fmt.Fprintf(&out, "\n%-16s %7s", "model", "seconds")
	for _, name := range append([]string{"ours"}, names2(racers)...) {
		fmt.Fprintf(&out, " %22s", name)
	}
	fmt.Fprintf(&out, "  %s\n", "ours ÷ best gap")
	for _, n := range numbers(t, *racePeople) {
		for _, least := range strings.Split(*raceLeast, ",") {
			raceModel(t, &out, racers, int(n), ration.Least(least))
		}
	}
	t.Log(out.String())
}

func names2(racers []racer) []string {
	var list []string
	for _, r := range racers {
		list = append(list, r.name)
	}
	return list
}

func numbers(t *testing.T, list string) []float64 {
	var out []float64
	for _, word := range strings.Split(list, ",") {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

func raceModel(t *testing.T, out *strings.Builder, racers []racer, people int, least ration.Least) {
	m, err := model.Build(&ration.Request{People: rationtest.Islanders(people), Table: rationtest.Table(t), Least: least, Start: "2026-11-25"})
	if err != nil {
		t.Fatal(err)
	}
	plain := plainNames(m.Problem.Clone())
	file := filepath.Join(t.TempDir(), "model.mps")
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := linear.WriteMPS(f, plain); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	for _, seconds := range numbers(t, *raceSeconds) {
		stands := []stand{runOurs(m, seconds)}
		for _, other := range racers {
			stands = append(stands, other.run(t, file, seconds, 1e-4))
		}
		fmt.Fprintf(out, "%-16s %7.0f", fmt.Sprintf("%d %s", people, least), seconds)
		best := math.Inf(1)
		for i, s := range stands {
			fmt.Fprintf(out, " %22s", describe(s))
			if i > 0 {
				best = math.Min(best, s.gap())
			}
		}
		fmt.Fprintf(out, "  %.2f\n", stands[0].gap()/best)
		for i, a := range stands {
			for j, b := range stands {
				if a.value < b.bound-1e-6*math.Max(1, math.Abs(b.bound)) {
					t.Errorf("%d %s: solver %d has a plan of %.9g where solver %d proves %.9g", people, least, i, a.value, j, b.bound)
				}
			}
		}
	}
}

// describe writes value, bound and gap of one stand.
func describe(s stand) string {
	if math.IsNaN(s.value) {
		return fmt.Sprintf("none/%.2f", s.bound)
	}
	return fmt.Sprintf("%.2f/%.2f %.2f%%", s.value, s.bound, 100*s.gap())
}

// plainNames renames rows and columns to what every solver reads.
func plainNames(p *linear.Problem) *linear.Problem {
	for i := range p.Rows {
		p.Rows[i].Name = fmt.Sprintf("r%d", i)
	}
	for j := range p.Cols {
		p.Cols[j].Name = fmt.Sprintf("c%d", j)
	}
	return p
}

func runOurs(m *model.Model, seconds float64) stand {
	start := time.Now()
	ctx, stop := context.WithTimeout(context.Background(), time.Duration(seconds*float64(time.Second)))
	defer stop()
	result := branch.Solve(ctx, m.Problem, branch.Options{Gap: 1e-4, MinDenom: ration.SmallestStep(m.Request.Least)})
	s := stand{value: math.NaN(), bound: result.Bound, seconds: time.Since(start).Seconds()}
	if result.X != nil {
		s.value = result.Value
	}
	return s
}

// output runs a command for at most some seconds more than it should take.
func output(t *testing.T, seconds float64, name string, args ...string) string {
	ctx, cancel := context.WithTimeout(context.Background(), time.Duration((seconds+20)*float64(time.Second)))
	defer cancel()
	var out bytes.Buffer
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Stdout, cmd.Stderr = &out, &out
	if err := cmd.Run(); err != nil && ctx.Err() == nil && out.Len() == 0 {
		t.Logf("%s: %v", name, err)
	}
	return out.String()
}

// last is the number in the last match of a pattern, NaN where there is none.
func last(text, pattern string) float64 {
	found := regexp.MustCompile(pattern).FindAllStringSubmatch(text, -1)
	if len(found) == 0 {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(found[len(found)-1][1], 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

const number = `([-+]?[0-9.]+(?:e[-+]?[0-9]+)?)`

func runGLPK(t *testing.T, mps string, seconds, gap float64) stand {
	start := time.Now()
	text := output(t, seconds, "glpsol", "--freemps", mps, "--tmlim", fmt.Sprint(int(seconds)),
		"--mipgap", fmt.Sprint(gap), "--gomory", "--mir", "--cover")
	s := stand{
		value:   last(text, `(?:mip =|>>>>>)\s+`+number+` >=`),
		bound:   last(text, `(?:mip =|>>>>>)\s+\S+ >=\s+`+number),
		seconds: time.Since(start).Seconds(),
	}
	if math.IsNaN(s.bound) {
		s.bound = last(text, `not found yet >=\s+`+number)
	}
	return s
}

func runCBC(t *testing.T, mps string, seconds, gap float64) stand {
	start := time.Now()
	text := output(t, seconds, "cbc", mps, "-seconds", fmt.Sprint(seconds), "-ratioGap", fmt.Sprint(gap), "-timeMode", "elapsed", "-solve", "-quit")
	s := stand{
		value:   last(text, `Objective value:\s+`+number),
		bound:   last(text, `Lower bound:\s+`+number),
		seconds: time.Since(start).Seconds(),
	}
	if math.IsNaN(s.bound) && strings.Contains(text, "Optimal solution found") {
		s.bound = s.value * (1 - gap)
	}
	if math.IsNaN(s.bound) {
		s.bound = last(text, `best possible `+number)
	}
	return s
}

// highsScript solves a model by the WebAssembly build of HiGHS and prints its
// value and bound.
const highsScript = `
const load = require(process.argv[2] + "/node_modules/highs");
const fs = require("fs");
load().then((highs) => {
  const model = highs.createModel({ format: "mps", data: fs.readFileSync(process.argv[3]) });
  model.options.set({ time_limit: Number(process.argv[4]), mip_rel_gap: Number(process.argv[5]), output_flag: false });
  model.run();
  console.log("value " + model.getObjectiveValue() + " bound " + model.info.get("mip_dual_bound"));
});
`

func runHighs(t *testing.T, mps string, seconds, gap float64) stand {
	script := filepath.Join(t.TempDir(), "run.js")
	if err := os.WriteFile(script, []byte(highsScript), 0o644); err != nil {
		t.Fatal(err)
	}
	return runNode(t, script, *raceHighs, mps, seconds, gap)
}

// runScip solves a model by the WebAssembly build of SCIP.
func runScip(t *testing.T, mps string, seconds, gap float64) stand {
	script, err := filepath.Abs("../testdata/solvers/scip.mjs")
	if err != nil {
		t.Fatal(err)
	}
	return runNode(t, script, *raceScip, mps, seconds, gap)
}

// runNode runs a script that prints value and bound of a model. A build for WebAssembly
// says 0 or a huge number where it has no solution, which no model here has.
func runNode(t *testing.T, script, packages, mps string, seconds, gap float64) stand {
	dir, err := filepath.Abs(packages)
	if err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	text := output(t, seconds, "node", script, dir, mps, fmt.Sprint(seconds), fmt.Sprint(gap))
	s := stand{value: last(text, `value `+number), bound: last(text, `bound `+number), seconds: time.Since(start).Seconds()}
	if math.IsNaN(s.bound) {
		t.Logf("%s says nothing: %.300s", filepath.Base(script), text)
	}
	if s.value == 0 || math.Abs(s.value) > 1e20 {
		s.value = math.NaN()
	}
	return s
}

package referee_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"rationwright/solver/linear"
)

// General solvers that the answers are compared with when they are installed.
// Where they must be (a build machine), CI_SOLVERS=1 makes their absence a
// failure instead of a skip.
var solvers = []struct {
	name string
	run  func(t testing.TB, program, folder, model string) (status string, value float64)
}{
	{"glpsol", runGLPK},
	{"cbc", runCBC},
}

// runGLPK runs GLPK's stand-alone solver (written for version 5.0) and reads
// the "s" line of its raw solution file, or the verdict in its log.
func runGLPK(t testing.TB, program, folder, model string) (string, float64) {
	t.Helper()
	out := filepath.Join(folder, "glpk.sol")
	log, err := exec.Command(program, "--freemps", model, "--nopresol", "--tmlim", "20", "-w", out).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, log)
	}
	for _, said := range []struct{ words, status string }{
		{"NO PRIMAL FEASIBLE", "infeasible"},
		{"NO FEASIBLE", "infeasible"},
		{"NO INTEGER FEASIBLE", "infeasible"},
		{"UNBOUNDED PRIMAL", "unbounded"},
		{"NO DUAL FEASIBLE", "unbounded or infeasible"},
		{"TIME LIMIT", "limit"},
	} {
		if strings.Contains(string(log), said.words) {
			return said.status, 0
		}
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%v\n%s", err, log)
	}
	for _, line := range strings.Split(string(data), "\n") {
		f := strings.Fields(line)
		if len(f) < 6 || f[0] != "s" {
			continue
		}
		value, err := strconv.ParseFloat(f[len(f)-1], 64)
		if optimal := f[1] == "bas" && f[4] == "f" && f[5] == "f" || f[1] == "mip" && f[4] == "o"; optimal && err == nil {
			return "optimal", value
		}
		if f[1] == "bas" && f[4] == "f" && f[5] == "n" {
			return "unbounded", 0
		}
		return "unknown: " + line, 0
	}
	return "unknown", 0
}

// runCBC runs CBC (written for version 2.10) and reads the first line of its
// solution file.
func runCBC(t testing.TB, program, folder, model string) (string, float64) {
	t.Helper()
	out := filepath.Join(folder, "cbc.sol")
	log, err := exec.Command(program, model, "-ratioGap", "0", "-allowableGap", "0", "-seconds", "20", "-solve", "-solution", out).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, log)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%v\n%s", err, log)
	}
	first, _, _ := strings.Cut(string(data), "\n")
	verdict, rest, _ := strings.Cut(first, " - objective value")
	switch verdict {
	case "Optimal":
		if value, err := strconv.ParseFloat(strings.TrimSpace(rest), 64); err == nil {
			return "optimal", value
		}
	case "Infeasible", "Integer infeasible":
		return "infeasible", 0
	case "Unbounded":
		return "unbounded", 0
	case "Stopped on difficulties": // as it says of programs that are both
		return "unbounded or infeasible", 0
	}
	return "unknown: " + first, 0
}

// plainModel writes p the way all of them read it: minimising (GLPK and CBC
// pass over OBJSENSE), without a constant (GLPK gives it the other sign), and
// with whole bounds for integer columns (GLPK insists). A value of the model
// becomes one of p by back. It returns false if rounding bounds leaves an
// integer column nothing.
func plainModel(t testing.TB, p *linear.Problem, path string) (back func(float64) float64, ok bool) {
	t.Helper()
	q := p.Clone()
	sign := 1.0
	if q.Maximize {
		sign = -1
	}
	q.Maximize, q.Offset = false, 0
	for j := range q.Cols {
		c := &q.Cols[j]
		c.Cost *= sign
		if c.Integer {
			c.Lower, c.Upper = math.Ceil(c.Lower-1e-9), math.Floor(c.Upper+1e-9)
			if c.Lower > c.Upper {
				return nil, false
			}
		}
	}
	var b bytes.Buffer
	if err := linear.WriteMPS(&b, q); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return func(v float64) float64 { return sign*v + p.Offset }, true
}

// Random programs, continuous and mixed, solved by general solvers from files
// that WriteMPS wrote: so this compares the engines, and what other programs
// make of our MPS.
func TestRandomAgainstSolvers(t *testing.T) {
	for _, s := range solvers {
		t.Run(s.name, func(t *testing.T) {
			program, err := exec.LookPath(s.name)
			if err != nil {
				if os.Getenv("CI_SOLVERS") == "1" {
					t.Fatal(err)
				}
				t.Skip("not installed")
			}
			folder := t.TempDir()
			model := filepath.Join(folder, "model.mps")
			rng := rand.New(rand.NewPCG(mipSeed, lpSeed))
			seen := map[string]int{}
			overruled := 0
			for k := range 3 * *campaign {
				list := families
				if k%3 == 2 {
					list = structured
				}
				for _, f := range list {
					if f.name == "almost feasible" {
						// Outside by a thousandth is feasible enough for GLPK's integer
						// preprocessor, and "difficulties" to CBC.
						continue
					}
					p := f.make(rng)
					var got answer
					switch k % 3 {
					case 0:
						got = lpAnswer(solveLP(t, p))
					case 1:
						p = integers(p, rng)
						got = mipAnswer(solveMIP(t, p))
					default:
						got = mipAnswer(solveMIP(t, p))
					}
					want, value := "infeasible", 0.0
					if back, ok := plainModel(t, p, model); ok {
						want, value = s.run(t, program, folder, model)
						value = back(value)
					}
					seen[want]++
					switch {
					case want == got.status && (want != "optimal" || near(got.value, value)):
					case want == "unbounded or infeasible" && strings.Contains(want, got.status):
					case s.name == "cbc" && got.status == "unbounded":
						// CBC calls about a third of these infeasible, "difficulties", or
						// optimal at −1e11. What the engine says has been proven above, by
						// a point and a direction; GLPK agrees on all of them.
						overruled++
					default:
						t.Errorf("%s: %s says %s %.10g, the engine %s %.10g", f.name, s.name, want, value, got.status, got.value)
					}
					if t.Failed() {
						show(t, p)
						return
					}
				}
			}
			t.Logf("%v, overruled %d", seen, overruled)
		})
	}
}

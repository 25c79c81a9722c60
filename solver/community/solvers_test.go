//go:build solvers

package community

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/model"
)

// outside are general solvers and how they are asked; found finds the value in what
// they say.
var outside = []struct {
	program string
	args    func(file string) []string
	found   *regexp.Regexp
}{
	{"glpsol", func(file string) []string {
		return []string{"--freemps", file, "--mipgap", "0.001", "--tmlim", "60", "-o", "/dev/stdout"}
	}, regexp.MustCompile(`Objective:\s+\S+ = ([-+0-9.eE]+)`)},
	{"cbc", func(file string) []string { return []string{file, "ratio", "0.001", "sec", "60", "solve", "quit"} }, regexp.MustCompile(`Objective value:\s+([-+0-9.eE]+)`)},
}

// What is shared agrees with the joint program as general solvers solve it: at its
// level the money, and without one the level. Where they must be there (a build
// machine), CI_SOLVERS=1 makes their absence a failure.
func TestAgreesWithGeneralSolvers(t *testing.T) {
	budget := 20.0
	requests := small(t, 1, "white-rice-907g-bag,3,2028-01-01,,,", "canned-kidney-beans-439g-can,8,2028-01-01,,,", "peanut-butter-454g-jar,2,2028-01-01,,,")
	s, err := Make(t.Context(), &Request{Households: requests, Budget: &budget})
	if err != nil {
		t.Fatal(err)
	}
	var programs []*program
	for _, req := range requests {
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		programs = append(programs, newProgram(m))
	}
	const gap = 2e-3 // theirs and ours
	for _, solver := range outside {
		t.Run(solver.program, func(t *testing.T) {
			if _, err := exec.LookPath(solver.program); err != nil {
				if os.Getenv("CI_SOLVERS") == "1" {
					t.Fatal(err)
				}
				t.Skip(err)
			}
			ask := func(level *float64) float64 {
				file := filepath.Join(t.TempDir(), "joint.mps")
				out, err := os.Create(file)
				if err != nil {
					t.Fatal(err)
				}
				p := joint(programs, amounts(requests[0].Stock), budget, level)
				for i := range p.Rows {
					p.Rows[i].Name = fmt.Sprintf("R%d", i)
				}
				for j := range p.Cols {
					p.Cols[j].Name = fmt.Sprintf("C%d", j)
				}
				if err := linear.WriteMPS(out, p); err != nil {
					t.Fatal(err)
				}
				if err := out.Close(); err != nil {
					t.Fatal(err)
				}
				text, err := exec.Command(solver.program, solver.args(file)...).CombinedOutput()
				if err != nil {
					t.Fatalf("%v: %s", err, text)
				}
				said := solver.found.FindSubmatch(text)
				if said == nil {
					t.Fatalf("no value in %s", text)
				}
				value, err := strconv.ParseFloat(string(said[1]), 64)
				if err != nil {
					t.Fatal(err)
				}
				return value
			}
			if level := -ask(nil); level > s.LevelBound*(1+gap) || s.Level > level*(1+gap) {
				t.Errorf("level %g of at most %g, %s says %g", s.Level, s.LevelBound, solver.program, level)
			}
			if cost := ask(&s.Level); cost < s.CostBound*(1-gap) || s.Cost < cost*(1-gap) {
				t.Errorf("cost %g of at least %g, %s says %g", s.Cost, s.CostBound, solver.program, cost)
			}
		})
	}
}

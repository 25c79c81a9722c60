//go:build solvers

package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/branch"
	"rationwright/solver/ration"
)

// What growth costs: twice the people, twice the foods, 40 people, 1,000 foods.
// It prints times and ratios of one run; see DEVELOPERS.md for the command. It
// fails only where no plan is found.
func TestGrowth(t *testing.T) {
	all := table(t)
	var out strings.Builder
	fmt.Fprintf(&out, "\n%-24s %6s %6s %8s %9s %9s %7s\n", "model", "rows", "cols", "seconds", "value", "bound", "gap")
	measure := func(name string, people int, foods *foods.Table, gap float64) float64 {
		r, err := Build(&ration.Request{People: crowd(people), Table: foods, Least: ration.LeastWeight, Start: "2026-11-25"})
		if err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		result := branch.Solve(context.Background(), r.Problem, branch.Options{Gap: gap, MinDenom: 0.001, Time: 3 * time.Minute})
		seconds := time.Since(start).Seconds()
		if result.X == nil {
			t.Errorf("%s: no plan", name)
		}
		fmt.Fprintf(&out, "%-24s %6d %6d %8.2f %9.2f %9.2f %6.2f%%\n", name, len(r.Problem.Rows), len(r.Problem.Cols),
			seconds, result.Value, result.Bound, 100*result.Gap)
		return seconds
	}
	five := measure("5 people", 5, all, 0.01)
	ten := measure("10 people", 10, all, 0.01)
	double := measure("5 people, foods x2", 5, moreFoods(all, 2*len(all.Foods)), 0.01)
	measure("40 people", 40, all, 0.01)
	measure("5 people, 1,000 foods", 5, moreFoods(all, 1000), 0.01)
	fmt.Fprintf(&out, "people x2: time x%.1f; foods x2: time x%.1f\n", ten/five, double/five)
	t.Log(out.String())
}

// crowd draws invented adults and children, no two alike.
func crowd(n int) []nutrients.Person {
	rng := rand.New(rand.NewPCG(40, 14))
	people := islanders(min(n, 8))
	for i := len(people); i < n; i++ {
		sex := []nutrients.Sex{nutrients.Female, nutrients.Male}[i%2]
		people = append(people, adult(fmt.Sprintf("islander %d", i+1), 9+rng.IntN(80), sex))
	}
	return people
}

// moreFoods adds foods that are like those of the table, each nutrient and
// price up to a tenth off.
func moreFoods(all *foods.Table, count int) *foods.Table {
	rng := rand.New(rand.NewPCG(1000, 14))
	more := all.Clone()
	for i := 0; len(more.Foods) < count; i++ {
		f := *all.Foods[i%len(all.Foods)]
		if len(f.Packs) == 0 {
			continue
		}
		f.NDB, f.Name, f.Computed = fmt.Sprintf("G%04d", i), fmt.Sprintf("%s, kind %d", f.Name, i), true
		for n := range f.Per100g {
			f.Per100g[n] *= 0.9 + 0.2*rng.Float64()
		}
		packs := f.Packs
		f.Packs = nil
		for _, k := range packs {
			p := *k
			p.Food, p.Key, p.Price = &f, fmt.Sprintf("%s-%d", k.Key, i), k.Price*(0.9+0.2*rng.Float64())
			f.Packs = append(f.Packs, &p)
			more.Packs = append(more.Packs, &p)
		}
		more.Foods = append(more.Foods, &f)
	}
	return more
}

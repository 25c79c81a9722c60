package solver

import (
	"context"
	"fmt"
	"os"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
)

func tryPeople() []nutrients.Person {
	mk := func(name string, age int, sex nutrients.Sex) nutrients.Person {
		return nutrients.Person{Name: name, AgeMonths: age * 12, YearsOnly: true, Sex: sex, Activity: nutrients.LowActive, Count: 1}
	}
	return []nutrients.Person{mk("Anna", 36, "f"), mk("Bo", 39, "m"), mk("Cai", 15, "m"), mk("Dag", 8, "m"), mk("Eva", 68, "f")}
}

func TestTry(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []int{1, 2, 5} {
		for _, least := range []Least{LeastCost, LeastWeight, LeastVolume} {
			req := &Request{People: tryPeople()[:n], Table: table, Least: least, Start: "2026-11-25", Time: 10 * time.Second}
			r, err := Build(req)
			if err != nil {
				t.Fatal(err)
			}
			nz := 0
			for _, c := range r.Problem.Cols {
				nz += len(c.Entries)
			}
			fmt.Println(n, least, "rows", len(r.Problem.Rows), "cols", len(r.Problem.Cols), "nz", nz)
			f, _ := os.Create(fmt.Sprintf("/tmp/models/p%d_%s.mps", n, least))
			linear.WriteMPS(f, r.Problem)
			f.Close()
			start := time.Now()
			p, err := Make(context.Background(), req, nil)
			fmt.Println(time.Since(start), err)
			if err != nil {
				continue
			}
			fmt.Println(p.Status, p.Stopped, "conflict", p.Conflict)
			if p.Value != nil {
				fmt.Printf("value %.3f bound %.3f gap %.4f packs %d\n", *p.Value, *p.Bound, *p.Gap, len(p.Packs))
			}
		}
	}
}

func TestCount(t *testing.T) {
	table, _ := foods.Load()
	r, _ := Build(&Request{People: tryPeople()[:5], Table: table})
	kinds := map[rowKind][2]int{}
	nzr := make([]int, len(r.rows))
	for _, c := range r.Problem.Cols {
		for _, e := range c.Entries {
			nzr[e.Row]++
		}
	}
	for i, info := range r.rows {
		k := kinds[info.kind]
		k[0]++
		k[1] += nzr[i]
		kinds[info.kind] = k
	}
	fmt.Println(kinds)
	ck := map[colKind]int{}
	for _, c := range r.cols {
		ck[c.kind]++
	}
	fmt.Println(ck)
}

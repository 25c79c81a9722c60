package plan

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"time"

	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// farWarm is how much more than one from nothing a plan from the packs of the one before
// may cost after one change, with hardly any work for the search: it is luck then which of
// the two is better, and over all changes it is the former.
const farWarm = 0.05

// A plan made from the packs of the one before a change passes the check, is the same
// each time, and with hardly any work for the search costs over all changes no more than
// those made from nothing with as much: who likes fish no more, who is older, who is gone,
// in households of one to four.
func TestWarmStart(t *testing.T) {
	warmed, chilled := 0.0, 0.0
	for n := 1; n <= 4; n++ {
		people := rationtest.Islanders(n)
		req := &ration.Request{People: people, Table: rationtest.Table(t), Start: "2026-11-25", Within: 0.01, Time: time.Minute, Work: 12000}
		before, err := Make(context.Background(), req, nil)
		if err != nil {
			t.Fatal(err)
		}
		changes := map[string]func(r *ration.Request){
			"none":    func(*ration.Request) {},
			"dislike": func(r *ration.Request) { r.People[0].Dislikes = []string{"canned fish"} },
			"older":   func(r *ration.Request) { r.People[n-1].AgeMonths = 72 * 12 },
			"without": func(r *ration.Request) { r.Without = []string{before.Packs[0].Food} },
		}
		if n > 1 {
			changes["gone"] = func(r *ration.Request) { r.People = r.People[:n-1] }
		}
		for name, change := range changes {
			t.Run(fmt.Sprintf("%d %s", n, name), func(t *testing.T) {
				one := *req
				one.People, one.Work = slices.Clone(people), 200
				change(&one)
				cold, err := Make(context.Background(), &one, nil)
				if err != nil {
					t.Fatal(err)
				}
				one.WarmStart = before.Bought()
				warm, err := Make(context.Background(), &one, nil)
				if err != nil {
					t.Fatal(err)
				}
				for _, v := range verify.Check(&one, warm) {
					t.Error(v)
				}
				warmed, chilled = warmed + *warm.Value / *cold.Value, chilled+1
				if *warm.Value > *cold.Value*(1+farWarm) {
					t.Errorf("from the plan before: %.2f, from nothing: %.2f", *warm.Value, *cold.Value)
				}
				if name == "none" && *warm.Value > *before.Value*(1+1e-4) {
					t.Errorf("nothing changed: %.4f after %.4f", *warm.Value, *before.Value)
				}
				again, err := Make(context.Background(), &one, nil)
				if err != nil {
					t.Fatal(err)
				}
				a, _ := json.Marshal(warm)
				if b, _ := json.Marshal(again); string(a) != string(b) {
					t.Error("the same request gave another plan")
				}
			})
		}
	}
	t.Logf("over %.0f changes %.4f of the plans made from nothing", chilled, warmed/chilled)
	if warmed > chilled {
		t.Errorf("over %.0f changes %.4f of the plans made from nothing", chilled, warmed/chilled)
	}
}

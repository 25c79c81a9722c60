package plan

import (
	"context"
	"encoding/json"
	"slices"
	"testing"
	"time"

	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// A plan made from the packs of the one before a change passes the check, is the same
// each time, and with hardly any work for the search costs no more than one made from
// nothing with as much: who likes fish no more, who is older, who is gone.
func TestWarmStart(t *testing.T) {
	people := rationtest.Islanders(2)
	req := &ration.Request{People: people, Table: rationtest.Table(t), Start: "2026-11-25", Within: 0.01, Time: time.Minute, Work: 12000}
	before, err := Make(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	changes := map[string]func(r *ration.Request){
		"none":    func(*ration.Request) {},
		"dislike": func(r *ration.Request) { r.People[0].Dislikes = []string{"canned fish"} },
		"older":   func(r *ration.Request) { r.People[1].AgeMonths = 72 * 12 },
		"without": func(r *ration.Request) { r.Without = []string{before.Packs[0].Food} },
		"gone":    func(r *ration.Request) { r.People = r.People[:1] },
	}
	warmed, chilled := 0.0, 0.0
	for name, change := range changes {
		t.Run(name, func(t *testing.T) {
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
			warmed, chilled = warmed+*warm.Value, chilled+*cold.Value
			if *warm.Value > *cold.Value*1.03 { // a search from elsewhere may end a little worse
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
	if warmed > chilled {
		t.Errorf("all changes from the plan before: %.2f, from nothing: %.2f", warmed, chilled)
	}
}

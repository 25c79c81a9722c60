package solver

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/recheck"
	"rationwright/solver/stockpile"
	"rationwright/solver/swap"
	"rationwright/solver/why"
)

// written is a small plan as JSON, read as plain data.
func written(t *testing.T) []byte {
	t.Helper()
	two := rationtest.Adult("Signe", 30, nutrients.Female)
	two.Count = 2
	refused := rationtest.Adult("Arne", 66, nutrients.Male)
	refused.Conditions = []nutrients.Condition{"kidney-disease"}
	plan := plantest.MustMake(t, &ration.Request{
		People: []nutrients.Person{two, refused}, Table: rationtest.Table(t), Least: ration.LeastWeight,
		Days: 14, Within: 0.1, Time: time.Minute, Start: "2026-11-25",
	})
	text, err := json.Marshal(plan)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// reread reads a plan and checks it as the program does with a file.
func reread(text []byte) error {
	plan, err := ration.ReadPlan(strings.NewReader(string(text)))
	if err != nil {
		return err
	}
	req, err := plan.Request.Load()
	if err != nil {
		return err
	}
	return recheck.Recheck(req, plan)
}

// A plan is taken back as it was written; any amount, count or name in its packs,
// its people's food and its totals that is another is refused, whatever it is
// changed to, even with digests made anew, and nothing panics.
func TestTamperedPlansAreRefused(t *testing.T) {
	text := written(t)
	if err := reread(text); err != nil {
		t.Fatalf("as it was written: %v", err)
	}
	var fresh map[string]any
	if err := json.Unmarshal(text, &fresh); err != nil {
		t.Fatal(err)
	}
	// walk visits every leaf under v, with a function that changes it.
	var walk func(path string, v any, set func(any), visit func(path string, v any, set func(any)))
	walk = func(path string, v any, set func(any), visit func(string, any, func(any))) {
		switch v := v.(type) {
		case map[string]any:
			var keys []string
			for k := range v {
				keys = append(keys, k)
			}
			slices.Sort(keys)
			for _, k := range keys {
				walk(path+"."+k, v[k], func(x any) {
					if x == nil {
						delete(v, k)
					} else {
						v[k] = x
					}
				}, visit)
			}
		case []any:
			for i := range v {
				walk(fmt.Sprintf("%s[%d]", path, i), v[i], func(x any) { v[i] = x }, visit)
			}
		default:
			visit(path, v, set)
		}
	}
	tried := 0
	try := func(path string, v any, set func(any), to any, must bool) {
		set(to)
		edited, err := json.Marshal(fresh)
		if err != nil {
			t.Fatal(err)
		}
		var plan map[string]any // through JSON once more, so that only what a reader sees counts
		if err := json.Unmarshal(edited, &plan); err != nil {
			t.Fatal(err)
		}
		if plan["digest"], err = ration.Digests(plan); err != nil {
			t.Fatal(err)
		}
		changed, err := json.Marshal(plan)
		if err != nil {
			t.Fatal(err)
		}
		if err := reread(changed); err == nil && must {
			t.Errorf("%s: %v for %v was taken", path, to, v)
		} else if err != nil && strings.Contains(err.Error(), "Go ") {
			t.Errorf("%s: %v for %v: %v", path, to, v, err)
		}
		set(v)
		tried++
	}
	for _, part := range []string{"packs", "people", "totals", "value", "refused", "days", "least", "standard", "status"} {
		walk(part, fresh[part], func(x any) {
			if x == nil {
				delete(fresh, part)
			} else {
				fresh[part] = x
			}
		}, func(path string, v any, set func(any)) {
			switch v := v.(type) {
			case float64:
				// Of the part of stock and the water on hand there is none here.
				must := !strings.Contains(path, "carbohydrate_per_meal")
				for _, to := range []any{-v, 5 * v, 1.01 * v, "x"} {
					if to == any(v) { // nothing is changed
						continue
					}
					try(path, v, set, to, must && v != 0)
				}
			case string:
				must := strings.HasSuffix(path, ".pack") || strings.HasSuffix(path, "].name") || strings.HasSuffix(path, ".food") || part == "least"
				for _, to := range []any{"nosuch", 7.0} {
					try(path, v, set, to, must)
				}
			}
		})
	}
	// Whole parts that are gone.
	for _, part := range []string{"packs", "people", "totals", "value", "refused", "status", "request", "version"} {
		was := fresh[part]
		delete(fresh, part)
		changed, err := json.Marshal(fresh)
		if err != nil {
			t.Fatal(err)
		}
		if err := reread(changed); err == nil {
			t.Errorf("a plan without %q was taken", part)
		}
		fresh[part] = was
	}
	if err := reread(text); err != nil || tried < 300 {
		t.Errorf("%d changes tried; as it was written: %v", tried, err)
	}
}

// A refusal names what is wrong and what to do.
func TestTamperedPlanIsNamed(t *testing.T) {
	plan, err := ration.ReadPlan(strings.NewReader(string(written(t))))
	if err != nil {
		t.Fatal(err)
	}
	req, err := plan.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	for i := range plan.People[0].Foods {
		plan.People[0].Foods[i].Grams *= 5
	}
	err = recheck.Recheck(req, plan)
	if !errors.Is(err, ration.ErrTampered) {
		t.Fatalf("five times the food: %v", err)
	}
	for _, want := range []string{"packs of ", " against ", " more)", "make it again with plan --format json"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not in %v", want, err)
		}
	}
	left := plan.Refused
	for _, c := range []struct {
		refused []ration.Refused
		want    string
	}{
		{nil, "it leaves out nobody; whom it may not feed is Arne"},
		{[]ration.Refused{{Name: "Signe"}}, "it leaves out Signe; whom it may not feed is Arne"},
		{append(left[:1:1], ration.Refused{Name: "Signe"}), "it leaves out Arne, Signe; whom it may not feed is Arne"},
	} {
		plan.Refused = c.refused
		if err := recheck.Recheck(req, plan); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q is not in %v", c.want, err)
		}
	}
	for text, want := range map[string]string{
		``:                           "it is empty",
		`{"version":`:                "it breaks off",
		`{"version": 1}`:             "version is a number where a text belongs",
		`[]`:                         "the whole is a list where an object belongs",
		`plan`:                       "it is no JSON from byte 1 on",
		`{"packs": [{"count":1.5}]}`: "packs.count is the number 1.5 where a whole number belongs",
	} {
		if _, err := ration.ReadPlan(strings.NewReader(text)); !errors.Is(err, ration.ErrPlan) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

// A plan in which nothing fits has nothing to check, and no question about a ration
// is answered from it.
func TestPlanWithoutRation(t *testing.T) {
	budget := 1.0
	req := &ration.Request{People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true,
		Standard: nutrients.StandardBasic, Days: 3, Time: time.Minute, Start: "2026-11-25", Limits: ration.Limits{Budget: &budget}}
	plan, err := plan.Make(t.Context(), req, nil)
	if err != nil || plan.Status != ration.StatusInfeasible {
		t.Fatalf("a budget of 1: %v", err)
	}
	if err := recheck.Recheck(req, plan); err != nil {
		t.Errorf("checked: %v", err)
	}
	if _, err := why.Explain(t.Context(), plan, why.WhyRequest{}); !errors.Is(err, ration.ErrNoRation) {
		t.Errorf("why: %v", err)
	}
	if _, err := swap.Make(t.Context(), plan, swap.SwapRequest{Drop: []string{"salt"}}, nil); !errors.Is(err, ration.ErrNoRation) {
		t.Errorf("swap: %v", err)
	}
	if _, err := swap.Replacements(t.Context(), plan, "salt", ""); !errors.Is(err, ration.ErrNoRation) {
		t.Errorf("instead-of: %v", err)
	}
	if _, err := stockpile.Of(req, plan, stockpile.StockpileOptions{}); !errors.Is(err, ration.ErrNoRation) {
		t.Errorf("stores: %v", err)
	}
	if _, err := stockpile.RotationOf(stockpile.RotationInput{Plan: plan, Req: req, Start: "2026-11-25", TempC: stockpile.UsualStoreC, Months: 12}); !errors.Is(err, ration.ErrNoRation) {
		t.Errorf("rotate: %v", err)
	}
}

// A household whose only eater is breast-fed buys nothing, and its plan is read back
// like any other; a gap that was edited is not.
func TestPlanWithoutPacksIsReadBack(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{{Name: "Liv", AgeMonths: 3, Sex: nutrients.Female, Feeding: nutrients.BreastFed, Count: 1}},
		Table:  rationtest.Table(t), Start: "2026-11-25", Time: time.Minute, Least: ration.LeastCost, Days: 14, Standard: nutrients.StandardRDA,
	}
	plan := plantest.MustMake(t, req)
	if len(plan.Packs) != 0 {
		t.Fatalf("a breast-fed infant's plan buys %v", plan.Packs)
	}
	if err := recheck.Recheck(req, plan); err != nil {
		t.Error(err)
	}
	req.People = append(req.People, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Within, req.Least = 0.05, ration.LeastWeight
	plan = plantest.MustMake(t, req)
	if err := recheck.Recheck(req, plan); err != nil {
		t.Error(err)
	}
	gap := *plan.Gap / 2
	plan.Gap = &gap
	if recheck.Recheck(req, plan) == nil {
		t.Error("half of the gap is not noticed")
	}
}

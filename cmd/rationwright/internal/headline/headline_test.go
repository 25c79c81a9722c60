package headline

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"rationwright/solver/check"
	"rationwright/solver/ration"
)

func ptr(v float64) *float64 { return &v }

// The first line is the worst there is, whatever the status, the shortages and
// those who are refused; and nothing is said where nothing is bad.
func TestFirstLineSaysTheWorst(t *testing.T) {
	for _, status := range []string{"optimal", "limit", ration.StatusInfeasible} {
		for _, refused := range []int{0, 1, 2} {
			for _, short := range []int{0, 1, 2, 5} {
				for _, over := range []int{0, 1} {
					p := &ration.Plan{Status: status}
					for i := range refused {
						p.Refused = append(p.Refused, ration.Refused{Name: fmt.Sprintf("Arne\x1b%d", i), Reason: "a clinician must plan.", Source: "S"})
					}
					for i := range short {
						p.Shortfalls = append(p.Shortfalls, ration.Shortfall{Person: fmt.Sprint("P", i), Nutrient: "vitamin_d", Amount: 1.5 + float64(i), Target: 15})
					}
					for i := range over {
						p.People = append(p.People, ration.PlanPerson{Name: fmt.Sprint("Q", i), Needs: []ration.PersonNeed{{Nutrient: "retinol", Amount: 3301, Ceiling: ptr(3000)}}})
					}
					news := Plan(p)
					var want []string
					for i := range refused {
						want = append(want, fmt.Sprintf("THIS PLAN DOES NOT FEED ARNE %d", i))
					}
					if status == ration.StatusInfeasible {
						want = append(want, "No ration meets all of these limits.")
					}
					// 1.5 of 15 is 10 %; 3301 of 3000 is 110.03 %, so at least 111 %.
					switch short {
					case 1:
						want = append(want, "SHORT OF WHAT IS NEEDED: P0 gets 10 % of the vitamin D.")
					case 2:
						want = append(want, "SHORT OF WHAT IS NEEDED: P0 and P1 get at worst 10 % of the vitamin D.")
					case 5:
						want = append(want, "SHORT OF WHAT IS NEEDED: P0, P1, P2 and 2 more get at worst 10 % of the vitamin D.")
					}
					if over > 0 {
						want = append(want, "ABOVE A CEILING: Q0 gets 111 % of the retinol.")
					}
					rest := want[refused:]
					for i := range refused {
						want = append(want, fmt.Sprintf("- Arne %d: a clinician must plan (S). Drinking water for them is included.", i))
					}
					if got := news.Lines(); !slices.Equal(got, want) {
						t.Errorf("%s, %d refused, %d short, %d over:\n%q\nwant\n%q", status, refused, short, over, got, want)
					}
					if got := news.Rest(); !slices.Equal(got, rest) {
						t.Errorf("%s, %d refused, %d short, %d over: the rest is %q, want %q", status, refused, short, over, got, rest)
					}
				}
			}
		}
	}
}

// A floor that is missed is news although the plan states no shortfall; what is
// met, or missed by the rounding of the arithmetic, is none.
func TestMissedFloorIsNews(t *testing.T) {
	for amount, want := range map[float64]bool{17.9: true, 17.99999: false, 18: false, 20: false} {
		p := &ration.Plan{People: []ration.PlanPerson{{Name: "Maja", Needs: []ration.PersonNeed{{Nutrient: "iron", Amount: amount, Floor: ptr(18)}}}}}
		if got := len(Plan(p).Lines()) > 0; got != want {
			t.Errorf("%v of 18 mg: news %v, want %v", amount, got, want)
		}
	}
	for amount, want := range map[float64]bool{45.1: true, 45.0001: false, 45: false} {
		p := &ration.Plan{People: []ration.PlanPerson{{Name: "Maja", Needs: []ration.PersonNeed{{Nutrient: "iron", Amount: amount, Ceiling: ptr(45)}}}}}
		if got := len(Plan(p).Lines()) > 0; got != want {
			t.Errorf("%v of at most 45 mg: news %v, want %v", amount, got, want)
		}
	}
}

// More needs than a line holds are counted; the household as a whole is named so;
// the same need after several days is said once, at its worst.
func TestManyNeedsAreCounted(t *testing.T) {
	var list []ration.Shortfall
	for _, need := range []string{"energy", "protein", "iron", "zinc", "calcium"} {
		list = append(list, ration.Shortfall{Person: "Maja", Nutrient: need, Amount: 1, Target: 2})
	}
	got := News{Short: list}.Rest()
	if len(got) != 1 || !strings.HasSuffix(got[0], "Maja gets 50 % of the iron; and 2 more.") {
		t.Errorf("%q", got)
	}
	got = News{Short: []ration.Shortfall{{Nutrient: "stored_water", Amount: 9.99, Target: 10}}}.Rest()
	if want := "SHORT OF WHAT IS NEEDED: the household has 99 % of the stored water."; len(got) != 1 || got[0] != want {
		t.Errorf("%q, want %q", got, want)
	}
	got = News{Short: []ration.Shortfall{{Person: "Maja", Nutrient: "iron after day 3", Amount: 9, Target: 10}, {Person: "Maja", Nutrient: "iron after day 9", Amount: 2, Target: 10}}}.Rest()
	if want := "SHORT OF WHAT IS NEEDED: Maja gets 20 % of the iron."; len(got) != 1 || got[0] != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// A stock that is short says so first; a balanced one is no news; of several plans
// the news of each counts.
func TestNewsOfStocksAndSeveralPlans(t *testing.T) {
	people := []ration.PlanPerson{{Name: "Maja"}}
	for _, c := range []struct {
		check *check.StockCheck
		want  []string
	}{
		{&check.StockCheck{People: people, Balanced: true, Horizon: 14}, nil},
		{&check.StockCheck{People: people, Balanced: true, Horizon: 14, Over: []ration.Over{{Person: "Maja", Nutrient: "retinol", Amount: 3301, Ceiling: 3000}}}, []string{"ABOVE A CEILING: Maja gets 111 % of the retinol."}},
		{&check.StockCheck{People: people, Horizon: 1}, []string{"THIS STOCK IS SHORT of a balanced ration for 1 day."}},
		{&check.StockCheck{Horizon: 14}, nil}, // everyone refused: nothing to judge
		{&check.StockCheck{People: people, Horizon: 14, TopUp: &ration.Plan{Status: ration.StatusInfeasible}}, []string{"THIS STOCK IS SHORT of a balanced ration for 14 days.",
			"NOTHING THAT COMPLETES IT FITS THE LIMITS GIVEN: what conflicts and what it would take is below."}},
	} {
		if got := Check(c.check).Lines(); !slices.Equal(got, c.want) {
			t.Errorf("%+v: %q, want %q", c.check, got, c.want)
		}
	}
	fine := &ration.Plan{Refused: []ration.Refused{{Name: "Arne", Reason: "r", Source: "S"}}}
	bad := &ration.Plan{Refused: fine.Refused, Shortfalls: []ration.Shortfall{{Person: "Maja", Nutrient: "iron", Amount: 1, Target: 4}}}
	got := Plans([]*ration.Plan{fine, bad}).Lines()
	if len(got) != 3 || got[0] != "THIS PLAN DOES NOT FEED ARNE" || got[1] != "SHORT OF WHAT IS NEEDED: Maja gets 25 % of the iron." {
		t.Errorf("%q", got)
	}
}

// TestNewsAtItsEdges: what has no target or ceiling is no news; three needs and one more are
// three and one; of plans each counts, the first as well; a stock that a purchase completes
// is short all the same, and no more is said.
func TestNewsAtItsEdges(t *testing.T) {
	if got := (News{Short: []ration.Shortfall{{Person: "Maja", Nutrient: "iron", Amount: 3}}, Over: []ration.Over{{Person: "Maja", Nutrient: "iron", Amount: 3}}}).Rest(); len(got) != 0 {
		t.Errorf("%q", got)
	}
	var list []ration.Shortfall
	for _, need := range []string{"energy", "protein", "iron", "zinc"} {
		list = append(list, ration.Shortfall{Person: "Maja", Nutrient: need, Amount: 1, Target: 2})
	}
	for n, want := range map[int]string{3: "Maja gets 50 % of the iron.", 4: "Maja gets 50 % of the iron; and 1 more."} {
		if got := (News{Short: list[:n]}).Rest(); len(got) != 1 || !strings.HasSuffix(got[0], want) {
			t.Errorf("%d needs: %q, want %q at the end", n, got, want)
		}
	}
	short := &ration.Plan{Refused: []ration.Refused{{Name: "Arne", Reason: "r"}}, Shortfalls: list[2:3]}
	for _, plans := range [][]*ration.Plan{{short}, {short, {}}, {short, short}} {
		got := Plans(plans).Lines()
		if want := []string{"THIS PLAN DOES NOT FEED ARNE", "SHORT OF WHAT IS NEEDED: Maja gets 50 % of the iron.", "- Arne: r. Drinking water for them is included."}; len(got) != 3 || got[0] != want[0] || !strings.HasPrefix(got[1], "SHORT OF WHAT IS NEEDED: Maja get") || got[2] != want[2] {
			t.Errorf("%d plans: %q, want %q", len(plans), got, want)
		}
	}
	stock := &check.StockCheck{People: []ration.PlanPerson{{Name: "Maja"}}, Horizon: 14, TopUp: &ration.Plan{Status: ration.StatusOptimal}}
	if got := Check(stock).Lines(); len(got) != 1 {
		t.Errorf("%q", got)
	}
	for n, want := range map[int]string{3: "A, B and C", 4: "A, B, C and D", 5: "A, B, C and 2 more"} {
		if got := people([]string{"A", "B", "C", "D", "E"}[:n]); got != want {
			t.Errorf("%d names: %q, want %q", n, got, want)
		}
	}
}

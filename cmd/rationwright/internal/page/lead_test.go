package page

import (
	"slices"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// TestLead: who, how long, whether it is enough, and how much better another could be,
// worked out by hand from figures made up for this test.
func TestLead(t *testing.T) {
	r := &Report{Plan: &view.Plan{Heads: 2, Days: 14, From: "2026-01-05", Until: "2026-01-18"}, Units: sheet.Metric}
	p := &ration.Plan{Standard: "ear", Least: ration.LeastCost, Totals: &ration.Totals{Currency: "TSD"}, Value: ptr(102), Bound: ptr(95), People: make([]ration.PlanPerson, 1), Gap: ptr(0.0686)}
	has := func(what string, want ...string) {
		t.Helper()
		lines := r.lead(p)
		for _, w := range want {
			if !slices.ContainsFunc(lines, func(line string) bool { return strings.Contains(line, w) }) {
				t.Errorf("%s: %q lacks %q", what, lines, w)
			}
		}
	}
	has("one aim", "For 2 people, 14 days: Monday 5 January 2026 to Sunday 18 January 2026.", "half of all people need more", "none saves more than 7.00 TSD (6.9 %)")
	p.First = &ration.First{Value: 100, Gap: ptr(0.05)}
	has("two aims", "It takes 2.00 TSD more than the best plan found", "A cheaper one may exist, but none saves more than 5.00 TSD (5.0 %)")
	p.First.Gap, p.Least, p.Standard = ptr(0), ration.LeastWeight, "rda"
	has("proven", "There is none lighter", "the whole of the published daily needs")
	p.First, p.Bound = nil, nil
	has("no bound", "Whether there is a lighter one is not known.")
	fed := p.People
	for _, c := range []struct {
		what   string
		short  []ration.Shortfall
		people []ration.PlanPerson
	}{{"somebody is short", []ration.Shortfall{{}}, fed}, {"nobody is fed", nil, nil}} {
		r.Shortfalls, p.People = c.short, c.people
		if lines := r.lead(p); slices.ContainsFunc(lines, func(line string) bool { return strings.HasPrefix(line, "Everyone") }) {
			t.Errorf("%s, and it says %q", c.what, lines)
		}
	}
}

// TestLeadAtItsEdges: no plan, no bound; nothing is said of a second aim that adds nothing, nor
// of water where no more is advised; a standard of its own is named.
func TestLeadAtItsEdges(t *testing.T) {
	r := &Report{Plan: &view.Plan{Heads: 1, Days: 1}, Units: sheet.Metric}
	for _, p := range []*ration.Plan{{Bound: ptr(3), Gap: ptr(0.1)}, {Value: ptr(3), Gap: ptr(0.1)}, {Value: ptr(3), Bound: ptr(3)}} {
		p.Least = ration.LeastVolume
		if got := r.better(p); got != "Whether there is a smaller one is not known." {
			t.Errorf("%+v: %q", p, got)
		}
	}
	p := &ration.Plan{Standard: "own", Least: ration.LeastWeight, Value: ptr(100), Bound: ptr(100), Gap: ptr(2e-6), First: &ration.First{Value: 100, Gap: ptr(1e-6)}, People: make([]ration.PlanPerson, 1)}
	r.Water = &view.Water{PlanL: 30}
	want := []string{"For 1 person, 1 day.", "Everyone who is fed gets all that the standard own asks for.", "There is none lighter that gives everyone the same."}
	if got := r.lead(p); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	r.Demo = "Prices are invented for the demo, 100 % of them."
	if got := r.lead(p); !slices.Equal(got, slices.Insert(slices.Clone(want), 1, r.Demo)) {
		t.Errorf("%q, want the demo behind the first line", got)
	}
	r.Demo = ""
	p.First.Gap = ptr(2e-6)
	if got := r.better(p); got != "A lighter one may exist, but none saves more than 0.0 kg (0.01 %)." {
		t.Errorf("%q", got)
	}
	r.Water.AdviceL, r.Water.Advice = 53.04, "somebody, 3.79 L a head a day"
	if got := r.lead(p); len(got) != 4 || got[3] != "Store 30.0 L of water or more. Published advice is 53.0 L (somebody, 3.79 L a head a day), which has room for washing and for cooking of any kind." {
		t.Errorf("%q", got)
	}
}

func TestDates(t *testing.T) {
	if a, b, c, d := weekday("2026-01-05"), longDate("2026-01-05"), shortDate("2026-11-25"), shortDate(""); a != "Monday 5 January 2026" || b != "5 January 2026" || c != "25 November" || d != "" {
		t.Errorf("%q %q %q %q", a, b, c, d)
	}
}

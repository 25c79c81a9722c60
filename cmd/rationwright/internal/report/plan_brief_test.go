package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/cmd/rationwright/internal/view"
	"rationwright/solver/ration"
)

// TestBriefByHand: an aisle is named once, what is set aside as such; what the second aim and
// dishes bring is told, what more is advised, and where nothing fits what conflicts.
func TestBriefByHand(t *testing.T) {
	p := specimen()
	p.Refused, p.Shortfalls, p.Cautions, p.Request = nil, nil, p.Cautions[:1], nil
	p.Packs = []ration.PlanPack{{Pack: "rice-1kg-bag", Food: "rice", Group: "grains", Count: 3, FromStock: 3}, {Pack: "oats", Food: "oats", Group: "grains", Count: 2, FromStock: 1}, {Pack: "sugar-500g-bag", Food: "sugar", Count: 1, Reserve: true}}
	p.Eatable, p.Dishes = &ration.Eatable{LittleSodium: &ration.LittleSodium{People: []string{"Maja"}, Amount: 1400}}, &ration.DishesCost{None: "the heat is short"}
	p.People[0].Rules = []ration.RuleNote{{Apart: &ration.Apart{Allergen: "wheat", Holds: []string{"oats"}}}}
	got := Brief(p, sheet.Metric).Sections
	lines(t, "the list", barred(got[1].Table), "grains|rice: 3 × 1 kg bag from your stock", "|oats: 1 × oats, 1 × oats from your stock", "set aside|sugar: 1 × 500 g bag")
	has(t, "the head", strings.Join(got[0].Lead, "\n"), []string{"Sodium of Maja: 1,400 mg a day", "every gram has its dish: the heat is short"})
	has(t, "what more there is", got[2].Lead[0], []string{" Before use read there 1 warning, 1 of them marked STOP."})
	if len(got[1].Notes) != 1 || !strings.Contains(got[1].Notes[0], "Not for Maja (wheat)") {
		t.Errorf("%q", got[1].Notes)
	}
	p.Cautions = nil
	has(t, "no warnings", Brief(p, sheet.Metric).Sections[2].Lead[0], []string{"--full adds packs"}, "warning")
	v := view.Of(p)
	v.Water = &view.Water{PlanL: 84.7, AdviceL: 120.5, Advice: "somebody's, 4 L a head a day"}
	lines(t, "more water", moreWater(v, sheet.Metric), "More is advised, 120.5 L (somebody's, 4 L a head a day), for washing and cooking of any kind.")
	v.Water.AdviceL = 0
	if got := moreWater(v, sheet.Metric); got != nil {
		t.Errorf("%q", got)
	}
	if got := Head(&view.Plan{Heads: 1, Days: 3, People: []view.Person{{Name: "Odd"}}}, &ration.Plan{Standard: "ear"}, sheet.Metric).Lead; len(got) != 2 || got[0] != "Ration for 1 person for 3 days: Odd." || got[1] != "Everyone fed gets all that the standard ear asks for." {
		t.Errorf("%q", got)
	}
	p.Status, p.Conflict = "infeasible", []ration.ConflictLimit{{Limit: "budget at most 3 TSD"}}
	p.Closest = &ration.Closest{Packs: []ration.PlanPack{{Pack: "rice-1kg-bag", Food: "rice", Count: 3, NetG: 1000, VolumeL: 9}}}
	got = Brief(p, sheet.Metric).Sections
	if len(got) != 3 || got[0].Title != "What cannot be met together" || !strings.HasPrefix(got[2].Lead[0], "--full adds the packs of the closest ration") {
		t.Fatalf("%+v", got)
	}
	lines(t, "the closest ration", barred(got[1].Table), "3|rice|rice-1kg-bag|1.00 kg")
	proven := false
	p.Proven = &proven
	lines(t, "not proven", conflict(p).Notes, "Not proven in the time: fewer of these may already conflict.")
	p.Proven = nil
	if notes := conflict(p).Notes; len(notes) != 0 {
		t.Errorf("nothing was searched: %q", notes)
	}
	if sec := conflict(&ration.Plan{Proven: &proven}); len(sec.Lead)+len(sec.Notes) != 0 {
		t.Errorf("nothing conflicts: %+v", sec)
	}
	if sec := planHead(p, v, sheet.Metric); len(sec.Lead) != 0 {
		t.Errorf("nothing fits: %q", sec.Lead)
	}
}

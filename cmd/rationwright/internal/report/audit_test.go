package report

import (
	"testing"

	"rationwright/solver/ration"
)

// TestSecondOpinions: both figures of a relaxation and whether they are the same; where there
// is no second one it says why, and a proof is gone through where there is one.
func TestSecondOpinions(t *testing.T) {
	a := &ration.Audit{Opinions: []ration.SecondOpinion{
		{What: "the plan", Engine: 12.5, Referee: 12.75, Agree: true},
		{What: "the least", Engine: 11, Referee: 13, Remark: "look at it"},
		{What: "the most", Engine: 10, Remark: "too large"},
		{What: "the rest", Referee: 9, Agree: true},
	}}
	sec := audit(&ration.Plan{Audit: a})
	lines(t, "the opinions", barred(sec.Table), "the plan|12.500000|12.750000|the same", "the least|11.000000|13.000000|DIFFERENT; look at it", "the most|10.000000||no second figure; too large", "the rest||9.000000|the same")
	if len(sec.Notes) != 0 {
		t.Errorf("no search was made: %q", sec.Notes)
	}
	a.Proof = &ration.Proof{}
	if notes := audit(&ration.Plan{Audit: a}).Notes; len(notes) != 6 {
		t.Errorf("%q", notes)
	}
}

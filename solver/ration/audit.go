package ration

import "fmt"

// Audit is a plan's proof gone through a second time: each person's own program
// and the household's relaxation solved by the referee, and the search repeated
// part by part in arithmetic rounded outward. It speaks of the search; what is
// eaten and bought is checked on every plan by [Verify].
type Audit struct {
	Opinions []SecondOpinion `json:"opinions"`
	Proof    *Proof          `json:"proof,omitempty"` // absent where no search was made
}

// Proof is the proof of the bound, recomputed.
type Proof struct {
	ValueOK      bool     `json:"value_ok"`      // the plan found is possible and of the value stated
	RootBound    float64  `json:"root_bound"`    // of the relaxation, from the original rows and their prices
	RootOK       bool     `json:"root_ok"`       // it confirms the bound stated at the root
	Reductions   int      `json:"reductions"`    // bounds tightened before and at the root
	ReductionsOK int      `json:"reductions_ok"` // of these, derived again
	Cuts         int      `json:"cuts"`          // cuts that the proof uses
	CutsDerived  int      `json:"cuts_derived"`  // of these, derived again from their stored multipliers
	CutsTrusted  int      `json:"cuts_trusted"`  // of these, not derived: the proof rests on them
	Parts        int      `json:"parts"`         // parts that the search was split into
	PartsOK      int      `json:"parts_ok"`      // of these, bound confirmed from their stored prices
	Covered      bool     `json:"covered"`       // the parts leave nothing out
	Bound        float64  `json:"bound"`         // what the confirmed parts prove
	BoundOK      bool     `json:"bound_ok"`      // it confirms the bound stated
	Unconfirmed  []string `json:"unconfirmed,omitempty"`
}

// SecondOpinion is one relaxation solved twice, by the product's own simplex
// method and by the referee.
type SecondOpinion struct {
	What    string  `json:"what"`
	Engine  float64 `json:"engine"`
	Referee float64 `json:"referee,omitempty"`
	Agree   bool    `json:"agree"`
	Remark  string  `json:"remark,omitempty"` // why there is no second figure, or what it rests on
}

// String says what came out in one line.
func (o SecondOpinion) String() string {
	switch {
	case o.Remark != "" && !o.Agree:
		return fmt.Sprintf("%s: %s", o.What, o.Remark)
	case o.Agree:
		return fmt.Sprintf("%s: both %.6f", o.What, o.Engine)
	default:
		return fmt.Sprintf("%s: %.6f here, %.6f by the referee", o.What, o.Engine, o.Referee)
	}
}

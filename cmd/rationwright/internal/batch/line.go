package batch

import (
	"strings"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// Line is the result of one household.
type Line struct {
	ID         string             `json:"id"`
	Status     string             `json:"status"` // as of a plan; unread where the household cannot be planned as it is, numerical where nothing could be certified
	Exit       int                `json:"exit"`   // what plan would end with
	Value      *float64           `json:"value,omitempty"`
	Bound      *float64           `json:"bound,omitempty"`
	Gap        *float64           `json:"gap,omitempty"`
	Totals     *ration.Totals     `json:"totals,omitempty"`
	Packs      []ration.PlanPack  `json:"packs,omitempty"`
	Shortfalls []ration.Shortfall `json:"shortfalls,omitempty"`
	Refused    []ration.Refused   `json:"refused,omitempty"`
	Errors     []string           `json:"errors,omitempty"`
}

// lineOf is the line of a plan.
func lineOf(p *ration.Plan) Line {
	l := Line{
		Status: p.Status, Exit: exit.OfPlan(p).Code, Value: p.Value, Bound: p.Bound, Gap: p.Gap,
		Totals: p.Totals, Packs: p.Packs, Shortfalls: p.NotFed().Shortfalls, Refused: p.Refused,
	}
	if p.Proven == nil { // nobody is left to feed
		return l
	}
	if len(p.Conflict) > 0 {
		l.Errors = append(l.Errors, "no ration keeps all of these:")
	}
	for _, c := range p.Conflict {
		l.Errors = append(l.Errors, c.Limit+sheet.Around(" (", c.Person, ")"))
	}
	return l
}

// failed is the line of a household of which no plan was made.
func failed(err error) Line {
	end := exit.OfError(err)
	return Line{Status: end.Status, Exit: end.Code, Errors: strings.Split(err.Error(), "\n")}
}

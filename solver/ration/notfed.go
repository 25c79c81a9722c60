package ration

// NotFed says whom an answer about a plan leaves out because a clinician must
// plan for them. It stands first in the answer.
type NotFed struct {
	Notice  string    `json:"notice,omitempty"` // THIS PLAN DOES NOT FEED …
	Refused []Refused `json:"refused,omitempty"`
}

// NotFed is whom p leaves out.
func (p *Plan) NotFed() NotFed { return NotFed{Notice: p.Notice, Refused: p.Refused} }

// Refusal is why p does not feed the person called name; nil where it does.
func (p *Plan) Refusal(name string) *Refused {
	for i := range p.Refused {
		if p.Refused[i].Name == name {
			return &p.Refused[i]
		}
	}
	return nil
}

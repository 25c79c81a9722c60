package ration

import (
	"bytes"
	"encoding/json"
	"math"
)

// residue is the amount, in any unit of the output, under which a figure is what
// floating-point arithmetic leaves of nothing: sums of a day's food end within 1e-12
// of zero, and the least amount that any need asks for is above 1e-2.
const residue = 1e-9

// NoResidue writes nothing for what is residue only.
func NoResidue(v float64) float64 {
	if math.Abs(v) < residue {
		return 0
	}
	return v
}

// MarshalJSON writes s without residue.
func (s Shortfall) MarshalJSON() ([]byte, error) {
	type plain Shortfall
	s.Amount = NoResidue(s.Amount)
	return Marshal(plain(s))
}

// Marshal leaves names such as "Åse & Knut" as they are.
func Marshal(v any) ([]byte, error) {
	var text bytes.Buffer
	out := json.NewEncoder(&text)
	out.SetEscapeHTML(false)
	err := out.Encode(v)
	return text.Bytes(), err
}

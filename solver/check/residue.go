package check

import (
	"rationwright/solver/ration"
)

// MarshalJSON writes s without residue.
func (s StockShort) MarshalJSON() ([]byte, error) {
	type plain StockShort
	s.Amount = ration.NoResidue(s.Amount)
	return ration.Marshal(plain(s))
}

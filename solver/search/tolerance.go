package search

import (
	"rationwright/solver/ration"
)

// Limits of one test with whole packs, and the room for its last digits.
const (
	PackTestWork   = 15000 // simplex iterations
	LimitTolerance = 1e-7  // relative: the tolerance of the simplex method
)

// ShortTolerance is the relative shortfall under which a need counts as met:
// the tolerance of the independent check.
const ShortTolerance = ration.CheckTolerance

// HeldTolerance is the room that an earlier stage's shortfalls keep in later
// ones: well under shortTolerance, well over the arithmetic.
const HeldTolerance = 1e-7

// ChosenTolerance is the part of a pack under which the relaxation does not
// choose it: the simplex method's feasibility tolerance, with room.
const ChosenTolerance = 1e-6

package search

import "rationwright/solver/ration"

// The tolerances of the answers; those of the engine stand in the parameters of branch
// and simplex. Each is relative, unless it says what it is in.
const (
	// ShortTolerance is the part of a need that may be missing where it counts as met:
	// the tolerance of the independent check, so that no plan is shown that it refuses.
	ShortTolerance = ration.CheckTolerance
	// LimitTolerance is how far a limit may be passed, as a part of it: to this the
	// simplex method holds a row.
	LimitTolerance = 1e-7
	// HeldTolerance is the room that the shortfalls of an earlier stage, in parts of a
	// need, keep in later ones: well under ShortTolerance, well over the arithmetic.
	HeldTolerance = 1e-7
	// ValueRoom is the room for the last digits of a value that a row holds: a sum of a
	// thousand terms is off by about 1e-13.
	ValueRoom = 1e-9
	// ChosenTolerance is the part of a pack under which a relaxation does not choose it:
	// the simplex method's feasibility tolerance, with room.
	ChosenTolerance = 1e-6
	// PortionTolerance is how far a portion may be missed by rounding, in parts of it, and be
	// no crumb.
	PortionTolerance = 1e-6
	// WholeTolerance is how near to a whole number, in packs, a column of a relaxation
	// counts as whole: the engine's tolerance of an integer.
	WholeTolerance = 1e-6
	// lazyTolerance is how far a row that was left out may be missed, relative to the sum
	// of its terms, before it is taken in: to this the simplex method holds the others.
	lazyTolerance = 1e-9
	// relaxedGap is the difference between the value of a relaxation and its proven bound
	// up to which it counts as solved: far under the gap asked of any plan.
	relaxedGap = 1e-4
	// reducedTolerance is the reduced cost of a pack above which its food stays out, in the
	// unit of the objective: far under a cent, a gram or a hundredth of a change.
	reducedTolerance = 1e-7
	// agreeTolerance is the difference up to which two solvers agree: both stop at
	// residuals of about 1e-7 on scaled rows.
	agreeTolerance = 1e-6
)

// Figures of the last tidying of a plan.
const (
	// CrumbShare is the part of a day's most of a food up to which what a person eats of
	// it over all days is a crumb that is given up unasked: common practice, no source.
	// The second aim is stricter, and calls all that is under a portion a crumb.
	CrumbShare = 0.25
	// CrumbSlack is how much the value may rise for it, in parts of it: a hundred
	// thousandth, for the water and heat of what is eaten instead.
	CrumbSlack  = 1e-5
	crumbRounds = 20
)

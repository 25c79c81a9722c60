package simplex

// Tolerances of the core, all in scaled terms. They are tighter than the 1e-6
// or 1e-7 of common practice because a tree uses the answers again and again.
const (
	// A basic value this far outside its bounds counts as inside.
	primalTol = 1e-9
	// A reduced cost this far on the wrong side of zero counts as right.
	dualTol = 1e-8
	// Room that the Harris ratio tests give for a larger pivot: below the
	// tolerances, so that the small wrongs left behind are within them.
	harrisTol = 1e-9
	// The pivot computed by row and by column must agree to this, relative.
	pivotAgree = 1e-6
	// Updates after which the basis is factorised afresh: the best of 40, 64 and
	// 100 on rations, if not by much.
	maxUpdates = 100
	// Size of perturbations, relative.
	perturbation = 1e-6
	// Least dual steepest edge weight.
	minWeight = 1e-4
)

// leastPivot returns the size below which an entry is no pivot. Entries lose
// digits with every update of the factor.
func leastPivot(updates int) float64 {
	switch {
	case updates < 10:
		return 1e-9
	case updates < 20:
		return 1e-8
	}
	return 1e-7
}

// lastPivot is the size of the entries that are tried as pivots when there is
// no other and the program would be called infeasible or unbounded.
const lastPivot = 1e-12

// Numbers of the factorisation.
const (
	// Smaller results of a solve or an elimination are rounding, not numbers.
	tiny = 1e-14
	// Entries smaller than this cannot be pivots: the basis is singular.
	singularTol = 1e-10
	// A pivot is at least this share of the largest entry of its column: the
	// usual compromise of sparsity and stability (Suhl and Suhl 1990).
	threshold = 0.1
	// Columns and rows looked into for a pivot (Suhl and Suhl 1990).
	searchLimit = 4
	// The two ways to compute a new diagonal must agree to this, relative.
	updateAgree = 1e-9
	// Multipliers of an update, or entries of U over the largest of a fresh one,
	// that exceed this make the factor inaccurate: they turn rounding of 1e-16
	// into 1e-12.
	maxGrowth = 1e4
)

// Tolerances of the certificates, in the program's own terms.
const (
	// A row or bound may be missed by this times one plus its size, and a
	// reduced cost by this times one plus the largest cost. The sum of
	// |reduced cost · distance from the bound it wants| may be this times one
	// plus the size of the objective.
	residualTol = 1e-6
	// An optimum from an updated factor whose residuals are larger than this is
	// computed afresh from a new one.
	polishedTol = 1e-9
)

// Tolerances of a ray, beside the sizes of what it is added up from.
const (
	// A multiplier or a step this small beside the largest of a ray is
	// rounding and left out; the rest is then verified without it.
	dropTol = 1e-11
	// A sum this small beside the sizes of its terms counts as zero where a
	// bound is missing and any other value would be without end.
	cancelTol = 1e-12
	// A contradiction smaller than this beside the terms it is the sum of may
	// come from the rounding of the program's figures.
	marginTol = 1e-12
)

// rateTol is what the change of a row along an endless direction may be beside
// the sizes of its terms and still count as none. It is wider than cancelTol
// because the entries of a direction are results of a solve.
const rateTol = 1e-10

// Rounds of geometric scaling, and the spread of the entries within which
// scaling is left out: common practice, no source.
const (
	scalingRounds = 4
	wellScaledLow = 0.2
	wellScaledTop = 5
)

package branch

// All tolerances and work budgets of the search are in this file, the tolerances
// first. Work is counted in simplex iterations, nodes, rounds or units of effort
// (see relaxation.effortOf), never in seconds, so that a search repeats itself.

const (
	// feasTol is how far a row or a bound may be missed, absolutely and times
	// the size of its side; it matches the simplex method's own tolerance.
	feasTol = 1e-6
	// intTol is how far from an integer a value may be and still count as one.
	// Incumbents are rounded exactly and checked again afterwards.
	intTol = 1e-6
	// presolveRounds bounds the sweeps over all rows; each sweep stops early
	// when nothing changed. Ten is where small MIPLIB programs stop moving.
	presolveRounds = 10
)

// Tolerances of an incumbent, held against the original problem.
const (
	// rowTol is how far a row with continuous columns may be missed, relative to
	// the larger of its side, the largest term of its sum and what a unit of its
	// continuous columns makes, at most 1: rounding alone stays below 1e-12, the
	// simplex method promises 1e-9 on scaled rows. There is no absolute part: it
	// would swallow a row whose side is smaller.
	rowTol = 1e-6
	// wholeRowTol is the same for a row of integer columns only, relative to its
	// side and terms: they are exact, so that only decimal fractions in the data
	// and rounding of the sum are to be allowed for.
	wholeRowTol = 1e-9
	// boundTol is how far a continuous column may be outside its bounds,
	// relative to the larger of 1 and the bound.
	boundTol = 1e-7
	// wholeTol is how far from a whole number, relative to the larger of 1 and
	// its size, the bound of an integer column may be and still mean it: what
	// decimal arithmetic leaves.
	wholeTol = 1e-9
)

// boundMargin is subtracted from a dual bound, times the sum of the sizes of
// its terms, against rounding. A dot product of a thousand terms in double
// precision is off by less than 1000·2⁻⁵³ ≈ 1e-13 of that sum; the rest covers
// cancellation inside the reduced costs. The audit does it with outward
// rounding instead.
const boundMargin = 1e-11

// freeTol is the reduced cost, relative to the cost, that a column without any
// bound may have and still count as zero: rounding leaves about 1e-13. Such a
// bound holds for points that have the column within freeSize only, and an audit
// says so.
const freeTol, freeSize = 1e-9, 1000

// DefaultGap is the relative gap at which a search without a wish for one
// calls its point optimal: what double precision can tell apart.
const DefaultGap = 1e-9

// absoluteGap is the difference between value and bound that counts as none:
// with an optimum at or near zero no relative gap can be met by rounded bounds.
const absoluteGap = 1e-8

// stepTol is how far above a multiple of the step, in steps, a bound may be
// before it counts as beyond it: rounding of the relaxation's objective.
const stepTol = 1e-6

// priceTol is the reduced cost, relative to its cost, at which a column left
// out is worth having: the simplex method's own tolerance.
const priceTol = 1e-7

// lazyShare is the share of a row's tolerance by which a point may miss a row
// that was left out: a point of the relaxation must pass [Check] as well.
const lazyShare = 0.5

// forced is how much room a row may have left and still decide all of its
// columns, relative to its side.
const forced = 1e-9

// closedGap is the gap up to which a fully closed tree counts as optimal: the
// safe bounds of its leaves are that much lower than their values, for
// rounding.
const closedGap = 1e-7

// attained is the relative difference at which an integral point counts as the
// optimum of its relaxation: the accuracy of the simplex method. The node's
// bound, which is a little lower for rounding's sake, is what stays on the
// books.
const attained = 1e-8

// provenMargin is added to the side that outward rounding proves for a cut,
// relative to it: an audit's box may be wider than ours in the last digit.
// provenLoss is the most that a side may have to be loosened.
const provenMargin, provenLoss = 1e-12, 1e-6

// auditTol is the relative difference up to which a recomputed bound confirms a
// stated one, and a rewritten row its original: far below the tolerance of the
// simplex method, well above rounding.
const auditTol = 1e-8

// maxParallel is the cosine above which two cuts do the same work.
const maxParallel = 0.9

const (
	// cutAway limits how far the fraction of a rounded side is from an
	// integer: nearer, the cut is mostly rounding error.
	cutAway = 0.01
	// cutRange is the greatest ratio of coefficients in a cut.
	cutRange = 1e6
	// cutMargin loosens a cut's side, relative to the size of its terms over
	// the box, so that it stays valid in spite of rounding.
	cutMargin = 1e-11
	// cutTerms and cutTermsPer limit the terms of a cut, to so many and one for
	// so many columns. On ration models denser Gomory cuts raise the root bound
	// by a third of the gap more, but the nodes cost three times as much, and
	// after a second the bound stands lower than without them.
	cutTerms, cutTermsPer = 100, 10
	// cutDepth is the least distance cut off, per unit length.
	cutDepth = 1e-3
)

const (
	// cutRounds is the most rounds of cuts at the root of a small program, where
	// rounds are cheap and nodes are many (bell5 of MIPLIB 3: 12 rounds leave
	// 40,000 nodes, 60 rounds 1,500); cutRoundsLarge that of a program of
	// masterColumns or more: ration models get three quarters of what ten rounds
	// give from three.
	cutRounds, cutRoundsLarge = 60, 6
	// cutRoundsShort is that of a large program where the work limit is shortWork
	// or less: 30 households of one to six came, for 0.5 s of work each,
	// to a mean gap of 2.05 % with three rounds and 2.18 % with six, in a tenth less time.
	cutRoundsShort, shortWork = 3, 60_000
	// cutIdle is the number of rounds in a row with little gain after which no
	// more follow.
	cutIdle, cutIdleLarge = 12, 2
	// cutsPerRound bounds the cuts of one round.
	cutsPerRound = 40
	// cutGain is the share of the rise so far that a round must add not to count
	// as one with little gain.
	cutGain = 0.05
)

const (
	// masterColumns is the number of columns from which the relaxation of the
	// tree leaves columns out; below it is small enough.
	masterColumns = 300
	// masterShare is how dear a column must be to be left out: its reduced cost
	// as a share of the sum of the sizes that make it.
	masterShare = 0.12
	// masterSlack is how loose a row must be at the root to be left out, as a
	// share of its size there.
	masterSlack = 0.05
)

// aggregateRows is the most rows that are joined for one rounding cut.
const aggregateRows = 6

// roundingDivisors is the most divisors tried for one combination.
const roundingDivisors = 8

const (
	dominateTimes = 6
	dominateGroup = 40
)

// propagateRows bounds the rows looked at for one node.
const propagateRows = 200

const (
	// strongCandidates and strongIterations size the strong branching that
	// starts the pseudo-costs. 60 candidates of 200 iterations gave no fewer
	// nodes on ration models.
	strongCandidates = 16
	strongIterations = 40
	// strongPatience ends the look at candidates after so many without a
	// better score.
	strongPatience = 6
)

// reliable is the number of observations in each direction from which a
// pseudo-cost is believed without strong branching.
const reliable = 4

const (
	// roundEffort is how long a round is, in the units of relaxation.effort: some
	// 40 ms. Shorter rounds spread a new best point sooner, longer ones wait
	// less for the slower worker. The first rounds are shorter, from
	// firstEffort on: many a small program needs no more.
	roundEffort = 3_000_000
	firstEffort = 100_000
	// dealt is the number of open nodes that each worker of the tree gets.
	dealt = 48
	// stallRounds is the number of rounds without a better point after which the
	// neighbourhood search gives every other round to the tree.
	stallRounds = 12
	// lnsIntegers is the number of integer columns from which neighbourhoods
	// are searched at all: below, the tree is as fast.
	lnsIntegers = 12
)

// keepEarlier is the number of points that were the best once that neighbourhood
// searches compare the best with.
const keepEarlier = 8

// plungeShare is how far above the least open bound, as a share of the way to
// the cutoff, a worker follows a node's child before it returns to the best
// open node. Pure best-first needs the fewest nodes on ration models; a short
// plunge saves loading and factorising a basis.
const plungeShare = 0.2

// keepPoints is the number of points of nodes that a worker of the tree hands to
// the neighbourhood searches after each round.
const keepPoints = 32

const (
	// firstFree is the number of integer columns of least reduced cost that are
	// free in the first part, firstNodes the nodes it is given.
	firstFree, firstNodes = 60, 60
	// lnsNodes is the number of nodes that a part is given at first: two or
	// three dives (one dive finds too little, ten take too long). It doubles with
	// every deepenAfter failures in a row, at most deepenMost times.
	lnsNodes, deepenAfter, deepenMost = 60, 20, 4
	// lnsGain is the share of the gap that a new point must gain to be looked
	// for.
	lnsGain = 0.02
	// lnsIdle steers how many groups that the best point does not use are set
	// free: half of the first so many by reduced cost, fewer further down.
	lnsIdle = 10
	// shareLeast and shareMost bound the share of the groups in use that blame
	// sets free.
	shareLeast, shareMost = 0.08, 0.9
	// nodeShare is the share of the parts that are chosen by a node of the tree,
	// nodeAway the difference from its point that sets a group free.
	nodeShare, nodeAway = 0.75, 0.1
	// earlierShare is the share of the other parts that are chosen by an earlier
	// best point.
	earlierShare = 0.4
	// lnsOverhead is the effort of choosing a part, per row and column.
	lnsOverhead = 60
)

const (
	// diveSteps is the most relaxations of a dive for a first point, diveNearly the
	// fraction from which a column is raised along with the largest.
	diveSteps, diveNearly = 120, 0.8
)

// blameFloor is what every group in use is blamed for at least when groups are
// drawn, as a share of the average: the root's prices are not the last word.
const blameFloor = 0.5

// rootIterations bounds the solve of the relaxation on the original rows; it
// starts from the basis of the presolved one.
const rootIterations = 50000

// impliedRounds is how often the rows are swept for bounds of columns that have
// none.
const impliedRounds = 5

// maxUnconfirmed bounds the list of what was not confirmed.
const maxUnconfirmed = 20

package search

import "rationwright/solver/model"

// The budgets of the answers: work in simplex iterations, the same on every machine; the
// gaps at which a search may end sooner; and parts of the time that is left, which stop
// slow or busy machines only, each step mostly ending by its work well before. Sizes
// without a measurement are common practice, no source. Those of the engine stand in the
// parameters of branch.

// workRate is how many simplex iterations a program with one column is given
// for each second of --time; a program with more columns gets as many fewer.
// Households of one to eight took 0.55 to 0.7 s of processor time for each second
// of --time, 0.4 to 0.5 s by the clock where both cores were mostly free; cores
// half as fast would take under one. So the search ends by its work, the same on
// every run, and the clock is a safety stop for slow or busy machines. That was
// measured at 36e6; eleven households take 0.88 of it at 48e6 since rows left out are
// added up together.
const workRate = 48e6

// Work is the deterministic limit of the search, in simplex iterations: the
// request's own where it sets one.
func Work(m *model.Model) int64 {
	if m.Request.Work > 0 {
		return m.Request.Work
	}
	allowed := m.Request.Time
	if m.Request.Effort > 0 {
		allowed = min(allowed, m.Request.Effort)
	}
	return int64(allowed.Seconds() * workRate / float64(len(m.Problem.Cols)))
}

// Starts and small searches that others are made of.
const (
	// QuickFoods is how many foods a quick search chooses among: a ration is made of
	// some forty.
	QuickFoods = 60
	// underLimitsWork is for a point under a limit on packs.
	underLimitsWork = 4000
	// fillWork and fillGap are for what is eaten of packs that are all chosen.
	fillWork = 3000
	fillGap  = 1e-3
	// likeSize is how far the energy in packs may be from what is needed, as a part of
	// it, and still count as bought for as many people: a ration holds up to a tenth more
	// than its floor of energy.
	likeSize = 0.15
	// refereeRows is the largest program that the referee is given: its time grows
	// with the cube of the rows, and 150 take some seconds.
	refereeRows = 150
)

// Dives.
const (
	diveSteps  = 120 // relaxations solved
	diveNearly = 0.8 // a fraction over this is rounded up along with the largest

	// Prices put on limits in the place of their rows: from the price that the relaxation
	// has for them, growing by diveStep, and then halved towards the last that was too low.
	divePrices  = 10
	diveStep    = 2
	diveHalving = 2
	divePrice   = 1e-3 // least price of a whole limit, in parts of the objective
)

// Plans: of the time that is left, the search, so that what it finds can still be tidied
// and checked, the second aim and an audit having some too; and each step of giving way,
// so that those after it, and the reasons where nothing helps, have some.
const (
	SearchPart  = 0.9
	FirstPart   = 0.8  // where a second aim follows, or other plans for the same shelves
	HarmedPart  = 0.35 // where the second aim first seeks the least sodium for those whom it harms
	AuditedPart = 0.5
	LoosenPart  = 0.25
	VitaminPart = 0.4
	ProofPart   = 0.5 // of an audit for the proof; the second opinions have the rest
	// FrontierPart is kept, of the time and the work, for the frontier where one is asked
	// for; FrontierWork is that of one point.
	FrontierPart = 0.4
	FrontierWork = 9000
)

// The closest ration.
const (
	// LoosenWork and LoosenGap are for the least excess over planning rules: it makes the
	// ration kinder, not possible, and is given as much as a shortfall of vitamins.
	LoosenWork = 4000
	LoosenGap  = 0.1
	// MarginWork is for whole packs at one margin of a limit, BetterWork for others with
	// less shortfall.
	MarginWork = 3000
	BetterWork = 4000
	// ClosestWork and ClosestGap are for the last stage, which makes the ration no better,
	// only cheaper.
	ClosestWork = 4000
	ClosestGap  = 0.05
)

// Why nothing fits. What is not done in its time says so: a conflict is then not proven
// irreducible, a way out not listed.
const (
	PackTestWork = 15000 // one test with whole packs
	WayOutWork   = 4000
	WayOutGap    = 0.01  // of how little more of a limit is enough
	RaiseWork    = 16000 // of the search for how much more of a limit is enough
	ReplanGap    = 0.05  // of what a changed request costs

	ConflictPart = 0.4
	ProvenPart   = 0.3 // the proof that there is a conflict
	NearestPart  = 0.9 // the closest ration, beside the ways out
	AsidePart    = 0.2 // orders, looked into beforehand
)

// What a stock is worth; the completion has the rest of the time.
const (
	DaysPart       = 0.35
	EnergyPart     = 0.25
	FirstShortPart = 0.2 // what runs out first
	StockNearPart  = 0.4 // what each person gets from the stock alone
	QuickPart      = 0.6 // the quick search for a completion, and then the better one
)

// Swaps: work where the request's time is the default; a longer time gives as many times
// more.
const (
	SwapBestWork   = 16000
	SwapPriceWork  = 4000
	SwapPriceGap   = 1e-3
	SwapFewestWork = 8000
	SwapProofWork  = 4000 // among all packs, whose program is the largest
	SwapLeastWork  = 3000
	SwapBestPart   = 0.5
	SwapFewestPart = 0.85
	ReplaceWork    = 1500 // the whole packs of one food
	ReplaceGap     = 0.01
	ReplacePart    = 0.7 // looking at foods in parts of packs
)

// LimitsPart is for the prices of limits, those of the foods having the rest.
const LimitsPart = 0.6

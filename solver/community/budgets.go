package community

// The budgets and tolerances of a store that is shared: how many rounds of prices there are
// and how much work each search has, the gaps at which they end, and parts of the time that
// is left.

// fewHouseholds is up to how many all rounds are made. Of more, rounds shrink as the
// households grow: each takes a smaller part of what is common, so that prices settle in
// fewer rounds. Never fewer than leastRounds.
// Relaxations of more rest between rounds: twelve households took 7 MB each where they
// do not and 2 MB where they do, but twice the iterations in the rounds.
const fewHouseholds, leastRounds = 30, 2

// fullWork is up to how many households each search in whole packs has all the work asked
// for: 200 invented households came to 12 % over their parts with 0.15 of it, a quarter of
// a second of processor time for each.
const fullWork = 60

// fewCosts is how much more whole packs of few households are first taken to come to
// than their parts, manyCosts those of more, with less work each: 12, 30 and 100
// invented households came to 5.9, 5.6 and 7.3 %, 200 to 12 %.
const fewCosts, manyCosts = 0.06, 0.1

// roundingCosts is how much more whole packs come to than their parts where fractions are
// rounded up and what can be done without is taken away: 12 invented households came to
// 14.1 %, to 16.5 % before anything is taken away.
const roundingCosts = 0.15

// Parts of the time that is left, where there is a deadline: of the search, so that
// the plans can still be written and checked; of the first prices, the level's; of the
// prices at a level, before whole packs are dealt; of the rounds in whole packs, before
// the choice among them. Common practice, no source.
const (
	sharePart  = 0.85
	levelPart  = 0.25
	pricesPart = 0.35
	wholePart  = 0.5
)

// exactColumns is the size of a joint program up to which it is solved whole as well,
// from what was found by parts: some three households. exactWork and exactGap are the
// limits of that.
const (
	exactColumns = 3500
	exactWork    = 60_000 // simplex iterations
	exactGap     = 1e-3
)

// mostLevels is how many levels are tried between those that are known, levelNear the
// difference, as a part, at which they are one, and levelOver how far beyond the last one
// is proven to be out of reach: own choice, no source.
const (
	mostLevels = 6
	levelNear  = 0.005
	levelOver  = 0.015
)

// Figures of the decomposition: common practice, no source.
const (
	mostRounds = 40   // of prices, of few households
	roundGap   = 4e-3 // between what the master holds and what is proven, where rounds end
)

// wholeRounds is how often the households are asked for whole packs at one level, and
// pull how far the prices go each time from the last to those of the master: prices of
// few points swing (P. Wentges, "Weighted Dantzig-Wolfe decomposition for linear
// mixed-integer programming", International Transactions in Operational Research 4
// (1997)). Their sizes are common practice, no source.
const (
	wholeRounds   = 3
	furtherRounds = 2 // at another level, from the prices of the one before
	pull          = 0.5
)

// beyond is how far over the level at which the proven money comes to the budget, as a
// part of it, another is asked for, so that it is proven to be out of reach. Common
// practice, no source.
const beyond = 0.005

// mostTries is how often the households are dealt with at another level because the
// packs, being whole, came to more than the budget or left some of it; levelStep is how
// near two levels count as one. Common practice, no source.
const (
	mostTries = 5
	levelStep = 0.02
)

// wholeGap is how near to its best each household is searched; common practice, no
// source.
const wholeGap = 0.005

// Limits of the choice among points in whole packs: its work is the same on every
// machine.
const (
	choiceWork = 20000
	choiceGap  = 1e-4
)

// leastMoney is the least price of money where households are dealt with: where the
// master finds money to be worth nothing, packs are not to be bought for nothing.
const leastMoney = 1e-3

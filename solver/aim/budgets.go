package aim

// The budgets and tolerances of the second aim: work in simplex iterations, parts of the
// work and time that it is given, the gaps at which its searches end, and what counts as
// nothing. Those of the first aim stand in search, those of the engine in branch. Sizes
// without a measurement are common practice, no source.

// Share is the part of --time, and of the work that it stands for, that the second
// aim is given. The first has all of its own work: on the households measured it
// ends in half of the time.
const Share = 0.3

// Of the second aim's share of the work, in simplex iterations: how often it the
// rounds of moves and portions may take, whose programs are smaller, so that an
// iteration is quicker; and how many a column it must be for the bound, which takes
// one or two.
const descentWork, boundWork = 1.4, 2

// How many rounds of moves and portions there are, and what each may take.
const (
	mostRounds = 3
	// runPart is the part of what work is left that moves may take before portions
	// have theirs.
	runPart = 0.6
	// firstSlack is the part of the slack that moves may take at first: to make
	// portions of crumbs costs something as well.
	firstSlack = 0.75
)

// Limits of the search of the program itself: its simplex iterations, the least of them that
// find anything, and the gap at which it ends. For one person it ends near the optimum
// among the foods at hand; for several, neighbourhoods of foods drawn by what they are to
// blame for, twelve of 2,000 iterations each, found no more than it does.
const (
	refineWork  = 5000
	refineLeast = 2000
	refineGap   = 0.002
	// refinePart is the most of the work of the second aim.
	refinePart = 0.1
	// refineDenom is the least that the gap is relative to, in the unit of the weights.
	refineDenom = 0.1
)

// cheaperGap ends a search for the same plan for less.
const cheaperGap = 0.0005

// cheaperSetUp is what making such a search ready takes, its cuts above all, counted
// in simplex iterations of as much processor time.
const cheaperSetUp = 2000

// Limits of a search for the same for less: its simplex iterations, and the part of
// the first aim under which nothing is saved.
const (
	saveWork = 3000
	saveStep = 1e-3
)

// Limits of ends of crumbs that go beyond the slack until the same is found for less: how
// far they may, in parts of it; how many are tried; the simplex iterations of each. Moves
// of foods were tried so too: four households of two to five people came to the same or less
// without, in 0.86 of the processor time.
const (
	stretchPart  = 1.0
	stretchTries = 5
	stretchWork  = 1500
)

// Limits of the search for whole packs with less sodium: gaps, and simplex iterations
// of each step.
const (
	lastGap   = 0.01
	pricedGap = 0.002
	cheapGap  = 0.005

	pricedWork = 8000  // at one price
	crossWork  = 10000 // of coming back within the slack, with one allowance of sodium
	lastWork   = 8000
	cheapWork  = 3000
	provenWork = 6000
	// provenPart is of the time that is then left.
	provenPart = 0.25

	// wholeWork is the work of a search for which these are meant: a smaller one has
	// less of each.
	wholeWork = 200000
)

// Prices of sodium, in parts of what the relaxation pays where whole packs come to the
// end of the slack. Whole packs give up some sodium for much less of the first aim than
// the relaxation does at that end: a tenth of the price already brings nearly all, and
// leaves the search its eye for the first aim. Higher ones follow while the slack lasts.
const (
	firstPrice  = 0.1
	higherPrice = 3
	mostPrice   = 3
)

// crumbRounds is how often what people eat is weighed anew before crumbs are given up
// one by one: the less somebody has of a food, the more a gram of it counts, so that
// small amounts go and few foods are left.
const crumbRounds = 4

// addedOfKind is how many foods of a kind may come in.
const addedOfKind = 6

// costStep is the part of the value under which the cost of a move counts as none.
const costStep = 1e-4

// scoreStep is the least gain that counts.
const scoreStep = 1e-6

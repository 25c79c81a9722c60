package menu

// The budgets and tolerances of a menu: work in simplex iterations, how often steps are
// repeated, and what the arithmetic leaves. The rules and costs of a menu stand where they
// are used. Sizes without a measurement are common practice, no source.

// chooseGap and chooseWork end the search: counts within a few percent of the best
// are as good, the days decide.
const (
	chooseGap  = 0.03
	chooseWork = 5_000
)

// Dishes are priced in until none is worth more, in so many rounds at most; a round takes
// so many of the household's and of each person's own, those that are worth most. Of 30, 20,
// 15 and 10 shared dishes a round 15 took the fewest iterations.
const (
	priceRounds  = 10
	pricedShared = 15
	pricedOwn    = 3
	pricedFrom   = 1e-6 // that a dish is worth at least, as a part of the value
)

// dinerWork ends the search for one person's dishes.
const dinerWork = 3000

// moveWork is how many simplex iterations are spent on moves, and moveGain what a move must
// bring at least, as a part of what the point costs: of 32 random households single moves
// took the cost of the rounded point from 67,600 to 44,400 in the geometric mean; four times
// the work to 43,400. moveWeak is what a move that brought nothing leaves of what is expected
// of others with the same meal.
const (
	moveWork = 7_000
	moveGain = 1e-4
	moveWeak = 0.5
)

// hostUp is the part of the packs still in parts that a round takes up to whole ones.
const hostUp = 0.2

// shareWork is the simplex iterations in which servings are shared out at most: thirty times
// what a household of five for 14 days takes.
const shareWork = 60_000

// againPart is in how many iterations, as a part of the rows, a program is solved from where
// others ended: where packs are opened for many, that takes longer than from nothing, and no
// more of the household's are begun so.
const againPart = 0.25

// coldPart is likewise of a program that is solved from nothing: one is usual, and what goes
// in circles is begun from where others ended after all.
const coldPart = 5

// loosePart is in how many iterations, as a part of the rows, what each person eats is
// bettered from where it is fixed: 0.25 is usual for a household of five, 0.4 where rules of
// children bind, 0.95 at most was seen. All at once takes 1.1 to 2.2, and goes in circles
// beyond allOncePart; where it cannot be shared out as it is at the point, it has all the work.
const (
	loosePart   = 0.7
	allOncePart = 2.5
)

// crumbPasses is how often crumbs are looked for.
const crumbPasses = 3

// crumbPart is in how many iterations, as a part of the rows, one of them ends at most: a
// hundredth is usual, and what takes more has lost its way.
const crumbPart = 0.1

// repairs is how often meals without a dish, or with one that lacks what makes it, are
// looked for and dishes of one's own put there.
const repairs = 3

// exchanges is how many exchanges of two places are tried.
const exchanges = 30_000

// wholePack is how near to a whole number counts as whole: the simplex method's
// tolerance, with room.
const wholePack = 1e-6

// leastG is the grams under which nothing is served: what the arithmetic leaves.
const leastG = 1e-6

// leastPointG is the grams under which a point has none of a food: what the arithmetic leaves.
const leastPointG = 1e-9

// pointRoom is how far the limits that bind at the point are moved off it, as a part of what
// is added up there: with none the point itself misses some by rounding, 1e-15, and with what
// everybody eats fixed no pivot is left to mend that. Of a woman, a boy and a toddler three
// solves ended so before a fourth took 5,000 iterations; all at once takes 1,600.
const pointRoom = 1e-9

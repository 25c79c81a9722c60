package withmenu

// The budgets and tolerances of a plan with its menu: parts of the time and the work,
// simplex iterations, how many foods its relaxations choose among, and what counts as
// nothing. Sizes without a measurement are common practice, no source.

// Parts of the time that is left, and of the work that the whole stands for: of the plan
// without dishes, of the packs with dishes, of the second aim. Common practice, no
// source: the days take twice as long as the choice of dishes.
const (
	freeEffort = 0.2
	freePart   = 0.35
	packEffort = 0.2
	packPart   = 0.3
	aimEffort  = 0.1
	aimPart    = 0.3
	// latePart is of the second aim without dishes where the time for them ended.
	latePart = 0.15
	// choicePart is of the dishes, so that where they are not chosen by then there is time for
	// the menu nearest to the plan.
	choicePart = 0.5
	// dishPart is for all with dishes, so that there is some for the plan without them
	// where no such plan is found.
	dishPart = 0.9
	// harmedEffort and harmedPart are of the second aim where it first seeks the least
	// sodium for those whom it harms.
	harmedEffort = 0.4
	harmedPart   = 0.35
	// harmedFreePart is of the plan without dishes, which then seeks it too.
	harmedFreePart = 0.4
)

// Foods from which dishes are made: nearestFoods beside those that nobody may eat, of a
// ration of some forty; then, while the relaxation with dishes is more than nearFree over
// that without, in at most priceRounds rounds the foods that are worth most at its prices,
// mostPriced at a time, or where none is worth anything and there are no dishes yet, the
// nearest again. Of more than manyFoods, the dishes are those of the smaller set in which
// every food has one, and those for children, but for the last way. Without these rounds, foods that only dishes
// called for were left out, and dishes added 23 and 26 % to two households of eighty.
const (
	nearestFoods = 60
	manyFoods    = 140
	priceRounds  = 5
	mostPriced   = 25
	nearFree     = 0.01
)

// alikeWork is the simplex iterations of [alike] at most: ten times what a household of
// five needs.
const alikeWork = 20_000

// chosenTolerance is the servings over which the relaxation chooses a dish, and how near
// to a whole number counts as whole: the simplex method's tolerance, with room.
const chosenTolerance = 1e-6

// worseAgain is by which part a plan made again may be dearer than the one that there is: where
// rules give, the little time that is left can end far from it.
const worseAgain = 0.01

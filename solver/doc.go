// Package solver is the map of the packages below it. A question passes through
// them in this order:
//
//	ration    what is asked: a Request, read from files and flags
//	rules     who may eat what and how much, cooked how: pure functions of it
//	model     rows and columns that say what they are; built once
//	search    from the model to a point: relaxation, dive, branch and cut
//	aim       what people eat gladly, within a slack of the first aim
//	elastic   nothing fits: the ration that comes closest
//	conflict  nothing fits: which limits conflict, and ways out that were tried
//	answer    the point as a plan: totals, status, bound, gap, prices, notes
//	verify    the plan checked from the tables, by rules of its own
//	recheck   a plan that was read back, against what it says of itself
//
// The questions are plan, check, swap, why and community (a store shared among
// households), a package each; withmenu chooses packs and dishes together, menu spreads a
// plan over days, and menucheck holds a menu to its rules; stockpile says what a plan takes
// beside the food. The engine below (linear, simplex, branch, referee) knows rows and
// columns, never food. None touches a terminal or HTML.
package solver

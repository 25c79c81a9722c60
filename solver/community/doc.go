// Package community shares a common stock and a common budget among households:
// first the worst served is served as well as can be, then it costs as little as can
// be.
//
// How well a household is served is its level: the part, the same for everyone in it,
// of every need that has a floor and may be missed. Milk for infants, water to drink,
// what is set aside against a low blood sugar, a clinician's orders, allergies and
// ceilings hold at every level.
//
// Households meet only in what is common. The program of all is taken apart into one
// for each household, with prices on the packs of the stock, on money and on the level
// (G. B. Dantzig, P. Wolfe, "Decomposition principle for linear programs", Operations
// Research 8 (1960)): a master program puts together what the households found at
// earlier prices, and its duals are the next. At any prices the sum of what the
// households find bounds what all can reach together, so that every answer has its
// proven gap.
package community

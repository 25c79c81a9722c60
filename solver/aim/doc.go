// Package aim spends a stated slack on what people eat gladly: among the plans that
// cost, weigh or fill hardly more than the best found, it seeks the one with few
// products and pack sizes, portions instead of crumbs, no pack opened for a
// spoonful, some variety and something warm or sweet.
//
// It is a mixed-integer program of its own over the columns of the ration model,
//
//	minimise  Σ weights of [ration.Weights]   subject to the model and  c x ≤ (1 + slack) c x₁
//
// with a bound of its own: that of its relaxation over all foods, valid for the
// whole, while the search is among some of them.
package aim

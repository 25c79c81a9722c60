package ration

// CheckTolerance is how far, relative to an amount (absolute under 1 unit), a figure
// computed again may lie beside it: the tolerance of the independent check, [verify.Tolerance], which it equals.
const CheckTolerance = 1e-6

// newsTol is how far past a limit, as a fraction of it, an amount is worth a
// headline: ten times the tolerance of the check of a plan.
const newsTol = 1e-5

package ration

// CheckTolerance is how far, relative to an amount (absolute under 1 unit), a figure
// computed again may lie beside it: see [verify.Tolerance], which it equals.
const CheckTolerance = 1e-6

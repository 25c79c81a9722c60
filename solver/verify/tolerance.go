package verify

// Tolerance is how far, relative to a limit (absolute under 1 unit), a recomputed
// amount may lie beyond it: the simplex method works to 1e-7 on scaled rows and
// plans carry their grams in full, so that one part in a million is rounding and
// more is a fault.
const Tolerance = 1e-6

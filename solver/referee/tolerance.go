package referee

// The tolerances of the second opinion, each with what it is compared with.

// Tolerance is the relative difference up to which two figures count as the
// same: gonum stops at reduced costs of 1e-9 on scaled data, and program
// figures come with six or so digits.
const Tolerance = 1e-7

// costTolerance is where gonum stops: no reduced cost below minus this, on
// costs scaled to at most one.
const costTolerance = 1e-10

// columnReads bounds a run of gonum: it reads one column for every pivot, a
// few more when it looks for a way around a degenerate vertex. A program with
// 60 rows and 170 columns takes about 200 pivots.
const columnReads = 20000

// rankTolerance is the size, relative to the largest coefficient of its row,
// below which what is left of an equation after elimination counts as nothing.
// Coefficients have up to seven digits; elimination loses a few of sixteen.
const rankTolerance = 1e-9

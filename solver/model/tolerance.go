package model

// The tolerances of rows and amounts, each with what it is compared with.

// loosenedTolerance is how far over its limit, relative, a planning rule is still
// kept: ten times what the simplex method leaves on scaled rows.
const loosenedTolerance = 1e-6

// raisedBy is how far over a declared amount a loosened rule lies, relative: room
// for what rounds in writing and reading a plan, far under the check's tolerance.
const raisedBy = 1e-8

// packDust is the part of a pack that counts as none when packs are rounded up:
// of the largest pack, 9 kg, it is less than what the independent check lets pass.
const packDust = 1e-10

// Dust is the amount of a food under which nobody is said to eat it, in g over
// the horizon: well under what a kitchen scale shows, and far above the
// residue of floating-point arithmetic.
const Dust = 1e-6

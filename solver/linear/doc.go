// Package linear holds a linear or mixed-integer program as plain data: rows,
// columns, bounds and integrality, with names. It checks itself, prints itself
// as algebra, reads and writes the MPS format, and says what a point, a set of
// row multipliers or a ray means to it, without any solver. It knows nothing of
// food.
package linear

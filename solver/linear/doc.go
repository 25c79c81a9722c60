// Package linear holds a linear or mixed-integer program as plain data: rows,
// columns, bounds and integrality, with names. It checks itself, prints itself
// as algebra, and reads and writes the MPS format. It knows nothing of food.
package linear

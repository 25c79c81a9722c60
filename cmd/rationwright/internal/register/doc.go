// Package register reads a register of households, one after the other, however many
// there are. A register is household.csv with a column household beside the others,
// the rows of one household standing together, or NDJSON: one object a line with an id
// and the rows of its household.
//
// A household that cannot be read is handed on with what is wrong with it and where;
// those after it are read all the same. Only a file that is no register ends the
// reading.
package register

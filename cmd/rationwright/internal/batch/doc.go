// Package batch plans every household of a register: one line of results for each, in
// the order of the register.
//
// What a line says depends on its household and on what is asked, and on nothing
// else: neither on the clock nor on what was planned before, beside or after it. So
// that the work is the same wherever and in whatever pieces it is done, and lines
// that are there already need not be made again.
package batch

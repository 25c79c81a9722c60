// Package check says what a stock is worth to a household: how long it lasts,
// what it lacks, what to eat first, and the cheapest completion.
package check

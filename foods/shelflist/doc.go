// Package shelflist reads a line as people write it on the list of a shelf ("6 tins
// of sardines, 120 g", "2 x rice 1kg", "half a 1 kg bag of oats, best before
// 2027-03"): how many, in what, how much in each, of what, until when. It knows no
// foods; the food table above it says what the words mean.
//
// A line that leaves a number unexplained is refused, never guessed at.
package shelflist

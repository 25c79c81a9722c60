// Package demo holds the demo household of Ternsund, an invented island
// community whose ferry stops for two weeks in winter storms. Nobody in it
// exists.
package demo

import _ "embed"

// Household is a household.csv of five people of different age and sex without
// any special condition. It is used where no household is given, and every
// output made from it says so.
//
//go:embed household.csv
var Household []byte

// Name is what errors and notes call the demo household.
const Name = "demo household.csv"

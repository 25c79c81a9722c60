// Package why says what a plan's limits and foods are worth: shadow prices,
// and prices to enter and to leave.
package why

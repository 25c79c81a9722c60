// Package stockpile says what a plan takes beside the food: water and its
// containers, fuel, room, and when to renew and replace what is kept.
package stockpile

// Package swap changes a plan so that foods go, with the fewest changes of
// other packs, and ranks what could stand in for a food.
package swap

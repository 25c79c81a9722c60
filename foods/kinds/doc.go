// Package kinds holds the words that people have for food: named sets of foods,
// nested in one another (fish holds oily fish, oily fish holds sardines), with
// the words that stand for each in British and American shops, and the words that
// could stand for several.
//
// It knows foods by their NDB numbers only; the food table above it gives them
// their rows, see foods.Table.Resolve. Words are compared as people write them:
// letters without case and accents, a plural as its singular, the spellings of
// data/spelling.csv as one, with or without a blank (cornflour, corn flour), and
// with a container in front (tinned carrots, jar of jam) where the whole means
// nothing else.
//
// The grouping and the choice of words are this program's own, no source.
package kinds

// Package dishes holds what people eat: dishes with their parts, each part a kind
// of food with least, usual and most grams for an adult's serving, how the dish is
// cooked, with how much water, in how many minutes and pots, for whom it is meant,
// and how often in a fortnight it is taken gladly.
//
// A [Book] is bound to a food table: every part knows which foods of the table can
// make it, and how many grams of a substitute stand for one. Users add dishes of
// their own in the same two files. A test recomputes every printed figure
// from the food table. Household measures come from the USDA table of weights.
//
// Dishes, amounts and repeats are this program's own kitchen judgement, no source;
// energy and nutrients are computed from USDA SR28 rows.
package dishes

// Package withmenu chooses packs and dishes together, so that everything eaten is part
// of a dish and the days are even.
//
// It goes from a plan without dishes, whose proven bound holds for every plan with
// dishes too, by four steps:
//
//  1. choose: the relaxation of the ration model and its dishes ([model.Model.AddDishes])
//     over the foods of that plan and those next in price; a dive makes the counts of
//     dishes whole;
//  2. packs: the search for whole packs with these counts, and the second aim;
//  3. days: the dishes on days and packs opened for them, as for any plan ([menu.MakeGiven]);
//  4. plates: what each person eats at each meal, in one linear program with the rows of
//     the ration model and those of the days.
//
// The plan is checked as every plan is. Where a step finds nothing, the plan without
// dishes and the menu nearest to it are the answer, and say so.
package withmenu

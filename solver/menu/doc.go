// Package menu spreads a plan over days and meals: which dish is on the table when,
// what is opened for it, and how much of what each person gets, so that every gram
// of the plan is eaten and every pack of it opened.
//
// It works in four steps, each a small program of its own:
//
//  1. openings: packs that do not keep once opened are grouped into openings, as few
//     as their eaters can empty in time;
//  2. choose: how often each dish is served, a whole-number program over the
//     household that leaves the least of the plan without a dish, and who has a dish of
//     their own instead, since what they have makes none of the household's;
//  3. layout: which dish on which day, by exchanges: never one dish on two days
//     running, each day near the mean, cold dishes on cold days;
//  4. share: what each person gets at each meal, a linear program in which the grams
//     of the plan and the contents of what is opened are hard, and the size of a
//     serving, the energy, the protein and the carbohydrate of a day are goals.
//
// The work grows with the people, not with their square: more than eight are shared out to
// in parties, and their packs are opened as for eight who stand for them.
//
// What does not fit is said, never hidden: see [Menu.Misfits].
package menu

// Package nutrients holds what people require: nutrients and units, people and
// life stages, published requirements and energy equations. It follows the
// Dietary Reference Intakes of the US National Academies, whose figures stand
// with their sources in data/. It departs from them, on the safe side, in that
//
//   - the niacin requirement, in niacin equivalents, is held against preformed
//     niacin alone, the only form in the food table;
//   - upper levels are held against food only where they count food: never
//     those of vitamin E, niacin, folate and magnesium, and that of vitamin A
//     against retinol;
//   - people of 65 and over get 1.0 g of protein per kg, by expert groups;
//   - children without a given body take one between the reference bodies, at
//     their own age;
//   - infants are fed by volume of milk, and their other figures are shown
//     without being enforced;
//   - a floor that would reach a ceiling or leave no room within the energy is
//     lowered, and says so.
//
// [ReadHousehold] reads people, [For] says what one of them requires. The
// package knows nothing of foods, linear programs or terminals.
package nutrients

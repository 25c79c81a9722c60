// Package foods holds what there is to eat: food composition, packs, groups,
// allergens, who may eat what, keeping times, preparation, the daily pattern of
// food groups, stock and prices. Composition is the USDA National Nutrient
// Database for Standard Reference, Release 28, unchanged; a value that the
// release lacks is unknown, never zero. It knows nothing of a household's
// targets, linear programs or terminals.
//
// The tables in data are embedded. Who may eat what (eligibility.csv), how much
// of it (caps.csv), the pattern (pattern.csv), the order of the shelves
// (groups.csv) and what the release itself has out of tolerance
// (exceptions.csv) are rows with their sources beside them; the code only
// applies them. Where a rule meets an unknown figure it takes the side of
// safety: unknown added sugars are added sugars, unknown lactose is all that
// the food can hold.
package foods

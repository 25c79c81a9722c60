// Package foods holds what there is to eat: food composition, packs, groups,
// allergens, who may eat what, keeping times, preparation, the daily pattern of
// food groups, stock and prices. Composition is the USDA National Nutrient
// Database for Standard Reference, Release 28, unchanged; a value that the
// release lacks is unknown, never zero. It knows nothing of a household's
// targets, linear programs or terminals.
package foods

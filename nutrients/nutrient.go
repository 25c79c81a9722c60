package nutrients

// Nutrient names one column of the food composition table. Its order is the
// column order of the USDA abbreviated table, then the computed columns.
type Nutrient int

// The columns of the table; the unit of each is in [Nutrient.Unit].
const (
	Water Nutrient = iota // g of moisture
	Energy
	Protein
	Fat
	Ash
	Carbohydrate // by difference, fibre included
	Fibre
	Sugars
	Calcium
	Iron
	Magnesium
	Phosphorus
	Potassium
	Sodium
	Zinc
	Copper
	Manganese
	Selenium
	VitaminC
	Thiamin
	Riboflavin
	Niacin // preformed
	PantothenicAcid
	VitaminB6
	FolateTotal
	FolicAcid
	FolateFood
	Folate // dietary folate equivalents
	Choline
	VitaminB12
	VitaminAIU
	VitaminA // retinol activity equivalents
	Retinol  // preformed vitamin A
	AlphaCarotene
	BetaCarotene
	BetaCryptoxanthin
	Lycopene
	LuteinZeaxanthin
	VitaminE
	VitaminD
	VitaminDIU
	VitaminK
	SaturatedFat
	MonounsaturatedFat
	PolyunsaturatedFat
	Cholesterol
	AddedSugars // computed column, see foods
	Count       // number of columns, not a nutrient
)

var columns = [Count]struct{ name, column, unit string }{
	Water:              {"water", "water_g", "g"},
	Energy:             {"energy", "energy_kcal", "kcal"},
	Protein:            {"protein", "protein_g", "g"},
	Fat:                {"fat", "fat_g", "g"},
	Ash:                {"ash", "ash_g", "g"},
	Carbohydrate:       {"carbohydrate", "carbohydrate_g", "g"},
	Fibre:              {"fibre", "fibre_g", "g"},
	Sugars:             {"sugars", "sugars_g", "g"},
	Calcium:            {"calcium", "calcium_mg", "mg"},
	Iron:               {"iron", "iron_mg", "mg"},
	Magnesium:          {"magnesium", "magnesium_mg", "mg"},
	Phosphorus:         {"phosphorus", "phosphorus_mg", "mg"},
	Potassium:          {"potassium", "potassium_mg", "mg"},
	Sodium:             {"sodium", "sodium_mg", "mg"},
	Zinc:               {"zinc", "zinc_mg", "mg"},
	Copper:             {"copper", "copper_mg", "mg"},
	Manganese:          {"manganese", "manganese_mg", "mg"},
	Selenium:           {"selenium", "selenium_ug", "µg"},
	VitaminC:           {"vitamin_c", "vitamin_c_mg", "mg"},
	Thiamin:            {"thiamin", "thiamin_mg", "mg"},
	Riboflavin:         {"riboflavin", "riboflavin_mg", "mg"},
	Niacin:             {"niacin", "niacin_mg", "mg"},
	PantothenicAcid:    {"pantothenic_acid", "pantothenic_acid_mg", "mg"},
	VitaminB6:          {"vitamin_b6", "vitamin_b6_mg", "mg"},
	FolateTotal:        {"folate_total", "folate_total_ug", "µg"},
	FolicAcid:          {"folic_acid", "folic_acid_ug", "µg"},
	FolateFood:         {"folate_food", "folate_food_ug", "µg"},
	Folate:             {"folate", "folate_dfe_ug", "µg DFE"},
	Choline:            {"choline", "choline_mg", "mg"},
	VitaminB12:         {"vitamin_b12", "vitamin_b12_ug", "µg"},
	VitaminAIU:         {"vitamin_a_iu", "vitamin_a_iu", "IU"},
	VitaminA:           {"vitamin_a", "vitamin_a_rae_ug", "µg RAE"},
	Retinol:            {"retinol", "retinol_ug", "µg"},
	AlphaCarotene:      {"alpha_carotene", "alpha_carotene_ug", "µg"},
	BetaCarotene:       {"beta_carotene", "beta_carotene_ug", "µg"},
	BetaCryptoxanthin:  {"beta_cryptoxanthin", "beta_cryptoxanthin_ug", "µg"},
	Lycopene:           {"lycopene", "lycopene_ug", "µg"},
	LuteinZeaxanthin:   {"lutein_zeaxanthin", "lutein_zeaxanthin_ug", "µg"},
	VitaminE:           {"vitamin_e", "vitamin_e_mg", "mg"},
	VitaminD:           {"vitamin_d", "vitamin_d_ug", "µg"},
	VitaminDIU:         {"vitamin_d_iu", "vitamin_d_iu", "IU"},
	VitaminK:           {"vitamin_k", "vitamin_k_ug", "µg"},
	SaturatedFat:       {"saturated_fat", "fat_saturated_g", "g"},
	MonounsaturatedFat: {"monounsaturated_fat", "fat_monounsaturated_g", "g"},
	PolyunsaturatedFat: {"polyunsaturated_fat", "fat_polyunsaturated_g", "g"},
	Cholesterol:        {"cholesterol", "cholesterol_mg", "mg"},
	AddedSugars:        {"added_sugars", "added_sugars_g", "g"},
}

// Name returns the name used in every output: the name of the requirement
// tables where they have one ("vitamin_a"), else the table's own word.
func (n Nutrient) Name() string { return columns[n].name }

// Column returns the header of n in the food composition table.
func (n Nutrient) Column() string { return columns[n].column }

// Unit returns the unit of n in the food composition table, per 100 g there
// and per day in a need.
func (n Nutrient) Unit() string { return columns[n].unit }

func (n Nutrient) String() string { return n.Name() }

// ByName returns the nutrient called name in outputs; ok is false when none is.
func ByName(name string) (n Nutrient, ok bool) { return called(name, Nutrient.Name) }

// ByColumn returns the nutrient whose column of the food table has the header.
func ByColumn(header string) (n Nutrient, ok bool) { return called(header, Nutrient.Column) }

func called(word string, of func(Nutrient) string) (Nutrient, bool) {
	for n := range Count {
		if of(n) == word {
			return n, true
		}
	}
	return 0, false
}

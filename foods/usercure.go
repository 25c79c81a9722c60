package foods

// cure is the column that a check is about, and what the user does there.
type cure struct{ column, fix string }

// cures are where the user is sent by each check on a food.
var cures = map[string]cure{
	"energy":          {"energy_kcal", "write the kcal of 100 g as on the label, and g of protein, fat and carbohydrate in 100 g"},
	"proximates":      {"carbohydrate_g", "write what 100 g hold, as on the label"},
	"parts":           {"carbohydrate_g", "write what 100 g hold, as on the label"},
	"sugars":          {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"fibre":           {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"fatty acids":     {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"added sugars":    {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"vitamin A":       {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"vitamin D":       {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"folate":          {"carbohydrate_g", "correct the part or the whole: a part is no more than what it is part of"},
	"lactose":         {"lactose_g", "write the lactose of 100 g, at most its sugars"},
	"tags":            {"tags", "add the tag (foods/data/tags.csv says what each means)"},
	"cholesterol":     {"tags", "add the tag (foods/data/tags.csv says what each means)"},
	"pieces":          {"tags", "add the tag (foods/data/tags.csv says what each means)"},
	"allergens":       {"allergens", "add the allergen, as on the label"},
	"mercury":         {"mercury", "write best, good or avoid, as the advice of EPA and FDA about eating fish has it"},
	"companions":      {"companions", "write the foods or groups that it is eaten with"},
	"amounts":         {"occasion_g", "write the most that an adult eats at a sitting, and in a day"},
	"glycaemic index": {"gi_class", "write low up to 55, medium from 56, high from 70"},
	"density":         {"volume_l", "write the litres of the upright box around the pack"},
	"pack":            {"net_g", "write grams as on the label"},
	"price":           {"price", "write a price above 0, or leave the cell empty"},
}

func cureOf(check string) cure {
	if c, ok := cures[check]; ok {
		return c
	}
	return cure{"ndb", "correct the row, or take it out"}
}

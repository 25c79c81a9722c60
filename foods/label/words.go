package label

import (
	"strings"

	"rationwright/nutrients"
)

// meaning is what the name of a line of a label stands for.
type meaning struct {
	nutrient nutrients.Nutrient
	salt     bool   // the figure is salt, the column sodium
	total    bool   // carbohydrate with the fibre in it, whatever the label
	form     string // the word behind the unit without which the label counts another form than the column
	other    bool   // the food table has no column for it
}

// words are the names of lines as labels print them, folded by [foldName].
var words = func() map[string]meaning {
	all := map[string]meaning{}
	for n, names := range map[nutrients.Nutrient]string{
		nutrients.Energy:             "energy;energy value;calories;calorific value;kilojoules",
		nutrients.Fat:                "fat;total fat;fats;fat total",
		nutrients.SaturatedFat:       "saturates;saturated fat;saturated;saturated fats;saturated fatty acids;fat saturated;sat fat",
		nutrients.MonounsaturatedFat: "monounsaturates;monounsaturated fat;mono unsaturates;monounsaturated;monounsaturated fatty acids",
		nutrients.PolyunsaturatedFat: "polyunsaturates;polyunsaturated fat;poly unsaturates;polyunsaturated;polyunsaturated fatty acids",
		nutrients.Carbohydrate:       "carbohydrate;carbohydrates;carbs;available carbohydrate",
		nutrients.Sugars:             "sugars;sugar;total sugars;total sugar",
		nutrients.AddedSugars:        "added sugars;added sugar;includes added sugars;incl added sugars",
		nutrients.Fibre:              "fibre;fiber;dietary fibre;dietary fiber;total dietary fiber",
		nutrients.Protein:            "protein;proteins",
		nutrients.Sodium:             "sodium",
		nutrients.Cholesterol:        "cholesterol",
		nutrients.VitaminC:           "vitamin c;ascorbic acid",
		nutrients.VitaminD:           "vitamin d;vitamin d3;vitamin d2",
		nutrients.VitaminK:           "vitamin k",
		nutrients.Thiamin:            "thiamin;thiamine;vitamin b1",
		nutrients.Riboflavin:         "riboflavin;vitamin b2",
		nutrients.VitaminB6:          "vitamin b6;b6",
		nutrients.VitaminB12:         "vitamin b12;b12;cobalamin",
		nutrients.PantothenicAcid:    "pantothenic acid;vitamin b5",
		nutrients.Choline:            "choline",
		nutrients.Calcium:            "calcium",
		nutrients.Iron:               "iron",
		nutrients.Magnesium:          "magnesium",
		nutrients.Phosphorus:         "phosphorus",
		nutrients.Potassium:          "potassium",
		nutrients.Zinc:               "zinc",
		nutrients.Copper:             "copper",
		nutrients.Manganese:          "manganese",
		nutrients.Selenium:           "selenium",
		nutrients.Water:              "moisture",
	} {
		for name := range strings.SplitSeq(names, ";") {
			all[name] = meaning{nutrient: n}
		}
	}
	for _, special := range []struct {
		names string
		means meaning
	}{
		{"salt", meaning{nutrient: nutrients.Sodium, salt: true}},
		{"total carbohydrate;total carbohydrates;total carb;total carbs", meaning{nutrient: nutrients.Carbohydrate, total: true}},
		{"vitamin a", meaning{nutrient: nutrients.VitaminA, form: "RAE"}},
		{"folate;folic acid;folacin;vitamin b9", meaning{nutrient: nutrients.Folate, form: "DFE"}},
		{"vitamin e", meaning{nutrient: nutrients.VitaminE, form: "alpha-tocopherol"}},
		{"niacin;vitamin b3;nicotinamide", meaning{nutrient: nutrients.Niacin, form: "preformed"}},
		{"trans fat;trans fats;trans;trans fatty acids;starch;polyols;sugar alcohol;sugar alcohols;erythritol;lactose;omega 3;omega 6;omega 3 fatty acids;biotin;iodine;chloride;chromium;molybdenum;fluoride;caffeine;ash;soluble fibre;soluble fiber;insoluble fibre;insoluble fiber;beta glucan;energy from fat;calories from fat;vitamin b7",
			meaning{other: true}},
	} {
		for name := range strings.SplitSeq(special.names, ";") {
			all[name] = special.means
		}
	}
	return all
}()

// foldName is the key of a line's name: lower case, words of letters and digits
// with one blank between them, without "of which" and the like.
func foldName(name string) string {
	fields := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !isWordRune(r) })
	for len(fields) > 0 && (fields[0] == "of" || fields[0] == "which" || fields[0] == "thereof" || fields[0] == "and") {
		fields = fields[1:]
	}
	return strings.Join(fields, " ")
}

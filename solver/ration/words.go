package ration

import (
	"fmt"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// NDBOf is the NDB number of a USDA row, "" for computed and user rows.
func NDBOf(f *foods.Food) string {
	if f.Computed {
		return ""
	}
	return f.NDB
}

// SourceOf carries the mark of figures from memory to the output.
func SourceOf(source, verified string) string {
	source = strings.ReplaceAll(source, " ug", " µg")
	if verified == "from memory" {
		return source + " (from memory)"
	}
	return source
}

// Words says in a line how much carbohydrate a meal of this plan has.
func (m *MealRange) Words(perDay float64) string {
	return fmt.Sprintf("This plan gives %.0f g of carbohydrate a day: about %.0f g at each of %d meals, with %d snacks of %.0f g.",
		perDay, m.MeanG, m.Meals, m.Snacks, m.SnackG)
}

// OrderText names a limit that a clinician ordered.
func OrderText(by, on, limit string) string {
	return fmt.Sprintf("order by %s, %s: %s", by, on, limit)
}

// PlainName is a nutrient's name in words, a vitamin with its capital letter.
func PlainName(n nutrients.Nutrient) string {
	words := Spaced(n.Name())
	if letter, ok := strings.CutPrefix(words, "vitamin "); ok {
		return "vitamin " + strings.ToUpper(letter)
	}
	return words
}

// Spaced writes a key as words.
func Spaced(key string) string {
	return strings.NewReplacer("_", " ", "-", " ").Replace(key)
}

// GroupName is the key of a food group in the output: never that of a nutrient.
func GroupName(group string) string {
	if _, ok := nutrients.ByName(group); ok {
		return group + "-foods"
	}
	return group
}

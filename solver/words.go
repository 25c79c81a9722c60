package solver

import (
	"strings"

	"rationwright/nutrients"
)

// plainName is a nutrient's name with spaces.
func plainName(n nutrients.Nutrient) string { return spaced(n.Name()) }

// spaced writes a key as words.
func spaced(key string) string {
	return strings.NewReplacer("_", " ", "-", " ").Replace(key)
}

// groupName is the key of a food group in the output: never that of a nutrient.
func groupName(group string) string {
	if _, ok := nutrients.ByName(group); ok {
		return group + "-foods"
	}
	return group
}

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

package report

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// ref writes where a figure comes from, with its mark where it has no source
// or is from memory.
func ref(r stores.Ref) string {
	switch {
	case r.NoSource() && (r.Source == "" || strings.Contains(r.Source, "planning value") || r.Source == "trade practice"):
		return "common practice, no source"
	case r.NoSource():
		return r.Source + " (common practice, no source)"
	case r.FromMemory():
		return r.Source + " (from memory)"
	}
	return r.Source
}

// marked carries the mark of a figure that was not seen in print.
func marked(source, verified string) string {
	for _, mark := range []string{"from memory", "common practice, no source"} {
		if verified == mark && !strings.Contains(source, mark) {
			return strings.TrimSpace(source + " (" + mark + ")")
		}
	}
	return source
}

func addOnce(list []string, s string) []string {
	if s == "" || slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// quantitySource is where the quantity of a supply comes from.
func quantitySource(l *stores.KitLine) string {
	if l.QtySource == "as source" {
		return ref(l.Ref)
	}
	return l.QtySource
}

// minutes writes a time in minutes or hours.
func minutes(n int) string {
	if n >= 120 && n%60 == 0 {
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d min", n)
}

// unitOf returns unit, or the unit of the nutrient's own column where none is
// given.
func unitOf(unit, key string) string {
	if unit != "" {
		return unit
	}
	if n, ok := nutrients.ByName(key); ok {
		return n.Unit()
	}
	return ""
}

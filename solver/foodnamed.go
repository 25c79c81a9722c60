package solver

import "rationwright/foods"

// foodNamed is the food of a table called name, nil where there is none.
func foodNamed(t *foods.Table, name string) *foods.Food {
	for _, f := range t.Foods {
		if f.Name == name {
			return f
		}
	}
	return nil
}

// checkTolerance is how far, relative to an amount (absolute under 1 unit), a figure
// computed again may lie beside it: see [verify.Tolerance], which it equals.
const checkTolerance = 1e-6

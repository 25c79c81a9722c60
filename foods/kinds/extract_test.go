package kinds

import (
	"testing"

	"rationwright/nutrients/table/tabletest"
)

// Every amount, age and unit of kind_caps.csv is that of the extract, which was
// taken from a separate table of amounts; what is this program's own planning
// rule stands there as a regression value and says so.
func TestCapsEqualTheirExtract(t *testing.T) {
	tabletest.EqualColumns(t, data, "kind_caps.csv", "../../testdata/foods/kind_caps.csv", 400)
}

// Every kind holds the foods that a separate list of kinds gives it.
func TestKindsEqualTheirExtract(t *testing.T) {
	tabletest.EqualColumns(t, data, "kinds.csv", "../../testdata/foods/kinds.csv", 398)
}

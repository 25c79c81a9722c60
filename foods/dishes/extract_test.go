package dishes

import (
	"testing"

	"rationwright/nutrients/table/tabletest"
)

// Every amount, age, time and part of the dishes is that of the extract, which was taken
// from a separate book of dishes where that has the dish; what is another here, and why
// it may be, and the program's own dishes stand there as regression values and say so.
func TestDishesEqualTheirExtract(t *testing.T) {
	tabletest.EqualColumns(t, data, "dishes.csv", "../../testdata/foods/dishes.csv", 300)
	tabletest.EqualColumns(t, data, "dish_parts.csv", "../../testdata/foods/dish_parts.csv", 1000)
}

// Package label reads the nutrition declaration of a pack as it is printed: per
// 100 g, per 100 mL or per serving, salt or sodium, kJ or kcal, vitamins as
// amounts or as a percentage of a named daily value. It gives the columns of the
// food table, per 100 g of the food as sold.
//
// What a label does not say is unknown, never zero. Where a label counts another
// form than the column does (equivalents of niacin, vitamin A as RE, folic acid
// that is no DFE), the figure is not taken and the label says so.
//
// It follows Regulation (EU) No 1169/2011, annex I and XV, and the Nutrition Facts
// of 21 CFR 101.9 where these differ: carbohydrate holds fibre on the latter and
// not on the former; the column holds it.
package label

package kinds

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

// TestCapsOfAPerson, by hand: the smallest of the planning rules that are about the person, from the
// first month of each to the last, the part of an adult's amount that the age takes, and the smallest
// of the safety rows beside it; of two alike the first.
func TestCapsOfAPerson(t *testing.T) {
	c := &Caps{Rows: []CapRow{
		{Kind: "b", Measure: Day, Who: "all", Value: 100, Unit: Grams, Scaled: true, Source: "1"},
		{Kind: "b", Measure: Day, Who: "all", FromMonths: 24, UnderMonths: 36, Value: 30, Unit: Grams, Source: "2"},
		{Kind: "b", Measure: Day, Who: "pregnant", Value: 70, Unit: Grams, Source: "3"},
		{Kind: "b", Measure: Day, Who: "all", Value: 90, Unit: Grams, Safety: true, Source: "4"},
		{Kind: "b", Measure: Day, Who: "low-sodium", Value: 80, Unit: Grams, Safety: true, Source: "5"},
		{Kind: "b", Measure: Day, Who: "all", Value: 2, Unit: CupEq, Source: "6"},
		{Kind: "b", Measure: Week, Who: "all", None: true, Unit: Grams, Source: "7"},
		{Kind: "a", Measure: Week, Who: "all", Value: 5, Unit: Grams, Source: "8"},
		{Kind: "a", Measure: Week, Who: "all", Value: 5, Unit: Grams, Source: "9"},
		{Kind: "a", Measure: Day, Who: "household", Value: 1, Unit: Grams, Source: "10"},
		{Kind: AnyFood, Measure: scale, Who: "all", UnderMonths: 168, Value: 0.5, Unit: "of an adult", Source: "11"},
	}}
	for _, e := range []struct {
		eater Eater
		want  []Cap
	}{
		{Eater{AgeMonths: 400}, []Cap{
			{"a", Week, 5, Grams, false, "8"}, {"b", Day, 100, Grams, false, "1"}, {"b", Day, 90, Grams, true, "4"}, {"b", Day, 2, CupEq, false, "6"},
		}},
		{Eater{AgeMonths: 168}, []Cap{
			{"a", Week, 5, Grams, false, "8"}, {"b", Day, 100, Grams, false, "1"}, {"b", Day, 90, Grams, true, "4"}, {"b", Day, 2, CupEq, false, "6"},
		}},
		{Eater{AgeMonths: 167, Is: []string{"pregnant", "low-sodium"}}, []Cap{
			{"a", Week, 5, Grams, false, "8"}, {"b", Day, 50, Grams, false, "1"}, {"b", Day, 80, Grams, true, "5"}, {"b", Day, 2, CupEq, false, "6"},
		}},
		{Eater{AgeMonths: 400, Is: []string{"pregnant"}}, []Cap{
			{"a", Week, 5, Grams, false, "8"}, {"b", Day, 70, Grams, false, "3"}, {"b", Day, 90, Grams, true, "4"}, {"b", Day, 2, CupEq, false, "6"},
		}},
	} {
		if got := c.For(e.eater); !slices.Equal(got, e.want) {
			t.Errorf("%+v: %+v, want %+v", e.eater, got, e.want)
		}
	}
	for months, want := range map[int]float64{23: 50, 24: 30, 35: 30, 36: 50} {
		if got := find(c.For(Eater{AgeMonths: months}), "b", Day, false); got == nil || got.Value != want {
			t.Errorf("%d months: %+v, want %g g", months, got, want)
		}
	}
}

// TestCapsOfAHousehold, by hand: from four people on a row for large households stands in place of the
// same for all, and not of one of another kind or measure.
func TestCapsOfAHousehold(t *testing.T) {
	c := &Caps{Rows: []CapRow{
		{Kind: "a", Measure: FoodsMost, Who: "household", Value: 1, Unit: "foods"},
		{Kind: "a", Measure: FoodsMost, Who: "household-4", Value: 3, Unit: "foods"},
		{Kind: "a", Measure: SizesMost, Who: "household", Value: 2, Unit: "sizes"},
		{Kind: "b", Measure: FoodsMost, Who: "household", Value: 4, Unit: "foods"},
		{Kind: "c", Measure: FoodsMost, Who: "all", Value: 5, Unit: "foods"},
		{Kind: "d", Measure: FoodsMost, Who: "household-4", Value: 6, Unit: "foods"},
	}}
	small := []Cap{{"a", FoodsMost, 1, "foods", false, ""}, {"a", SizesMost, 2, "sizes", false, ""}, {"b", FoodsMost, 4, "foods", false, ""}}
	large := []Cap{{"a", FoodsMost, 3, "foods", false, ""}, {"a", SizesMost, 2, "sizes", false, ""}, {"b", FoodsMost, 4, "foods", false, ""}, {"d", FoodsMost, 6, "foods", false, ""}}
	for people, want := range map[int][]Cap{1: small, 3: small, 4: large, 20: large} {
		if got := c.Household(people); !slices.Equal(got, want) {
			t.Errorf("%d people: %+v, want %+v", people, got, want)
		}
	}
}

// TestOwnCap: a row of the user's is read cell by cell; what it leaves out is said of everybody, of
// the household where the measure is one of it, in the first unit of the measure, at every age.
func TestOwnCap(t *testing.T) {
	const header = "kind,measure,value,unit,who,from_months,under_months,by_age,safety,reason,source,verified\n"
	for _, c := range []struct {
		row  string
		want CapRow
	}{
		{"oats,day,250,,,,,,,,,", CapRow{Kind: "oats", Measure: Day, Who: "all", Value: 250, Unit: Grams, Source: "the user's own limit"}},
		{"oats,day,2,cup-eq,pregnant,12,13,scaled,yes,why,where,how", CapRow{Kind: "oats", Measure: Day, Who: "pregnant", FromMonths: 12, UnderMonths: 13, Value: 2, Unit: CupEq, Scaled: true, Safety: true, Reason: "why", Source: "where", Verified: "how"}},
		{"oats,day,,,,,,flat,no,,,", CapRow{Kind: "oats", Measure: Day, Who: "all", None: true, Unit: Grams, Source: "the user's own limit"}},
		{"any food,sizes-most,3,,,,,,,,,", CapRow{Kind: AnyFood, Measure: SizesMost, Who: "household", Value: 3, Unit: "sizes", Source: "the user's own limit"}},
		{"oats,foods-most,3,,,,,,,,,", CapRow{Kind: "oats", Measure: FoodsMost, Who: "household", Value: 3, Unit: "foods", Source: "the user's own limit"}},
		{"oats,foods-least,3,,,,,,,,,", CapRow{Kind: "oats", Measure: FoodsLeast, Who: "household", Value: 3, Unit: "foods", Source: "the user's own limit"}},
		{"oats,foods-most,3,,household-4,,,,,,,", CapRow{Kind: "oats", Measure: FoodsMost, Who: "household-4", Value: 3, Unit: "foods", Source: "the user's own limit"}},
		{"Any kind,share,100000,,,1500,,,,,,", CapRow{}},
		{"any kind,share,100000,,,1500,,,,,,", CapRow{Kind: AnyKind, Measure: Share, Who: "all", FromMonths: 1500, Value: 100000, Unit: PartOfEnergy, Source: "the user's own limit"}},
		{"oats,day,0,,,,1,,,,,", CapRow{Kind: "oats", Measure: Day, Who: "all", UnderMonths: 1, Unit: Grams, Source: "the user's own limit"}},
	} {
		rows, _, err := readCaps("own.csv", strings.NewReader(header+c.row+"\n"))
		if c.want.Kind == "" {
			if !errors.Is(err, errUnknown) {
				t.Errorf("%s: %+v, %v; want no such kind", c.row, rows, err)
			}
			continue
		}
		if err != nil || len(rows) != 1 || rows[0] != c.want {
			t.Errorf("%s: %+v, %v; want %+v", c.row, rows, err, c.want)
		}
	}
	for row, want := range map[string]string{ // the one fault
		"oats,dya,250,g,,,,,,,,":             `own.csv:2:6: measure "dya"`,
		"oats,day,250,foods,,,,,,,,":         `own.csv:2:14: unit "foods": not a unit of day; write g or cup-eq or mg caffeine`,
		"oats,day,,,,,,,yes,,,":              `value "": a safety row needs a value`,
		"oats,day,100001,,,,,,,,,":           `value "100001": out of range`,
		"oats,day,5,,,12,12,,,,,":            `under_months "12": out of range; write an age above from_months`,
		"oats,day,5,,,,0,,,,,":               `under_months "0": out of range`,
		"oats,day,5,,,1501,,,,,,":            `from_months "1501": out of range`,
		"oats,day,5,,everybody,,,,,,,":       `who "everybody"`,
		"oats,day,5,,,,,half,,,,":            `by_age "half"`,
		"no such kind at all,day,5,,,,,,,,,": `kind "no such kind at all": no such kind`,
	} {
		_, _, err := readCaps("own.csv", strings.NewReader(header+row+"\n"))
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want one fault with %s", row, err, want)
		}
	}
	if edited, _, err := loadCaps(t).Edit("own.csv", strings.NewReader("")); edited != nil || err == nil {
		t.Errorf("an empty file: %v, %v", edited, err)
	}
	var faults *table.Errors
	if _, _, err := loadCaps(t).Edit("own.csv", strings.NewReader(header+"oats,dya,250,g,,,,,,,,\nxyzzy,day,1,,,,,,,,,\n")); !errors.As(err, &faults) || len(faults.List) != 2 {
		t.Errorf("%v, want both faults", err)
	}
}

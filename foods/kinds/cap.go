package kinds

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"rationwright/nutrients/table"
)

// Measure says what a cap limits. The sitting, day, week and days-week are of one
// person; foods-most, foods-least and sizes-most of a household.
type Measure string

// The measures of data/kind_caps.csv, with the unit of each.
const (
	Sitting    Measure = "sitting"     // most at one sitting: g, cup-eq or mg caffeine
	Day        Measure = "day"         // most in a day, on average over the plan: g, cup-eq or mg caffeine
	Week       Measure = "week"        // most in seven days: g
	DaysWeek   Measure = "days-week"   // most days of a week on which it is eaten at all: days
	Share      Measure = "share"       // most of the energy of all days: % of energy
	Alone      Measure = "alone"       // 0: never eaten outside a dish: g
	Least      Measure = "least"       // who eats a food eats at least this of it in a fortnight: servings
	LeastTimes Measure = "least-times" // as least: sittings
	SizesMost  Measure = "sizes-most"  // most pack sizes of one food: sizes
	FoodsMost  Measure = "foods-most"  // most different foods of the kind: foods
	FoodsLeast Measure = "foods-least" // least different foods of the kind in a fortnight, where it is eaten on most days: foods

	scale Measure = "scale" // what part of an adult's amount an age takes
)

// The kinds of a cap that is about each food, or each kind, by itself. A kind
// with a share of its own has that instead of the share of AnyKind.
const (
	AnyFood = "any food"
	AnyKind = "any kind"
)

// Units of caps.
const (
	Grams        = "g"      // on the basis of the food's row: dry rice dry, drained fish drained
	CupEq        = "cup-eq" // cup equivalents of the food pattern
	MgCaffeine   = "mg caffeine"
	PartOfEnergy = "% of energy"
)

var unitsOf = map[Measure][]string{
	Sitting: {Grams, CupEq, MgCaffeine}, Day: {Grams, CupEq, MgCaffeine}, Week: {Grams, CupEq}, DaysWeek: {"days"},
	Share: {PartOfEnergy}, Alone: {Grams}, Least: {"servings"}, LeastTimes: {"sittings"},
	SizesMost: {"sizes"}, FoodsMost: {"foods"}, FoodsLeast: {"foods"}, scale: {"of an adult"},
}

// CapRow is one row of data/kind_caps.csv, as it stands there.
type CapRow struct {
	Kind        string // the name of a kind, AnyFood or AnyKind
	Measure     Measure
	Who         string // all, pregnant, lactating, or a condition as in household.csv; household, or household-4: of four and more
	FromMonths  int    // full months of age from which it holds
	UnderMonths int    // and below which; 0 no end
	Value       float64
	None        bool // the cell is empty: a user's row that lifts a planning rule
	Unit        string
	Scaled      bool   // Value is that of someone from 14 to 64 years; other ages take the row "scale" of it
	Safety      bool   // never lifted or loosened; every other row is a planning rule of this program
	Reason      string // plain words
	Source      string
	Verified    string
}

// Caps are the limits on kinds of food: a table, from which a model builds its
// rows and a check that shares no code with it can read the same figures from
// Rows.
type Caps struct{ Rows []CapRow }

// Eater is what caps ask of a person.
type Eater struct {
	AgeMonths int      // full months
	Is        []string // other words of [CapRow.Who] that are about them: pregnant, lactating, conditions
}

// Cap is a limit as it holds for one person or household.
type Cap struct {
	Kind    string // as in [CapRow]
	Measure Measure
	Value   float64 // in Unit, scaled to the age
	Unit    string
	Safety  bool
	Source  string
}

// For returns the caps of one person, by kind and measure: the smallest of the
// planning rules that are about them, and, apart from it, the smallest of the
// safety rows, which stays when the other is loosened. Children under a year have
// safety rows only: their amounts are those of complementary feeding.
func (c *Caps) For(e Eater) []Cap {
	part := 1.0
	for _, r := range c.Rows {
		if r.Measure == scale && r.about(e) {
			part = r.Value
		}
	}
	return c.smallest(func(r *CapRow) (float64, bool) {
		switch {
		case r.Measure == scale || !r.about(e):
			return 0, false
		case r.Scaled:
			return part * r.Value, true
		}
		return r.Value, true
	})
}

func (r *CapRow) about(e Eater) bool {
	if r.Who != "all" && !slices.Contains(e.Is, r.Who) {
		return false
	}
	return e.AgeMonths >= r.FromMonths && (r.UnderMonths == 0 || e.AgeMonths < r.UnderMonths)
}

// Household returns the caps of a household of so many people.
func (c *Caps) Household(people int) []Cap {
	const large = 4
	large4 := people >= large
	return c.smallest(func(r *CapRow) (float64, bool) {
		// A row for large households stands in place of the same for all.
		stands := r.Who == "household-4" && large4 || r.Who == "household" && !(large4 && slices.ContainsFunc(c.Rows, func(o CapRow) bool {
			return o.Who == "household-4" && o.Kind == r.Kind && o.Measure == r.Measure
		}))
		return r.Value, stands
	})
}

// smallest gathers the rows that value accepts: one cap for each kind, measure,
// unit and safety; of foods-least the largest.
func (c *Caps) smallest(value func(*CapRow) (float64, bool)) []Cap {
	type key struct {
		kind    string
		measure Measure
		unit    string
		safety  bool
	}
	at := map[key]int{}
	var caps []Cap
	for i := range c.Rows {
		r := &c.Rows[i]
		v, ok := value(r)
		if !ok || r.None {
			continue
		}
		k := key{r.Kind, r.Measure, r.Unit, r.Safety}
		found := Cap{r.Kind, r.Measure, v, r.Unit, r.Safety, r.Source}
		if j, twice := at[k]; !twice {
			at[k] = len(caps)
			caps = append(caps, found)
		} else if v < caps[j].Value {
			caps[j] = found
		}
	}
	slices.SortStableFunc(caps, func(a, b Cap) int {
		return cmp.Or(strings.Compare(a.Kind, b.Kind), strings.Compare(string(a.Measure), string(b.Measure)))
	})
	return caps
}

// capConditions are the conditions, as in household.csv, that a row can be about.
var capConditions = []string{
	"low-sodium", "heart-failure", "kidney-disease", "warfarin", "diabetes-1", "diabetes-2", "diabetes-2-diet", "diabetes-pregnancy",
}

var capColumns = append(table.Filled.Columns("kind measure"),
	table.Optional.Columns("value unit who from_months under_months by_age safety reason source verified")...)

// LoadCaps returns the caps of data/kind_caps.csv, parsed once. They must not be
// changed. An error means that the embedded data are broken.
var LoadCaps = sync.OnceValues(func() (*Caps, error) {
	text, err := data.ReadFile("data/kind_caps.csv")
	if err != nil {
		return nil, fmt.Errorf("kinds: %w", err)
	}
	rows, _, err := readCaps("foods/kinds/data/kind_caps.csv", bytes.NewReader(text))
	return &Caps{rows}, err
})

// Edit returns the caps with those of a user's file in place of the planning
// rules for the same kind and measure; an empty value lifts them. The columns are
// those of data/kind_caps.csv; only kind, measure and value are needed. Safety
// rows stay whatever the file says. The error is a [*table.Errors] with every
// fault of the file.
func (c *Caps) Edit(file string, r io.Reader) (edited *Caps, warnings []string, err error) {
	rows, warnings, err := readCaps(file, r)
	if err != nil {
		return nil, nil, err
	}
	kept := slices.DeleteFunc(slices.Clone(c.Rows), func(old CapRow) bool {
		return !old.Safety && slices.ContainsFunc(rows, func(own CapRow) bool { return own.Kind == old.Kind && own.Measure == old.Measure })
	})
	return &Caps{append(kept, rows...)}, warnings, nil
}

// Bounds of the cells: what lies beyond is a slip.
const (
	mostMonths = 1500
	mostValue  = 100_000
)

func readCaps(file string, r io.Reader) ([]CapRow, []string, error) {
	all, err := Load()
	if err != nil {
		return nil, nil, err
	}
	in, err := table.Read(file, r, capColumns)
	if in == nil {
		return nil, nil, err
	}
	var rows []CapRow
	for _, row := range in.Rows {
		rows = append(rows, readCap(row, all))
	}
	return rows, in.Warnings, in.Err()
}

func readCap(row *table.Row, all *Table) CapRow {
	c := CapRow{
		Measure: Measure(row.Choice("measure", string(Sitting), string(Day), string(Week), string(DaysWeek), string(Share), string(Alone),
			string(Least), string(LeastTimes), string(SizesMost), string(FoodsMost), string(FoodsLeast), string(scale))),
		Who: "all", Unit: row.Text("unit"),
		Safety: row.Yes("safety"), Scaled: row.Choice("by_age", "scaled", "flat") == "scaled",
		Reason: row.Text("reason"), Source: row.Text("source"), Verified: row.Text("verified"),
	}
	if row.Has("who") {
		c.Who = row.Choice("who", append([]string{"all", "pregnant", "lactating", "household", "household-4"}, capConditions...)...)
	} else if c.Measure == SizesMost || c.Measure == FoodsMost || c.Measure == FoodsLeast {
		c.Who = "household"
	}
	switch name := row.Text("kind"); name {
	case AnyFood, AnyKind:
		c.Kind = name
	default:
		if kind, _ := all.Find(name); kind != nil {
			c.Kind = kind.Name
		} else {
			row.Fail("kind", errUnknown, "write a word that \"foods show\" knows as a kind, "+AnyFood+" or "+AnyKind)
		}
	}
	units := unitsOf[c.Measure]
	switch {
	case c.Unit == "" && len(units) > 0:
		c.Unit = units[0]
	case len(units) > 0 && !slices.Contains(units, c.Unit):
		row.Fail("unit", fmt.Errorf("not a unit of %s", c.Measure), "write "+strings.Join(units, " or "))
	}
	if row.Has("value") {
		c.Value, _ = row.Float("value", 0, mostValue)
	} else if c.None = true; c.Safety {
		row.Fail("value", errors.New("a safety row needs a value"), "write it, or leave the row out")
	}
	c.FromMonths, _ = row.Int("from_months", 0, mostMonths)
	if under, ok := row.Int("under_months", 1, mostMonths); ok {
		if c.UnderMonths = under; under <= c.FromMonths {
			row.Fail("under_months", table.ErrRange, "write an age above from_months")
		}
	}
	c.Source = cmp.Or(c.Source, "the user's own limit")
	return c
}

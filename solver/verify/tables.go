package verify

import (
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"rationwright/foods"
	"rationwright/nutrients"
)

// tables are the rows of the data files that say how much of a food people eat
// and how it is made ready, read here once more and on their own.
type tables struct {
	caps    []capLine
	pattern []patternLine
	making  map[string]making // by form of food
}

// capLine is one row of caps.csv: an amount for people of some age.
type capLine struct {
	key, who    string
	from, under int // full months; under -1 means no upper end
	value       float64
}

// patternLine is one row of pattern.csv.
type patternLine struct {
	pattern, group         string
	kcal, published, scale float64
}

// making is how 100 g of a form of food is made ready.
type making struct {
	waterL   float64 // stored water taken, soaking water that is thrown away too
	eatenL   float64 // of it what is eaten
	usefulMJ float64 // into the pot
}

var readTables = sync.OnceValues(func() (*tables, error) {
	t := &tables{making: map[string]making{}}
	return t, errors.Join(
		eachRow("caps.csv", func(r *row) {
			t.caps = append(t.caps, capLine{key: r.text["cap"], who: r.text["who"], from: int(r.number("from_months", 0)),
				under: int(r.number("under_months", -1)), value: r.number("value", 0)})
		}),
		eachRow("pattern.csv", func(r *row) {
			t.pattern = append(t.pattern, patternLine{r.text["pattern"], r.text["group"],
				r.number("kcal_level", 0), r.number("published_per_day", 0), r.number("scale", 0)})
		}),
		eachRow("preparation.csv", func(r *row) { t.making[r.text["form"]] = makingOf(r) }))
})

// Physics and kitchen figures of heating a pot; each is a row of the fuel rules
// (fuel_rules.csv), named beside it.
const (
	waterKJPerKgK = 4.186 // water_specific_heat
	kelvin        = 85    // energy_to_boil_1_l_from_15c: from 15 °C to the boil
	steamMJPerKg  = 2.257 // latent_heat_steam
	lidOnW        = 200   // simmer_power_lid_on: common practice, no source
	openPanW      = 500   // simmer_power_no_lid: common practice, no source
	potKg         = 2     // what the pot of the two powers holds
)

// makingOf works out the water and the heat of 100 g:
//
//	m·4.186·85/1000 kJ + the larger of P·60·t·m/2 and the steam that is lost
//
// with m the kg in the pot: the food and the water it is cooked in.
func makingOf(r *row) making {
	mL := func(column string) float64 { return r.number(column, 0) }
	m := making{waterL: mL("water_ml_per_100g") / 1000, eatenL: mL("water_eaten_ml_per_100g") / 1000}
	class := r.text["prep_class"]
	if !slices.Contains([]string{"ready to eat", "add cold water", "with milk"}, class) {
		watts := float64(lidOnW)
		if class == "bake or fry" || class == "fry" {
			watts = openPanW
		}
		kg := 0.1 + m.waterL
		simmering := watts * 60 * mL("simmer_min") / 1e6 * kg / potKg
		steam := mL("water_lost_steam_ml_per_100g") / 1000 * steamMJPerKg
		m.usefulMJ = kg*waterKJPerKgK*kelvin/1000 + max(simmering, steam)
	}
	if r.text["soak_water_discarded"] == "yes" {
		m.waterL += mL("soak_water_ml_per_100g") / 1000
	}
	return m
}

// row is one line of a data file by column.
type row struct {
	text map[string]string
	err  error
}

// number is the figure in a column, absent where the cell is empty.
func (r *row) number(column string, absent float64) float64 {
	s := r.text[column]
	if s == "" {
		return absent
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("%s: %w", column, err)
	}
	return v
}

// eachRow gives each row of a data file to read; the error is the first of the figures
// in it.
func eachRow(name string, read func(*row)) error {
	text, err := foods.DataFile(name)
	if err != nil {
		return err
	}
	cells, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil || len(cells) == 0 {
		return fmt.Errorf("%s: %w", name, err)
	}
	for _, line := range cells[1:] {
		r := &row{text: map[string]string{}}
		for i, column := range cells[0] {
			r.text[column] = line[i]
		}
		if read(r); r.err != nil {
			return r.err
		}
	}
	return nil
}

// cap is the smallest amount that key sets for p; ok is false where no row is
// about p.
func (t *tables) cap(p *nutrients.Person, key string) (value float64, ok bool) {
	for _, l := range t.caps {
		if l.key != key || p.AgeMonths < l.from || l.under >= 0 && p.AgeMonths >= l.under || !means(l.who, p) {
			continue
		}
		if !ok || l.value < value {
			value, ok = l.value, true
		}
	}
	return value, ok
}

// means reports whether a word of the who column is about p.
func means(who string, p *nutrients.Person) bool {
	switch who {
	case "all":
		return true
	case "pregnant":
		return strings.HasPrefix(string(p.State), "pregnant")
	case "lactating":
		return strings.HasPrefix(string(p.State), "lactating")
	}
	return slices.Contains(p.Conditions, nutrients.Condition(who))
}

package label

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// Faults of a label, for [errors.Is].
var (
	ErrLine    = errors.New("no line of a nutrition label")
	ErrBasis   = errors.New("not said what the figures are for")
	ErrFigure  = errors.New("no figure")
	ErrTwice   = errors.New("there twice")
	ErrDiffers = errors.New("kJ and kcal do not agree")
)

// MostBytes is the longest label that is read.
const MostBytes = 10_000

// sodiumOfSalt is g of sodium in 1 g of salt. Source: Regulation (EU) No 1169/2011,
// annex I point 11: salt = sodium × 2.5.
const sodiumOfSalt = 1 / 2.5

// Label is a label as read, its figures for Amount grams or millilitres of food.
type Label struct {
	Amount float64 // of the food as sold
	ML     bool    // Amount is in mL, else in g
	Notes  []string

	figures nutrients.Amounts // carbohydrate with the fibre in it
}

// Per100g returns the figures for 100 g of the food as sold in the units of the
// food table; what the label does not say is unknown. gPerML is the density in
// g/mL, used for a label by volume only.
func (l *Label) Per100g(gPerML float64) nutrients.Amounts {
	grams := l.Amount
	if l.ML {
		grams *= gPerML
	}
	per := l.figures // a copy; unknown stays unknown
	for n := range per {
		per[n] *= 100 / grams
	}
	return per
}

// Parse reads a label: a line or, between semicolons, a part for each figure, and
// one that says what the figures are for (per 100 g; per serving of 30 g). The
// faults have the line and column in text; they are in order. With faults the
// label is nil.
func Parse(text string) (*Label, []*table.Error) {
	if len(text) > MostBytes {
		return nil, []*table.Error{{Line: 1, Column: 1, Value: text[:20], Err: table.ErrTooMany, Fix: "write the nutrition table of the label alone"}}
	}
	daily, err := dailyValues()
	if err != nil {
		return nil, []*table.Error{{Err: err}}
	}
	r := reading{
		label: Label{figures: nutrients.Unknown()}, daily: daily, seen: map[nutrients.Nutrient]string{},
		facts: strings.Contains(strings.ToLower(text), "daily value") || dvWord.MatchString(text),
		nrv:   nrvWord.MatchString(text),
	}
	for _, p := range partsOf(text) {
		r.part(p)
	}
	switch {
	case r.label.Amount > 0:
	case r.serving != nil:
		r.fail(*r.serving, ErrBasis, `write the grams of a serving: "per serving 30 g"`)
	default:
		r.fail(part{text, 1, 1}, ErrBasis, `write "per 100 g", or "per serving 30 g" with the grams of a serving`)
	}
	r.finish()
	if len(r.faults) > 0 {
		slices.SortStableFunc(r.faults, func(a, b *table.Error) int { return (a.Line-b.Line)*MostBytes*2 + a.Column - b.Column })
		return nil, r.faults
	}
	return &r.label, nil
}

// reading is a label while it is read.
type reading struct {
	label   Label
	daily   map[dailyKey]daily
	seen    map[nutrients.Nutrient]string
	facts   bool  // the label speaks of daily values: Nutrition Facts
	nrv     bool  // the label speaks of nutrient reference values
	total   bool  // carbohydrate holds the fibre
	serving *part // the first that says "per serving" without its grams
	faults  []*table.Error
}

func (r *reading) fail(p part, what error, fix string) {
	r.faults = append(r.faults, &table.Error{Line: p.line, Column: p.column, Value: shorten(p.text), Err: what, Fix: fix})
}

func (r *reading) note(format string, args ...any) {
	r.label.Notes = append(r.label.Notes, fmt.Sprintf(format, args...))
}

// part reads one part of the label.
func (r *reading) part(p part) {
	if preparedWord.MatchString(p.text) {
		r.fail(p, fmt.Errorf("%w: figures of the food as prepared", ErrLine), "write those of the food as sold")
		return
	}
	rest := r.basis(p)
	amounts, fault := amountsOf(rest)
	if fault != "" {
		r.fail(p, fmt.Errorf("%w that is certain: %s", ErrFigure, fault), "write it without a separator between thousands")
		return
	}
	name := foldName(nameOf(rest))
	if len(amounts) == 0 {
		if name == "" || headingWord.MatchString(name) {
			return
		}
		if calories := caloriesLine.FindStringSubmatch(strings.TrimSpace(rest)); calories != nil {
			amounts, name = []amount{{value: mustFloat(calories[1]), unit: "kcal"}}, "energy"
		} else if m, known := words[name]; known && m.other {
			return
		} else {
			r.fail(p, fmt.Errorf("%w with a unit in it", ErrFigure), "write the figure with its unit, such as 12 g, or leave the line out where the label says nothing")
			return
		}
	}
	m, known := words[name]
	if !known && added.MatchString(name+" "+strings.ToLower(rest)) {
		m, known = meaning{nutrient: nutrients.AddedSugars}, true
	}
	if !known && name == "" && onlyEnergy(amounts) {
		m, known = meaning{nutrient: nutrients.Energy}, true
	}
	switch {
	case !known:
		r.fail(p, fmt.Errorf("%w: what is %q?", ErrLine, name), nearestWord(name))
	case m.other:
		r.note("%s is not taken: the food table has no column for it", name)
	case m.nutrient == nutrients.Energy:
		r.energy(p, amounts)
	default:
		r.figure(p, name, m, amounts)
	}
}

// basis reads what the figures are for, where the part says it at its start, and
// returns what follows; "" where that cannot be read.
func (r *reading) basis(p part) (rest string) {
	if two := perBasis.FindAllString(p.text, -1); len(two) > 1 {
		r.fail(p, errors.New("two columns of figures"), "keep the figures of one: those for 100 g where the label has them")
		return ""
	}
	at := perBasis.FindStringSubmatchIndex(p.text)
	if at == nil {
		if perServing.MatchString(p.text) {
			r.serving = cmp.Or(r.serving, &p)
			return ""
		}
		return p.text
	}
	value, unit := mustFloat(p.text[at[2]:at[3]]), strings.ToLower(p.text[at[4]:at[5]])
	ml := false
	switch unit {
	case "ml":
		ml = true
	case "oz":
		inGrams, err := nutrients.ToColumn(nutrients.Protein, value, "oz")
		if err != nil {
			r.fail(p, err, "write grams")
			return ""
		}
		value = inGrams
	}
	switch {
	case value < 0.5 || value > 5000:
		r.fail(p, table.ErrRange, "write from 0.5 to 5000 g or mL")
		return ""
	case r.label.Amount > 0 && (math.Abs(r.label.Amount-value) > 1e-9 || r.label.ML != ml):
		r.fail(p, fmt.Errorf("%w: the figures cannot be for this and for %g as well", ErrTwice, r.label.Amount), "keep the figures of one: those for 100 g where the label has them")
		return ""
	}
	r.label.Amount, r.label.ML = value, ml
	return p.text[at[1]:]
}

// energyAgrees is how far the kcal and kJ of a label may be apart. Labels compute
// each from factors of its own (17 and 4 per g of protein and carbohydrate, 37 and
// 9 of fat, 8 and 2 of fibre: Regulation (EU) No 1169/2011, annex XIV), so that
// kJ ÷ kcal runs from 4.0 to 4.25; both are whole numbers.
const (
	leastKJPerKcal, mostKJPerKcal = 4.0, 4.25
	wholeKcal                     = 1.0
)

func (r *reading) energy(p part, amounts []amount) {
	kcal, kJ := math.NaN(), math.NaN()
	for _, a := range amounts {
		switch a.unit {
		case "kcal", "cal":
			kcal = a.value
		case "kj":
			kJ = a.value
		case "%":
		default:
			r.fail(p, fmt.Errorf("%w in kJ or kcal", ErrFigure), "write kJ or kcal")
			return
		}
	}
	if math.IsNaN(kcal) && math.IsNaN(kJ) {
		r.fail(p, fmt.Errorf("%w in kJ or kcal", ErrFigure), "write kJ or kcal")
		return
	}
	if kJ < leastKJPerKcal*(kcal-wholeKcal) || kJ > mostKJPerKcal*(kcal+wholeKcal) { // neither where one of them is not there: NaN
		r.fail(p, fmt.Errorf("%w: %g kJ are %.0f kcal", ErrDiffers, kJ, asKcal(kJ)), "correct the one that is wrong")
		return
	}
	if math.IsNaN(kcal) {
		kcal = asKcal(kJ)
	}
	if have, known := r.label.figures.Get(nutrients.Energy); known {
		// Two lines, one in kJ and one in kcal, are one figure.
		if lo, hi := min(have, kcal), max(have, kcal); hi > lo*mostKJPerKcal/leastKJPerKcal+wholeKcal {
			r.fail(p, fmt.Errorf("%w: energy", ErrTwice), "leave one")
		}
		if !strings.Contains(strings.ToLower(p.text), "kcal") {
			return
		}
	}
	r.label.figures[nutrients.Energy] = kcal
}

// asKcal converts kJ by the thermochemical calorie, 1 kcal = 4.184 kJ by definition.
func asKcal(kJ float64) float64 {
	kcal, err := nutrients.ToColumn(nutrients.Energy, kJ, "kJ")
	if err != nil {
		return math.NaN()
	}
	return kcal
}

// limited are the figures that plans hold below a ceiling: "less than" is taken as
// its limit there. Protein is held above a floor: there it is taken as none.
// Others stay unknown.
var limited = []nutrients.Nutrient{nutrients.Fat, nutrients.SaturatedFat, nutrients.Sugars, nutrients.AddedSugars, nutrients.Carbohydrate, nutrients.Sodium, nutrients.Cholesterol}

func (r *reading) figure(p part, name string, m meaning, amounts []amount) {
	n := m.nutrient
	if first, twice := r.seen[n]; twice {
		r.fail(p, fmt.Errorf("%w: %q gives it already", ErrTwice, first), "leave one; where the label has two columns, keep that for 100 g")
		return
	}
	r.seen[n] = name
	amounts = slices.DeleteFunc(slices.Clone(amounts), func(a amount) bool { return a.unit == "%" && len(amounts) > 1 })
	a := amounts[0]
	if len(amounts) > 1 && m.form != "DFE" {
		r.fail(p, errors.New("two figures"), "keep the figures of one column: those for 100 g where the label has them")
		return
	}
	if a.unit == "%" {
		r.percent(p, name, n, a)
		return
	}
	if m.form != "" && !strings.Contains(strings.ToLower(p.text), strings.ToLower(m.form)) {
		r.note("%s is left unknown: the label does not say that it counts %s, which the food table does", name, formWords[m.form])
		return
	}
	v, err := nutrients.ToColumn(n, a.value, a.unit)
	if err != nil {
		r.fail(p, fmt.Errorf("%w: %q does not fit %s", nutrients.ErrUnit, a.unit, name), "write g, mg or µg as on the label")
		return
	}
	if m.salt {
		v *= sodiumOfSalt
	}
	switch {
	case !a.less:
	case slices.Contains(limited, n):
		r.note("%s: less than %g %s is taken as %g, on the safe side", name, a.value, a.unit, a.value)
	case n == nutrients.Protein:
		r.note("%s: less than %g %s is taken as none, on the safe side", name, a.value, a.unit)
		v = 0
	default:
		r.note("%s: less than %g %s is left unknown", name, a.value, a.unit)
		return
	}
	r.label.figures[n] = v
	if n == nutrients.Carbohydrate {
		r.total = m.total || r.facts
	}
}

var formWords = map[string]string{
	"RAE": "retinol activity equivalents (RAE)", "DFE": "dietary folate equivalents (DFE)",
	"alpha-tocopherol": "alpha-tocopherol", "preformed": "preformed niacin and not equivalents",
}

func (r *reading) percent(p part, name string, n nutrients.Nutrient, a amount) {
	basis := ""
	switch {
	case r.nrv && !r.facts:
		basis = basisNRV
	case r.facts && !r.nrv:
		basis = basisDV
	default:
		r.fail(p, errors.New("a percentage of what is not said"), `write "% NRV" (European Union) or "% DV" (United States), or the amount`)
		return
	}
	d, ok := r.daily[dailyKey{n, basis}]
	switch {
	case !ok:
		r.fail(p, fmt.Errorf("no %s of %s is known", basis, name), "write the amount, or leave the line out")
	case !d.sameForm:
		r.note("%s is left unknown: its %s counts another form than the food table (%s)", name, basis, d.source)
	case a.less:
		r.note("%s: less than %g %% is left unknown", name, a.value)
	default:
		v, err := nutrients.ToColumn(n, d.amount*a.value/100, d.unit)
		if err != nil {
			r.fail(p, err, "write the amount")
			return
		}
		r.label.figures[n] = v
		r.note("%s: %g %% of %g %s (%s)", name, a.value, d.amount, d.unit, d.source)
	}
}

// finish puts the fibre into the carbohydrate of labels that leave it out.
func (r *reading) finish() {
	carbohydrate, known := r.label.figures.Get(nutrients.Carbohydrate)
	fibre, hasFibre := r.label.figures.Get(nutrients.Fibre)
	switch {
	case !known:
	case r.total:
		r.note("carbohydrate is read as holding the fibre, as on Nutrition Facts (21 CFR 101.9)")
	case hasFibre:
		r.label.figures[nutrients.Carbohydrate] = carbohydrate + fibre
		r.note("carbohydrate on the label leaves the fibre out (Regulation (EU) No 1169/2011, annex I); the food table counts it in: %g + %g g", carbohydrate, fibre)
	default:
		r.note("carbohydrate is as printed: the label does not say the fibre, which the food table counts in")
	}
}

func isWordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

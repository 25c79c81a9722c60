package model

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// sittingsADay is how often a day a kind is eaten of which only the amount at one
// sitting is known (foods/data/caps.csv, second-sitting: common practice, no
// source).
const sittingsADay = 2

// unknownShare is the most of a person's energy that comes from foods of which a
// nutrient with a ceiling is not known: planning rule of this program, no source.
const unknownShare = 50 // %

// addKindCapRows holds what a person eats of a kind of food under its amounts, on
// average over the horizon, and under its share of the energy E_p that is eaten:
//
//	Σ_{f in kind} counts_f y_pf ≤ D·min(day, week/7, sittings)
//	Σ_{f in kind} kcal_f y_pf − share·E_p ≤ 0,   E_p = Σ_f kcal_f y_pf
//
// and so every single food, and the foods of which a nutrient with a ceiling is
// unknown. Rows of a publication are safety rows; all others are this program's
// own planning rules, which are loosened where they leave no plan.
func addKindCapRows(m *Model) {
	for ei, e := range m.Eaters {
		if e.Needs.Feed != nil && e.Needs.Feed.Only {
			continue
		}
		caps := m.Request.Table.KindCaps(&e.Person)
		addKindAmounts(m, ei, e, caps)
		if !m.Request.IgnoreEatable && e.Needs.Feed == nil {
			addEnergyShares(m, ei, e, caps)
		}
	}
}

// kindLimit is the most of a kind in a day that several caps come to.
type kindLimit struct {
	kind, unit         string
	safety             bool
	day, sitting, week float64
	daysAWeek          float64
}

// perDay is the tightest of the amounts, a day.
func (k *kindLimit) perDay() float64 {
	day := k.day
	if math.IsInf(day, 1) {
		day = sittingsADay * k.sitting
	}
	return math.Min(day*k.daysAWeek/7, k.week/7)
}

func addKindAmounts(m *Model, ei int, e *Eater, caps []kinds.Cap) {
	for _, k := range kindLimits(caps) {
		if !k.safety && m.Request.IgnoreEatable {
			continue
		}
		limit := k.perDay() * m.Days()
		class := Planning
		if k.safety {
			class = Safety
		}
		of := func(f *foods.Food) bool { return slices.Contains(f.Kinds, k.kind) && !isFeed(e, f) }
		counts := only(of, func(f *foods.Food) float64 { return f.Counts(k.unit) })
		reach := 0.0
		for _, y := range e.Eats {
			reach += counts(m.Larder[y.Food].Food) * y.CapG
		}
		if math.IsInf(limit, 1) || reach <= limit {
			continue
		}
		unit := k.unit
		if k.safety {
			unit += "-safety" // beside a planning rule on the same
		}
		row := m.addEatenRow(ei, "kind-"+k.kind+"-"+unit, math.Inf(-1), limit, RowInfo{
			Kind: RowKindCap, Class: class, Group: k.kind, Limit: k.perDay(),
			Text: "most " + k.kind, Unit: k.unit,
		}, counts)
		m.Problem.Rows[row].Lazy = true
	}
}

// kindLimits gathers the amounts of each kind, in the order of the caps.
func kindLimits(caps []kinds.Cap) []*kindLimit {
	var list []*kindLimit
	inf := math.Inf(1)
	for _, c := range caps {
		if c.Measure != kinds.Sitting && c.Measure != kinds.Day && c.Measure != kinds.Week {
			continue
		}
		at := slices.IndexFunc(list, func(k *kindLimit) bool {
			return k.kind == c.Kind && k.safety == c.Safety && k.unit == c.Unit
		})
		if at < 0 {
			at = len(list)
			list = append(list, &kindLimit{kind: c.Kind, unit: c.Unit, safety: c.Safety, day: inf, sitting: inf, week: inf, daysAWeek: 7})
		}
		k := list[at]
		switch c.Measure {
		case kinds.Sitting:
			k.sitting = c.Value
		case kinds.Day:
			k.day = c.Value
		case kinds.Week:
			k.week = c.Value
		}
	}
	for _, c := range caps {
		for _, k := range list { // a limit on days says nothing without an amount
			if c.Measure == kinds.DaysWeek && k.kind == c.Kind && k.safety == c.Safety {
				k.daysAWeek = math.Min(7, c.Value)
			}
		}
	}
	return list
}

func isFeed(e *Eater, f *foods.Food) bool {
	return e.Needs.Feed != nil && rules.IsMilkFeed(f)
}

// addEnergyShares adds the shares of the energy eaten. A share that cannot bind
// within the amounts that the person may eat at all has no row.
func addEnergyShares(m *Model, ei int, e *Eater, caps []kinds.Cap) {
	least := 0.0 // of the energy, over the horizon
	for _, need := range e.Needs.List {
		if need.Nutrient == nutrients.Energy && need.Floor != nil && !need.Shown {
			least = need.Floor.Amount * m.Days()
		}
	}
	energy := -1
	hold := func(kind string, share float64, in func(*foods.Food) bool) {
		kcal := only(in, perGram(nutrients.Energy))
		reach := 0.0
		for _, y := range e.Eats {
			reach += kcal(m.Larder[y.Food].Food) * y.CapG
		}
		if reach <= share/100*least {
			return
		}
		if energy < 0 {
			energy = addEnergyColumn(m, ei, e)
		}
		row := m.addEatenRow(ei, "energy-of-"+kind, math.Inf(-1), 0, RowInfo{
			Kind: RowKindShare, Class: Planning, Group: kind, Limit: share,
			Text: fmt.Sprintf("%s at most %g %% of energy", kind, share), Unit: "kcal",
		}, kcal)
		m.Problem.Rows[row].Lazy = true
		m.Problem.Set(row, energy, -share/100)
	}
	shares := map[string]kinds.Cap{}
	for _, c := range caps {
		if c.Measure == kinds.Share {
			shares[c.Kind] = c
		}
	}
	if c, ok := shares[kinds.AnyFood]; ok {
		for _, y := range e.Eats {
			f := m.Larder[y.Food].Food
			name := f.Name
			if m.Request.Table.Kinds().Kind(name) != nil {
				name += ", this food alone" // a kind is called the same
			}
			hold(name, c.Value, func(g *foods.Food) bool { return g == f })
		}
	}
	any, hasAny := shares[kinds.AnyKind]
	for _, kind := range m.Request.Table.Kinds().Kinds {
		c, own := shares[kind.Name]
		if !own {
			if !hasAny || len(kind.Foods) < 2 { // a kind of one food has that food's share
				continue
			}
			c = any
		}
		name := kind.Name
		hold(name, c.Value, func(f *foods.Food) bool { return slices.Contains(f.Kinds, name) })
	}
	for _, need := range e.Needs.List {
		if need.Ceiling == nil || need.Shown || need.Nutrient == nutrients.Energy {
			continue
		}
		n := need.Nutrient
		hold("food without a figure for "+ration.PlainName(n), unknownShare, func(f *foods.Food) bool {
			_, known := f.Per100g.Get(n)
			return !known
		})
	}
}

// addEnergyColumn makes the column of all energy that a person eats.
func addEnergyColumn(m *Model, ei int, e *Eater) int {
	col := m.addCol("energy-eaten["+e.Person.Name+"]", 0, Inf, false, colInfo{Kind: colEnergy, Eater: ei, Larder: -1})
	row := m.addEatenRow(ei, "energy-eaten", 0, 0, RowInfo{
		Kind: rowStored, Class: Structural, Text: "energy eaten", Unit: "kcal",
	}, perGram(nutrients.Energy))
	m.Problem.Set(row, col, -1)
	return col
}

// HasPlanning reports whether planning rules hold in the model.
func (m *Model) HasPlanning() bool {
	return slices.ContainsFunc(m.Rows, func(info RowInfo) bool { return info.Class == Planning })
}

// WithoutPlanning builds the model anew without the planning rules.
func (m *Model) WithoutPlanning() (*Model, error) {
	req := *m.Request
	req.IgnoreEatable = true
	return BuildWith(&req, m.anyCooking)
}

// BuildFor builds the model of a request with the planning rules loosened that a
// plan of it goes beyond.
func BuildFor(req *ration.Request, plan *ration.Plan) (*Model, error) {
	m, err := Build(req)
	if err != nil || plan.Eatable == nil {
		return m, err
	}
	return m.Raised(plan.Eatable.Loosened), nil
}

// Raised returns the model with planning rules loosened to the amounts of the list.
func (m *Model) Raised(list []ration.Loosened) *Model {
	if len(list) == 0 {
		return m
	}
	return m.With(func(p *linear.Problem) {
		for i, info := range m.Rows {
			amount := 0.0
			for _, l := range list {
				if info.Class == Planning && l.Person == m.Eaters[info.Eater].Person.Name &&
					l.Kind == info.Group && l.Unit == info.LimitUnit() {
					amount = math.Max(amount, l.Amount*(1+raisedBy))
				}
			}
			if amount == 0 {
				continue
			}
			if info.Kind == RowKindCap {
				p.Rows[i].Upper = math.Max(p.Rows[i].Upper, amount*info.PerDay)
				continue
			}
			for j := range p.Cols {
				for k, entry := range p.Cols[j].Entries {
					if entry.Row == i && m.Cols[j].Kind == colEnergy {
						p.Cols[j].Entries[k].Value = math.Min(entry.Value, -amount/100)
					}
				}
			}
		}
	})
}

// Roomier returns the model with all planning rules of those who have one in the list
// loosened by room, as a part of its amount, beyond what the list loosens.
func (m *Model) Roomier(list []ration.Loosened, room float64) *Model {
	var all []ration.Loosened
	for _, info := range m.Rows {
		if info.Class != Planning {
			continue
		}
		name := m.Eaters[info.Eater].Person.Name
		if !slices.ContainsFunc(list, func(l ration.Loosened) bool { return l.Person == name }) {
			continue
		}
		all = append(all, ration.Loosened{Person: name, Kind: info.Group, Unit: info.LimitUnit(), Amount: info.Limit * (1 + room), Limit: info.Limit})
	}
	for _, l := range list {
		l.Amount *= 1 + room
		all = append(all, l)
	}
	return m.Raised(all)
}

// LimitUnit is the unit in which a planning rule's limit is told.
func (info RowInfo) LimitUnit() string {
	if info.Kind == RowKindShare {
		return ration.PartOfEnergy
	}
	return info.Unit
}

// Loosened lists the planning rules that the point goes beyond, with its amounts.
func (m *Model) Loosened(x []float64) []ration.Loosened {
	var list []ration.Loosened
	activity := m.Activities(x)
	byRow := m.Problem.ByRow()
	for i, info := range m.Rows {
		if info.Class != Planning {
			continue
		}
		shares, _ := byRow.Row(i)
		l := ration.Loosened{Person: m.Eaters[info.Eater].Person.Name, Kind: info.Group, Unit: info.LimitUnit(), Limit: info.Limit}
		if info.Kind == RowKindCap {
			l.Amount = activity[i] / info.PerDay
		} else {
			energy, of := 0.0, 0.0
			for _, y := range m.Eaters[info.Eater].Eats {
				kcal := perGram(nutrients.Energy)(m.Larder[y.Food].Food) * x[y.Col]
				energy += kcal
				if slices.Contains(shares, y.Col) {
					of += kcal
				}
			}
			l.Amount = 100 * of / math.Max(energy, 1)
		}
		if l.Amount > l.Limit*(1+loosenedTolerance) {
			list = append(list, l)
		}
	}
	return list
}

package model

import (
	"errors"
	"fmt"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Build turns a request into the ration model:
//
//	x_k, r_k  packs bought, packs set aside   integer
//	s_k       packs used from stock           integer
//	y_pf      grams of food f eaten by one p over the horizon
//	d_p       litres drunk by one p over the horizon
//	w, h      litres of water stored, MJ of useful heat
//
// with its rows one idea a file: packs.go, needs.go, pattern.go, infant.go, fluid.go,
// reserve.go, supply.go, limits.go, shelves.go. It returns an error only for input that
// cannot be planned at all; "no ration fits" is an answer of [Make].
func Build(req *ration.Request) (*Model, error) { return BuildWith(req, false) }

// BuildWith makes the model with foods of every cooking class where anyCooking
// asks for them.
func BuildWith(req *ration.Request, anyCooking bool) (*Model, error) {
	m := &Model{Request: ration.Filled(req), Problem: &linear.Problem{Name: "ration"}, Water: -1, Heat: -1, anyCooking: anyCooking}
	if len(m.Request.People) == 0 {
		return nil, fmt.Errorf("%w: give at least one person", ration.ErrNobody)
	}
	if err := ration.CheckSize(m.Request); err != nil {
		return nil, err
	}
	if err := ration.CheckIll(m.Request); err != nil {
		return nil, err
	}
	var err error
	if m.Supplies, err = rules.SuppliesOf(m.Request); err != nil {
		return nil, err
	}
	if err := rules.CheckBoiling(m.Request); err != nil {
		return nil, err
	}
	if err := seat(m); err != nil {
		return nil, err
	}
	if err := addEatColumns(m); err != nil {
		return nil, err
	}
	advise(m)
	noteCold(m)
	addPackColumns(m)
	addBalanceRows(m)
	addOpenedRows(m)
	addNeedRows(m)
	addShareRows(m)
	addPatternRows(m)
	addGroupCapRows(m)
	addKindCapRows(m)
	addCompanionRows(m)
	addGlycaemicRows(m)
	addFeedRows(m)
	addIronFoodRows(m)
	addInfantFoodRows(m)
	addReserveRows(m)
	addSupplyRows(m)
	addFluidRows(m)
	addWishRows(m)
	addKeepRows(m)
	addStockDateRows(m)
	addLimitRows(m)
	m.aim(m.Request.Least)
	MergeAll(m.Problem)
	return m, nil
}

// seat works out every person's needs and sets apart those whom a clinician
// must plan for.
func seat(m *Model) error {
	var errs []error
	for _, person := range m.Request.People {
		needs, err := nutrients.For(person, rules.NeedOptions(m.Request))
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", person.Name, err))
			continue
		}
		e := &Eater{Person: person, Needs: needs, Count: float64(person.Count), Drink: -1}
		if needs.Refused != nil {
			m.Refused = append(m.Refused, e)
			continue
		}
		m.Eaters = append(m.Eaters, e)
	}
	return errors.Join(errs...)
}

// addEatColumns makes a column for every food that a person may eat, bounded
// by what one can eat of it over the horizon, and one for what each drinks.
func addEatColumns(m *Model) error {
	k, err := rules.OpenKitchen(m.Request, m.anyCooking)
	errs := []error{err}
	at := map[any]int{}
	for _, f := range k.Foods {
		at[f] = len(m.Larder)
		m.Larder = append(m.Larder, &LarderFood{Food: f, Balance: -1})
	}
	var all []nutrients.Needs
	for _, e := range m.Eaters {
		all = append(all, e.Needs)
	}
	needy := rules.NeedReserve(all)
	for _, lf := range m.Larder {
		lf.mayReserve = len(needy) > 0 && k.MayReserve(needy, lf.Food)
	}
	for ei, e := range m.Eaters {
		list, wishes, err := k.Serve(&e.Needs)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		e.Wishes = wishes
		noteKept(m, e, list)
		for _, a := range list {
			if a.Lock != "" {
				continue
			}
			li := at[a.Food]
			lf := m.Larder[li]
			col := m.addCol(fmt.Sprintf("eat[%s,%s]", e.Person.Name, a.Food.Name), 0, a.CapG, false,
				colInfo{Kind: ColEat, Eater: ei, Larder: li})
			y := eatCol{
				Food: li, Col: col, Window: a.WindowG, CapG: a.CapG,
				SpareFactor: rules.SpareFactor(&e.Needs, a.Food),
			}
			e.Eats = append(e.Eats, y)
			lf.Window += e.Count * y.Window * y.SpareFactor
			lf.CapG += e.Count * y.CapG * y.SpareFactor
			lf.opened = math.Max(lf.opened, y.CapG/y.Window)
		}
		addDrinkColumn(m, ei, e)
	}
	return errors.Join(errs...)
}

// addDrinkColumn makes the column of what e drinks; an infant's water is the
// feed's.
func addDrinkColumn(m *Model, ei int, e *Eater) {
	if e.Needs.Water.Total == nil {
		return
	}
	low := 0.0
	if drinks := rules.LeastDrinksL(m.Request, &e.Needs.Water); !e.Needs.Water.ByFluid() {
		low = m.Days() * drinks
	}
	e.Drink = m.addCol(fmt.Sprintf("drink[%s]", e.Person.Name), low, math.Inf(1), false,
		colInfo{Kind: colDrink, Eater: ei, Larder: -1})
}

package solver

import (
	"errors"
	"fmt"
	"math"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// Build turns a request into the ration model:
//
//	x_k, r_k  packs bought, packs set aside   integer
//	s_k       packs used from stock           integer
//	y_pf      grams of food f eaten by one p over the horizon
//	d_p       litres drunk by one p over the horizon
//	w, h      litres of water stored, MJ of useful heat
//
// with its rows one idea a file: packs.go, needs.go, pattern.go, infant.go,
// reserve.go, supply.go, limits.go, shelves.go. It returns an error only for input that
// cannot be planned at all; "no ration fits" is an answer of [Make].
func Build(req *ration.Request) (*Ration, error) { return build(req, false) }

// build makes the model with foods of every cooking class where anyCooking
// asks for them.
func build(req *ration.Request, anyCooking bool) (*Ration, error) {
	r := &Ration{Request: ration.Filled(req), Problem: &linear.Problem{Name: "ration"}, water: -1, heat: -1, anyCooking: anyCooking}
	if len(r.Request.People) == 0 {
		return nil, fmt.Errorf("%w: give at least one person", ration.ErrNobody)
	}
	if err := ration.CheckIll(r.Request); err != nil {
		return nil, err
	}
	var err error
	if r.supplies, err = suppliesOf(r.Request); err != nil {
		return nil, err
	}
	if err := checkBoiling(r.Request); err != nil {
		return nil, err
	}
	if err := r.seat(); err != nil {
		return nil, err
	}
	if err := r.addEatColumns(); err != nil {
		return nil, err
	}
	r.advise()
	r.noteCold()
	r.addPackColumns()
	r.addBalanceRows()
	r.addOpenedRows()
	r.addNeedRows()
	r.addShareRows()
	r.addPatternRows()
	r.addGroupCapRows()
	r.addCompanionRows()
	r.addGlycaemicRows()
	r.addFeedRows()
	r.addIronFoodRows()
	r.addReserveRows()
	r.addSupplyRows()
	r.addWishRows()
	r.addKeepRows()
	r.addStockDateRows()
	r.addLimitRows()
	r.aim(r.Request.Least)
	for j := range r.Problem.Cols {
		r.Problem.Cols[j].Entries = merged(r.Problem.Cols[j].Entries)
	}
	return r, nil
}

// needOptions are the options of the needs of everyone in a request.
func needOptions(req *ration.Request) nutrients.Options {
	return nutrients.Options{Standard: req.Standard, EnergySet: req.Energy, LeanEnergy: req.Lean, Start: req.Start}
}

// seat works out every person's needs and sets apart those whom a clinician
// must plan for.
func (r *Ration) seat() error {
	var errs []error
	for _, person := range r.Request.People {
		needs, err := nutrients.For(person, needOptions(r.Request))
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", person.Name, err))
			continue
		}
		e := &eater{person: person, needs: needs, count: float64(person.Count), drink: -1}
		if needs.Refused != nil {
			r.refused = append(r.refused, e)
			continue
		}
		r.eaters = append(r.eaters, e)
	}
	return errors.Join(errs...)
}

// addEatColumns makes a column for every food that a person may eat, bounded
// by what one can eat of it over the horizon, and one for what each drinks.
func (r *Ration) addEatColumns() error {
	k, err := openKitchen(r.Request, r.anyCooking)
	errs := []error{err}
	at := map[any]int{}
	for _, f := range k.foods {
		at[f] = len(r.larder)
		r.larder = append(r.larder, &larderFood{food: f, balance: -1})
	}
	var all []nutrients.Needs
	for _, e := range r.eaters {
		all = append(all, e.needs)
	}
	needy := needReserve(all)
	for _, lf := range r.larder {
		lf.mayReserve = len(needy) > 0 && k.mayReserve(needy, lf.food)
	}
	for ei, e := range r.eaters {
		list, wishes, err := k.serve(&e.needs)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		e.wishes = wishes
		r.noteKept(e, list)
		for _, a := range list {
			if a.lock != "" {
				continue
			}
			li := at[a.food]
			lf := r.larder[li]
			col := r.addCol(fmt.Sprintf("eat[%s,%s]", e.person.Name, a.food.Name), 0, a.capG, false,
				colInfo{kind: colEat, eater: ei, larder: li})
			y := eatCol{
				food: li, col: col, window: a.windowG, capG: a.capG,
				spare: spareFactor(&e.needs, a.food),
			}
			e.eats = append(e.eats, y)
			lf.window += e.count * y.window * y.spare
			lf.capG += e.count * y.capG * y.spare
			lf.opened = math.Max(lf.opened, y.capG/y.window)
		}
		r.addDrinkColumn(ei, e)
	}
	return errors.Join(errs...)
}

// addDrinkColumn makes the column of what e drinks; an infant's water is the
// feed's.
func (r *Ration) addDrinkColumn(ei int, e *eater) {
	if e.needs.Water.Total == nil {
		return
	}
	low := 0.0
	if e.needs.Water.Drinks != nil {
		low = r.days() * e.needs.Water.Drinks.Amount * climate(r.Request)
	}
	e.drink = r.addCol(fmt.Sprintf("drink[%s]", e.person.Name), low, math.Inf(1), false,
		colInfo{kind: colDrink, eater: ei, larder: -1})
}

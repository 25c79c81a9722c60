package solver

import (
	"errors"
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// appetite is one food that a person may eat, and how much.
type appetite struct {
	food    *foods.Food
	capG    float64 // most over the horizon, g
	windowG float64 // most within one open window, g
	lock    string  // the user's own exclusion in plain words, "" when there is none
	kept    string  // an exclusion that does not hold, since it would leave an infant without milk
}

// kitchen is what a request lets a household eat at all: the foods that can be
// had, in table order, with the household's own exclusions.
type kitchen struct {
	req   *ration.Request
	foods []*foods.Food
	locks map[*foods.Food]string
}

// openKitchen lists the foods with a pack to buy or in stock, and what the
// request leaves out or, unless anyCooking, cannot cook.
func openKitchen(req *ration.Request, anyCooking bool) (*kitchen, error) {
	k := &kitchen{req: req, locks: map[*foods.Food]string{}}
	var errs []error
	for _, name := range req.Without {
		found, err := req.Table.Named(name)
		if err != nil {
			errs = append(errs, fmt.Errorf("without: %w", err))
		}
		for _, f := range found {
			k.locks[f] = "without " + name
		}
	}
	inStock := map[*foods.Food]bool{}
	for _, line := range req.Stock {
		inStock[line.Pack.Food] = inStock[line.Pack.Food] || canOpen(req, line.Pack)
	}
	for _, f := range req.Table.Foods {
		bought := anyOpens(req, f) && !req.StockOnly
		if !bought && !inStock[f] && !f.HasTag(foods.TagHumanMilk) {
			continue
		}
		k.foods = append(k.foods, f)
		if !anyCooking && !canCook(req.Cook, f) && k.locks[f] == "" {
			k.locks[f] = cookingLimits[req.Cook]
		}
	}
	return k, errors.Join(errs...)
}

// serve lists what one person may eat out of the kitchen, by age, allergy,
// condition and the household's shared rules, with the person's and the
// household's own exclusions marked.
func (k *kitchen) serve(needs *nutrients.Needs) ([]appetite, *foods.Wishes, error) {
	p := needs.Person
	wishes, err := k.req.Table.Wishes(p)
	if err != nil {
		return nil, nil, err
	}
	var list []appetite
	for _, f := range k.foods {
		feed := isFeed(needs, f)
		if !feed && (isMilkFeed(f) || needs.Feed != nil && needs.Feed.Only) {
			continue
		}
		if ok, _ := foods.Eligible(p, k.req.People, f); !ok {
			continue
		}
		a := appetite{food: f, lock: k.locks[f]}
		if feed {
			a.capG = feedG(needs, f, float64(k.req.Days))
		} else {
			_, day, _ := foods.Cap(&p, f)
			a.capG = day * float64(k.req.Days)
		}
		a.windowG = math.Min(a.capG, foods.WindowG(&p, f, k.req.Days))
		if why, no := wishes.Refuses(f); no && a.lock == "" {
			a.lock = why.Text
		}
		if a.capG > 0 {
			list = append(list, a)
		}
	}
	keepMilk(needs, list)
	return list, wishes, nil
}

package rules

import (
	"errors"
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Appetite is one food that a person may eat, and how much.
type Appetite struct {
	Food    *foods.Food
	CapG    float64 // most over the horizon, g
	WindowG float64 // most within one open window, g
	Lock    string  // the user's own exclusion in plain words, "" when there is none
	Kept    string  // an exclusion that does not hold, since it would leave an infant without milk
}

// kitchen is what a request lets a household eat at all: the foods that can be
// had, in table order, with the household's own exclusions.
type kitchen struct {
	req   *ration.Request
	Foods []*foods.Food
	locks map[*foods.Food]string
}

// OpenKitchen lists the foods with a pack to buy or in stock, and what the
// request leaves out or, unless anyCooking, cannot cook.
func OpenKitchen(req *ration.Request, anyCooking bool) (*kitchen, error) {
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
		inStock[line.Pack.Food] = inStock[line.Pack.Food] || CanOpen(req, line.Pack)
	}
	for _, f := range req.Table.Foods {
		bought := anyOpens(req, f) && !req.StockOnly
		if !bought && !inStock[f] && !f.HasTag(foods.TagHumanMilk) {
			continue
		}
		k.Foods = append(k.Foods, f)
		if !anyCooking && !CanCook(req.Cook, f) && k.locks[f] == "" {
			k.locks[f] = CookingLimits[req.Cook]
		}
	}
	return k, errors.Join(errs...)
}

// Serve lists what one person may eat out of the kitchen, by age, allergy,
// condition and the household's shared rules, with the person's and the
// household's own exclusions marked.
func (k *kitchen) Serve(needs *nutrients.Needs) ([]Appetite, *foods.Wishes, error) {
	p := needs.Person
	wishes, err := k.req.Table.Wishes(p)
	if err != nil {
		return nil, nil, err
	}
	var list []Appetite
	for _, f := range k.Foods {
		feed := IsFeed(needs, f)
		if !feed && (IsMilkFeed(f) || needs.Feed != nil && needs.Feed.Only) {
			continue
		}
		a := Appetite{Food: f, Lock: k.locks[f]}
		if ok, why := foods.Eligible(p, k.req.People, f); !ok {
			if ok, _ := foods.Eligible(p, []nutrients.Person{p}, f); !feed || !ok {
				continue
			}
			a.Lock = why.Text // an allergy of somebody else in the house
		}
		if feed {
			a.CapG = feedG(needs, f, float64(k.req.Days))
		} else {
			_, day, _ := foods.Cap(&p, f)
			a.CapG = day * float64(k.req.Days)
		}
		a.WindowG = math.Min(a.CapG, foods.WindowG(&p, f, k.req.Days))
		if !feed && !k.req.IgnoreEatable && !k.req.StockOnly && f.Keeping.OpenDays() < k.req.Days {
			a.WindowG = math.Min(a.WindowG, evenG(needs, f))
		}
		if why, no := wishes.Refuses(f); no && a.Lock == "" {
			a.Lock = why.Text
		}
		if a.CapG > 0 {
			list = append(list, a)
		}
	}
	keepMilk(needs, k.req.People, list)
	return list, wishes, nil
}

package ration

import (
	"cmp"
	"slices"
	"time"

	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// CookRank orders the classes of preparation.
var CookRank = map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}

// OnStove returns the most demanding cooking of cook that the stove serves; a
// stove that is not in the table limits nothing, as [suppliesOf] refuses it.
func OnStove(cook Cook, stove string) Cook {
	s, err := stores.StoveByName(stove)
	if err != nil || CookRank[s.MostCooking()] >= CookRank[string(cook)] {
		return cook
	}
	return Cook(s.MostCooking())
}

// What a request means where it is silent.
const (
	DefaultDays   = 14
	DefaultWithin = 0.01
	DefaultTime   = 10 * time.Second
)

// Filled returns a copy of req with every default written out, and with no more
// cooking than the stove serves.
func Filled(req *Request) *Request {
	r := *req
	r.Least = cmp.Or(r.Least, LeastCost)
	r.Days = cmp.Or(r.Days, DefaultDays)
	r.Standard = cmp.Or(r.Standard, nutrients.StandardRDA)
	r.Energy = cmp.Or(r.Energy, nutrients.Energy2023)
	r.Stove = cmp.Or(r.Stove, stores.UsualStove)
	r.Cook = OnStove(cmp.Or(r.Cook, CookBoil), r.Stove)
	r.Within = cmp.Or(r.Within, DefaultWithin)
	r.Time = cmp.Or(r.Time, DefaultTime)
	r.People = slices.Clone(r.People)
	for i := range r.People {
		r.People[i].Count = cmp.Or(r.People[i].Count, 1)
	}
	return &r
}

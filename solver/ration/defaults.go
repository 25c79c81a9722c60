package ration

import (
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
	if r.Least == "" {
		r.Least = LeastCost
	}
	if r.Days == 0 {
		r.Days = DefaultDays
	}
	if r.Standard == "" {
		r.Standard = nutrients.StandardRDA
	}
	if r.Energy == "" {
		r.Energy = nutrients.Energy2023
	}
	if r.Cook == "" {
		r.Cook = CookBoil
	}
	if r.Stove == "" {
		r.Stove = stores.UsualStove
	}
	r.Cook = OnStove(r.Cook, r.Stove)
	if r.Within == 0 {
		r.Within = DefaultWithin
	}
	if r.Time == 0 {
		r.Time = DefaultTime
	}
	people := make([]nutrients.Person, len(r.People))
	copy(people, r.People)
	for i := range people {
		if people[i].Count == 0 {
			people[i].Count = 1
		}
	}
	r.People = people
	return &r
}

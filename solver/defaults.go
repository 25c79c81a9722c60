package solver

import (
	"time"

	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// What a request means where it is silent.
const (
	DefaultDays   = 14
	DefaultWithin = 0.01
	DefaultTime   = 10 * time.Second
)

// filled returns a copy of req with every default written out, and with no more
// cooking than the stove serves.
func filled(req *Request) *Request {
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
	r.Cook = onStove(r.Cook, r.Stove)
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

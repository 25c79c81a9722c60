package stores

import "sync"

// Renewal is how long something in store other than food keeps before it is
// renewed: a row of renewal.csv.
type Renewal struct {
	Key    string  `json:"key"`
	What   string  `json:"what"`
	Months float64 `json:"months,omitempty"` // 0: the printed date rules
	Action string  `json:"action"`           // what to do when it is due
	Note   string  `json:"note,omitempty"`
	Ref
}

var renewals = sync.OnceValue(func() []Renewal {
	var all []Renewal
	for _, r := range rows("renewal") {
		x := Renewal{Key: r.text("key"), What: r.text("what"), Action: r.text("action"), Note: r.text("note"), Ref: r.ref()}
		x.Months, _ = r.number("months")
		all = append(all, x)
	}
	return all
})

// RenewalByKey returns one row of the table.
func RenewalByKey(key string) (r Renewal, ok bool) {
	for _, r := range renewals() {
		if r.Key == key {
			return r, true
		}
	}
	return Renewal{}, false
}

// renewalOf says when the water in c is renewed.
func renewalOf(c *Container) string {
	key := "water-home-filled"
	if c.Sealed() {
		key = "water-bottled"
	}
	r, ok := RenewalByKey(key)
	if !ok {
		panic("stores: data/renewal.csv: no key " + key)
	}
	return r.Action
}

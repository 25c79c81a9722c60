package stores

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

var renewals = tableOf("renewal", func(r row) Renewal {
	x := Renewal{Key: r.Text("key"), What: r.Text("what"), Action: r.Text("action"), Note: r.Text("note"), Ref: r.ref()}
	x.Months, _ = r.number("months")
	return x
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
	return withKey(renewals(), "renewal", key, func(r *Renewal) string { return r.Key }).Action
}

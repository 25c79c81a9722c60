package stores

// GiveUp is one use of water to give up when there is too little, and what it
// saves.
type GiveUp struct {
	What   string  `json:"what"`
	Litres float64 `json:"litres"` // saved over the horizon
	How    string  `json:"how"`
	Ref
}

// Shortage is what to do with less water than a household needs.
type Shortage struct {
	MissingL   float64  `json:"missing_l"` // 0 when it suffices
	GiveUp     []GiveUp `json:"give_up"`   // in the order that harms least, as far as it is needed
	DaysAsUsed float64  `json:"days_as_used"`
	Days       float64  `json:"days"`        // that it lasts once all of GiveUp is given up; at most the horizon
	ProtectedL float64  `json:"protected_l"` // drinks of infants, the ill, the pregnant and nursing, and feeds: kept whole
	Enough     bool     `json:"enough"`      // with what is given up it lasts the horizon
	Rule       string   `json:"rule"`        // what holds when it does not
	Ref
}

// Short says what to give up, in the order that harms least, when haveL litres
// stand against a need: washing, the allowance for spills, the pets' water down
// to the published least, cooking. Nobody's drinks are cut: rationing water
// harms first, so that the days that it lasts grow fewer instead, and those of
// infants and the ill are counted before everybody else's. The order is a
// planning rule of this program; that drinks are not rationed is the CDC's.
func Short(need WaterNeed, haveL float64, pets []Pet) Shortage {
	rule := waterRule("CDC 2009", "household", "no_rationing")
	s := Shortage{ProtectedL: need.ProtectedL, Rule: rule.Note, Ref: rule.Ref}
	if haveL < need.Litres*(1-sameLitres) {
		s.MissingL = need.Litres - haveL
	}
	days := float64(need.Days)
	s.DaysAsUsed = lasts(haveL, need.Litres, days)
	saved := 0.0
	own := Ref{"planning rule: the order that harms least", "common practice, no source"}
	for _, use := range []struct{ what, how string }{
		{washing, "wipe plates and hands, use paper plates, wash with water that is not fit to drink where hands stay away from the mouth"},
		{spills, "pour with care, close every container: nothing is left for what is spilt"},
		{petsLine, "down to the least that keeps an animal well"},
		{cooking, "eat what needs no water: canned food with its liquid, bread, crackers, spreads"},
	} {
		litres := 0.0
		for _, l := range need.Lines {
			if l.What == use.what {
				litres = l.Litres
			}
		}
		if use.what == petsLine {
			for _, p := range pets {
				litres -= WaterForPet(p).LeastL * p.count() * days
			}
		}
		if litres <= 0 || saved >= s.MissingL*(1-sameLitres) {
			continue
		}
		s.GiveUp = append(s.GiveUp, GiveUp{use.what, litres, use.how, own})
		saved += litres
	}
	s.Enough = saved >= s.MissingL*(1-sameLitres)
	s.Days = lasts(haveL, need.Litres-saved, days)
	return s
}

// lasts returns for how many days haveL lasts at a use over days, at most days.
func lasts(haveL, useL, days float64) float64 {
	if useL <= haveL {
		return days
	}
	return days * max(0, haveL) / useL
}

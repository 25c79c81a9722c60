package nutrients

import "fmt"

// override applies the person's own limits. Ceilings come first, so that a
// floor can be kept below them. Each stands beside the published value; one
// that would lift an upper level or take energy or protein from a person is
// refused.
func (b *builder) override() {
	for _, of := range []struct {
		kind  RuleKind
		apply func(*Rule)
	}{{RuleCeiling, b.ownCeiling}, {RuleFloor, b.ownFloor}, {RuleCarbohydrate, b.ownBand}} {
		for i := range b.p.Rules {
			if r := &b.p.Rules[i]; r.Kind == of.kind {
				of.apply(r)
			}
		}
	}
}

func ruleLimit(r *Rule, amount float64) *Limit {
	return &Limit{Amount: amount, Kind: kindRule, Source: "household: " + r.String(), Verified: "set by the user"}
}

// refuseRule records a rule that cannot be obeyed: what a standard overrides is
// refused, never dropped in silence.
func (b *builder) refuseRule(r *Rule, why, fix string) {
	b.refused = append(b.refused, &RuleError{Rule: r.String(), Why: why, Fix: fix})
}

// RuleError says why a rule of a person cannot be obeyed, and what to do. It
// wraps [ErrRule].
type RuleError struct {
	Rule, Why, Fix string
}

func (e *RuleError) Error() string { return fmt.Sprintf("rule %q: %s; %s", e.Rule, e.Why, e.Fix) }

// Unwrap returns [ErrRule].
func (e *RuleError) Unwrap() error { return ErrRule }

const (
	orderIt = "leave the rule out, or write what the clinician ordered, with who and when, in the column orders"
	writeIt = "leave the rule out, or write another amount"
)

func (b *builder) ruleNote(text string, beside *Limit) {
	if beside == nil {
		beside = &Limit{Source: "household", Verified: "set by the user"}
	}
	b.needs.say(text, beside.Source, beside.Verified)
}

// stands says that a rule sets a floor or ceiling, and in place of what.
func stands(b *builder, r *Rule, old *Limit) {
	text := fmt.Sprintf("Rule %q sets a %s where the tables have none.", r, r.Kind)
	if old != nil {
		text = fmt.Sprintf("Rule %q stands in place of the %s of %s %s (%s).", r, r.Kind, trim(old.Amount), r.Nutrient.Unit(), old.Kind)
	}
	b.ruleNote(text, old)
}

// ruled returns the need that a rule touches. Its upper level holds from then
// on in every standard: a rule must not lead over it.
func (b *builder) ruled(r *Rule) *Need {
	need := b.need(r.Nutrient)
	if need.Ceiling == nil && totalUL[r.Nutrient] {
		need.Ceiling = b.d.upperLevel(b.stage, r.Nutrient)
	}
	return need
}

func (b *builder) ownCeiling(r *Rule) {
	need := b.ruled(r)
	unit := r.Nutrient.Unit()
	old := need.Ceiling
	switch {
	case old != nil && old.Kind == "UL" && r.Low > old.Amount:
		b.refuseRule(r, fmt.Sprintf("it does not lift the upper level of %g %s (%s)", old.Amount, unit, old.Source), writeIt)
		return
	case r.Nutrient == AddedSugars && old != nil && old.Amount == 0:
		b.ruleNote(fmt.Sprintf("Rule %q is not needed: no added sugars under 24 months.", r), old)
		return
	case (r.Nutrient == Energy || r.Nutrient == Protein) && need.Floor != nil && r.Low < need.Floor.Amount:
		b.refuseRule(r, fmt.Sprintf("it is below the %s %s of %s that this person needs (%s)", trim(need.Floor.Amount), unit, r.Nutrient, need.Floor.Source), orderIt)
		return
	}
	stands(b, r, old)
	need.Ceiling = ruleLimit(r, r.Low)
	if need.Floor != nil && r.Nutrient != Energy && r.Nutrient != Protein && need.Floor.Amount > belowCeiling*r.Low {
		b.ruleNote(fmt.Sprintf("Rule %q lowers the floor of %s %s (%s).", r, trim(need.Floor.Amount), unit, need.Floor.Kind), need.Floor)
		if r.Low == 0 {
			need.Floor = nil
		} else {
			need.Floor = ruleLimit(r, belowCeiling*r.Low)
			need.Floor.Note = fmt.Sprintf("%g × the ceiling of the rule", belowCeiling)
		}
	}
	b.releaseShares(r.Nutrient, r.Kind, r.Low, fmt.Sprintf("Rule %q", r))
}

func (b *builder) ownFloor(r *Rule) {
	need := b.ruled(r)
	unit := r.Nutrient.Unit()
	old := need.Floor
	if (r.Nutrient == Energy || r.Nutrient == Protein) && old != nil && r.Low < old.Amount {
		b.refuseRule(r, fmt.Sprintf("this person needs %s %s of %s (%s)", trim(old.Amount), unit, r.Nutrient, old.Source), orderIt)
		return
	}
	if r.Nutrient == AddedSugars && need.Ceiling != nil && need.Ceiling.Amount == 0 {
		b.refuseRule(r, "no added sugars under 24 months ("+need.Ceiling.Source+")", "leave the rule out")
		return
	}
	l := ruleLimit(r, r.Low)
	if top := need.Ceiling; top != nil {
		most := belowCeiling * top.Amount
		switch {
		case top.Kind == kindRule:
			most = top.Amount // two rules of the household's own
		case r.Nutrient == Energy:
			most = max(top.Amount, bandCeiling*r.Low)
			need.Ceiling = top.with(most, top.Note)
		}
		if l.Amount > most {
			b.refuseRule(r, fmt.Sprintf("it is over %s %s, which leaves room under the ceiling of %s %s (%s, %s)", trim(most), unit, trim(top.Amount), unit, top.Kind, top.Source), writeIt)
			return
		}
	}
	for _, share := range shareNutrients {
		if most := belowCeiling * b.needs.EER.Amount / share.kcalPerG; share.n == r.Nutrient && l.Amount > most {
			b.refuseRule(r, fmt.Sprintf("it is over %s %s, %g × the whole energy", trim(most), unit, belowCeiling), writeIt)
			return
		}
	}
	stands(b, r, old)
	need.Floor = l
	b.releaseShares(r.Nutrient, r.Kind, r.Low, fmt.Sprintf("Rule %q", r))
}

// ownBand sets a band of carbohydrate for each meal. The day's carbohydrate is
// then that of three meals and two snacks, and the published shares of
// carbohydrate and fat no longer hold: what the band leaves of the energy must
// come from fat and protein.
func (b *builder) ownBand(r *Rule) {
	low, high := bandPerDay(*r)
	b.needs.Meals = mealBand(ruleLimit(r, r.Low), ruleLimit(r, r.High), true)
	floor, ceiling := ruleLimit(r, low), ruleLimit(r, high)
	perDay := fmt.Sprintf("%d meals and %d snacks of %g g", mealsPerDay, snacksPerDay, snackG())
	floor.Note, ceiling.Note = perDay, perDay
	if least := leastCarbohydrate(b.p); least.Amount > floor.Amount {
		floor = &least
		if floor.Amount > high {
			floor.Amount = high
			floor.Note = "lowered to the top of the band: ask a clinician"
		}
	}
	need := b.need(Carbohydrate)
	need.Floor, need.Ceiling = floor, ceiling
	b.shares[Carbohydrate], b.shares[Fat] = nil, nil
	b.ruleNote(fmt.Sprintf("Rule %q: %s to %s g of carbohydrate a day (%s); it stands in place of the shares of energy from carbohydrate and fat.", r, trim(floor.Amount), trim(high), perDay), nil)
}

// releaseShares drops the published shares of energy that a floor or ceiling in
// grams contradicts. Energy must then come from elsewhere, so carbohydrate and
// fat are released together.
func (b *builder) releaseShares(limited Nutrient, kind RuleKind, amount float64, from string) {
	share := b.shares[limited]
	if share == nil {
		return
	}
	percent := 100 * share.KcalPerG * amount / b.needs.EER.Amount
	over := share.Max != nil && kind == RuleFloor && percent > belowCeiling*share.Max.Amount
	under := share.Min != nil && kind == RuleCeiling && belowCeiling*percent < share.Min.Amount
	if !over && !under {
		return
	}
	released := []Nutrient{limited}
	if limited == Carbohydrate || limited == Fat || limited == Protein {
		released = []Nutrient{Carbohydrate, Fat, limited}
	}
	for _, n := range released {
		b.shares[n] = nil
	}
	b.ruleNote(fmt.Sprintf("%s is %s %% of energy; the published shares that it contradicts no longer hold.", from, trim(percent)), nil)
}

package nutrients

// refusals says why a clinician must plan for a person, by condition, in order
// of precedence. Group and rule name the row of data/special.csv that it rests
// on.
var refusals = []struct {
	when        Condition
	reason      string
	group, rule string
}{
	{TubeFeeding, "tube feeding takes a formula and a rate that a clinician sets", "", ""},
	{InbornError, "an inborn error of metabolism needs a diet that a clinician sets", "galactosaemia_or_pku", "inborn errors need a clinician diet; the program should refuse to plan"},
	{KidneyDisease, "kidney disease needs limits of protein, sodium, potassium, phosphorus and fluid that a clinician or renal dietitian sets", "chronic_kidney_disease", "refer to clinician or renal dietitian; show figures only as a warning"},
	{HeartFailure, "in heart failure the limits of fluid and sodium are individual; a clinician sets them", "heart_failure", "fluid and sodium limits are individual; refer to clinician"},
	{Dysphagia, "in dysphagia a clinician or speech therapist names the texture of food and drink", "older_adult_65y_and_over", "soft or minced texture where chewing or swallowing is poor"},
}

// refuse settles whether a clinician must plan for the person, and if so leaves
// water as the only need, so that it is still stored.
func (b *builder) refuse() bool {
	refused := refusalOf(b.d, b.p, b.o.Start)
	if refused == nil {
		return false
	}
	b.needs.Refused = refused
	b.needs.Notes = []Note{{
		"Not planned: " + refused.Reason + ". Ask the clinician now what to keep; drinking water is stored all the same.",
		refused.Source, refused.Verified,
	}}
	if f, kind, ok := b.d.goal(b.stage, Water.Name()); ok {
		b.needs.Water.Total = f.limit(kind).with(f.Value, "stored, not planned: the clinician says how much to drink")
	}
	b.finish()
	return true
}

// refusalOf says why a clinician must plan for p, whose orders are judged on
// the first day, and nil when none must.
func refusalOf(d *published, p *Person, start string) *Refusal {
	if p.Unplanned != nil {
		return p.Unplanned
	}
	if why := p.Orders.Stale(start); why != "" {
		return &Refusal{why + "; ask the clinician for new ones", "planning rule: orders hold for a year", "common practice, no source"}
	}
	for _, r := range refusals {
		if !p.Has(r.when) || p.plannedByOrders(r.when) {
			continue
		}
		reason := r.reason
		if len(concerns[r.when]) > 0 {
			reason += "; written under orders, with who gave them and when, they are planned with"
		}
		if r.group == "" {
			return &Refusal{reason, "clinical practice", "common practice, no source"}
		}
		f := d.rule(r.group, r.rule)
		return &Refusal{reason, f.Source, f.Verified}
	}
	if p.AgeMonths >= infantBelow {
		return nil
	}
	if p.hasDiabetes() {
		f := d.rule("diabetes", "follow the person's own clinician plan first; rules below are planning defaults")
		return &Refusal{"diabetes in a child under 12 months needs a clinician's plan", f.Source, f.Verified}
	}
	if p.Feeding == BreastFed {
		return nil
	}
	switch {
	case p.allergic("milk"):
		f := d.rule("food_allergy", "infants allergic to cow milk need extensively hydrolysed or amino-acid formula")
		return &Refusal{"an infant allergic to milk needs an extensively hydrolysed or amino-acid formula, which a clinician chooses", f.Source, f.Verified}
	case p.allergic("soy"):
		return &Refusal{"formula commonly holds soy oil, lecithin or protein; for an infant allergic to soy a clinician chooses it", "label reading practice", "common practice, no source"}
	}
	return nil
}

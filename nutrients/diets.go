package nutrients

import "fmt"

// vegetarianIron multiplies the iron requirement of people who eat no meat:
// the tables assume 18 % of iron absorbed from a mixed diet. Source: IOM DRI,
// vitamin A … zinc (2001); notes of the iron rows in data/dri.csv.
const vegetarianIron = 1.8

// diets adjusts the needs of people on a vegetarian, vegan or low-sodium diet, and of
// those with kidney disease.
func (b *builder) diets() {
	if b.p.Has(Vegetarian) || b.p.Has(Vegan) {
		b.moreIron()
	}
	if b.p.Has(LowSodium) {
		b.lessSodium()
	}
	if b.p.Has(KidneyDisease) && b.p.AgeMonths >= adultFrom && b.p.State == NoState {
		kidneyCalcium(b)
	}
}

// kidneyCalcium sets the calcium of adults with kidney disease, in every standard: less
// than the tables ask of healthy people over 50, and a most far under the upper level,
// since kidneys that fail do not rid the body of it. A rule of the household changes it.
func kidneyCalcium(b *builder) {
	need := b.need(Calcium)
	least := b.d.rule("chronic_kidney_disease", "calcium from all sources, adults, low end")
	most := b.d.rule("chronic_kidney_disease", "calcium from all sources, adults, high end")
	if b.o.Standard != StandardBasic {
		need.Floor = new(least.limit("guideline"))
	}
	need.Ceiling = new(most.limit("guideline"))
	b.note(fmt.Sprintf("Calcium: %g to %g mg a day from all sources, tablets and binders counted, unless the clinician says otherwise.", least.Value, most.Value), least)
}

func (b *builder) moreIron() {
	need := b.list[Iron]
	if need == nil || need.Floor == nil {
		return
	}
	l := need.Floor
	need.Floor = l.with(l.Amount*vegetarianIron,
		fmt.Sprintf("%s of %g mg × %g for a diet without meat", l.Kind, l.Amount, vegetarianIron))
	if l, ul := need.Floor, need.Ceiling; ul != nil && l.Amount > belowCeiling*ul.Amount {
		l.Note = joinNotes(l.Note, fmt.Sprintf("stopped at %g × the upper level of %g mg", belowCeiling, ul.Amount))
		l.Amount = belowCeiling * ul.Amount
	}
}

// lessSodium sets the ceiling of a low-sodium diet, unless the tables set a
// lower one for the age, and drops the floor: such a diet is the user's or a
// clinician's choice.
func (b *builder) lessSodium() {
	need := b.need(Sodium)
	l := b.d.rule("hypertension", "sodium, WHO").limit("guideline")
	if cdrr, ok := b.d.find(b.stage, Sodium.Name(), "CDRR"); ok && cdrr.Value < l.Amount {
		l = cdrr.limit("CDRR")
	}
	need.Ceiling, need.Floor = &l, nil
	b.needs.say(fmt.Sprintf("Low-sodium diet: at most %g mg of sodium a day and no least amount.", l.Amount), l.Source, l.Verified)
}

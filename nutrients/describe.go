package nutrients

import (
	"fmt"
	"slices"
	"strings"
)

// remark is one line of a person's rule set that sets no amount of a nutrient:
// what is not eaten, and what to watch. Group and rule name the row of
// data/special.csv on which it rests, "" where it is the meaning of a word;
// {q} in the text is that row's quantity.
type remark struct {
	when        func(*Person) bool
	text        string
	group, rule string
}

func under(months int) func(*Person) bool {
	return func(p *Person) bool { return p.AgeMonths < months }
}

func between(from, below int) func(*Person) bool {
	return func(p *Person) bool { return p.AgeMonths >= from && p.AgeMonths < below }
}

func has(c Condition) func(*Person) bool {
	return func(p *Person) bool { return p.Has(c) }
}

func (p *Person) getsFormula() bool {
	return p.AgeMonths < infantBelow && (p.Feeding == FormulaFed || p.Feeding == MixedFed)
}

func (p *Person) getsBreastMilk() bool {
	return p.AgeMonths < infantBelow && (p.Feeding == BreastFed || p.Feeding == MixedFed)
}

// toddler reports whether p follows the pattern of small children, 12 to 23 months.
func (p *Person) toddler() bool { return p.AgeMonths >= toddlerFrom && p.AgeMonths < sugarBelow }

// toddlerOffMilk reports whether p is such a child whose allergy or diet bars milk.
func (p *Person) toddlerOffMilk() bool { return p.toddler() && (p.allergic("milk") || p.Has(Vegan)) }

func (p *Person) toddlerOnMilk() bool { return p.toddler() && !p.toddlerOffMilk() }

// Ages at which remarks begin or end, in months.
const (
	readyToFeedBelow = 3
	toddlerFrom      = 12
	chokingBelow     = 4 * 12
	sugarBelow       = 24
	overFifty        = 51 * 12
)

// remarks in the order in which they are printed.
var remarks = []remark{
	{under(onlyMilkBelow), "Breast milk or iron-fortified infant formula and nothing else.", "infant_0_6mo", "breast milk or iron-fortified infant formula only; no other food"},
	{under(onlyMilkBelow), "No water, juice or other drink.", "infant_0_6mo", "no plain water, juice or other drink"},
	{(*Person).getsFormula, "Powder is mixed with boiled water of at least {q} °C, then cooled quickly; the label of the tin comes first.", "infant_0_6mo", "powdered formula: mix with boiled water no cooler than"},
	{func(p *Person) bool { return p.getsFormula() && p.AgeMonths < readyToFeedBelow }, "Ready-to-feed formula is the safer choice under 3 months, for a child born early or with weak defences, and where water is unsafe.", "infant_0_6mo", "prefer ready-to-use liquid formula when water is unsafe or under 3 months, premature or immunocompromised"},
	{(*Person).getsFormula, "Each feed is made fresh; what stands longer than {q} hours is thrown away.", "infant_0_6mo", "discard prepared formula after"},
	{(*Person).getsFormula, "Formula is never made weaker or stronger than the label says.", "infant_0_6mo", "never dilute or concentrate formula beyond the label"},
	{(*Person).getsBreastMilk, "Breast-fed infants are advised {q} µg of vitamin D a day: ask a clinician.", "infant_0_6mo", "vitamin D for breastfed infants"},
	{between(onlyMilkBelow, infantBelow), "Food is pureed, mashed or soft.", "infant_6_12mo", "texture pureed, mashed or soft; finger food from 8-9 months"},
	{between(onlyMilkBelow, infantBelow), "At most {q} mL of plain water a day, with meals.", "infant_6_12mo", "plain water with meals"},
	{under(infantBelow), "No honey, raw or cooked, under {q} months.", "infant_under_12mo", "no honey, raw or cooked"},
	{under(infantBelow), "No cow's milk as a drink under {q} months, including canned, evaporated and powdered milk.", "infant_under_12mo", "no cow's milk as a drink"},
	{between(onlyMilkBelow, infantBelow), "No fruit juice.", "infant_under_12mo", "no fruit juice"},
	{between(onlyMilkBelow, infantBelow), "No added sugar or salt in food.", "infant_under_12mo", "no added sugar or added salt in foods"},
	{between(toddlerFrom, sugarBelow), "No added sugars under two years.", "toddler_12_23mo", "no added sugars under 24 months"},
	{(*Person).toddlerOnMilk, "Whole milk, not reduced-fat: {q} % of energy from fat at least.", "toddler_12_23mo", "fat share of energy"},
	{(*Person).toddlerOffMilk, "{q} % of energy from fat at least, and none of it from milk.", "toddler_12_23mo", "fat share of energy"},
	{(*Person).toddlerOnMilk, "At most {q} mL of milk a day: more displaces iron.", "toddler_12_23mo", "milk ceiling (displaces iron)"},
	{(*Person).toddlerOffMilk, "At most {q} mL a day of a drink in the place of milk, as of milk: more displaces iron.", "toddler_12_23mo", "milk ceiling (displaces iron)"},
	{between(toddlerFrom, chokingBelow), "At most {q} mL of juice a day.", "toddler_12_23mo", "100 percent fruit juice"},
	{between(onlyMilkBelow, chokingBelow), "Nothing to choke on under four years: no whole nuts, seeds, popcorn, hard or sticky sweets; other food cut, mashed or spread thin.", "child_under_4y_choking", "whole nuts and seeds (peanuts, almonds, sunflower)"},
	{(*Person).Pregnant, "No liver or liver pâté: too much retinol.", "pregnancy", "liver and liver pate"},
	{(*Person).Pregnant, "Fish low in mercury, up to {q} g a week.", "pregnancy", "fish ceiling"},
	{(*Person).Pregnant, "No king mackerel, marlin, orange roughy, shark, swordfish, tilefish or bigeye tuna.", "pregnancy", "king mackerel, marlin, orange roughy, shark, swordfish, tilefish (Gulf of Mexico), bigeye tuna"},
	{(*Person).Pregnant, "Albacore (white) tuna at most {q} g a week.", "pregnancy", "albacore (white) tuna"},
	{(*Person).Pregnant, "At most {q} mg of caffeine a day.", "pregnancy", "caffeine"},
	{(*Person).Pregnant, "No alcohol.", "pregnancy", "alcohol"},
	{(*Person).Pregnant, "{q} mg of iron a day usually needs a supplement: ask a clinician.", "pregnancy", "iron"},
	{(*Person).Lactating, "The fish rules of pregnancy hold while breast-feeding.", "lactation", "same fish rules as pregnancy"},
	{(*Person).Lactating, "At most {q} mg of caffeine a day.", "lactation", "caffeine"},
	{(*Person).hasDiabetes, "Carbohydrate is kept alike from meal to meal and day to day.", "diabetes", "consistent carbohydrate at meals for fixed insulin or secretagogue users"},
	{(*Person).hasDiabetes, "A low is treated with {q} g of fast sugar and checked again after 15 minutes, as the clinician has taught; chocolate and nut butter do not work.", "diabetes", "fast-acting carbohydrate per low (glucose under 70 mg/dL)"},
	{func(p *Person) bool { return p.hasDiabetes() && p.AgeMonths < adultFrom }, "These amounts for lows and for days of illness are an adult's. A child needs about {q} g of fast sugar for each kg against a low, and no more than an adult: the clinic says how much.", "diabetes", "fast-acting carbohydrate per low, children by weight"},
	{(*Person).hasDiabetes, "Ask the clinician: medicine, glucagon, strips for sugar and ketones and other meter supplies for the whole time, insulin without refrigeration, what to do on sick days. They are no food and are not planned here.", "diabetes", "glucagon, insulin, meter and medicine supply are not food; remind the household"},
	{func(p *Person) bool { return p.AgeMonths >= olderFrom }, "Thirst is no guide: offer drinks.", "older_adult_65y_and_over", "do not rely on thirst; offer drinks"},
	{func(p *Person) bool { return p.AgeMonths >= overFifty }, "Vitamin B12 is best from fortified food or a supplement at this age.", "older_adult_65y_and_over", "vitamin B12 mostly from fortified food or supplement"},
	{func(p *Person) bool {
		return p.AgeMonths >= overSeventy && !p.takes("vitamin D", "multivitamin") && !p.Has(KidneyDisease)
	}, "Vitamin D: {q} µg a day is much to ask of shelf food, whose vitamins fade as it is kept, and old skin makes less. Ask the clinician or pharmacist about a tablet; it is counted where it is written among the supplements.", "older_adult_65y_and_over", "vitamin D, over 70 y"},
	{func(p *Person) bool { return p.AgeMonths >= olderFrom }, "Light packs that weak hands can open are a help.", "older_adult_65y_and_over", "easy-open packs, light containers"},
	{func(p *Person) bool {
		return p.AgeMonths >= onlyMilkBelow && (p.Has(Vegetarian) && !p.Has(Vegan) || p.Has(Vegan) && p.AgeMonths < infantBelow)
	}, "No meat, poultry, fish or shellfish.", "", ""},
	{func(p *Person) bool { return p.Has(Vegan) && p.AgeMonths >= infantBelow }, "Nothing from animals: no meat, fish, milk, egg or honey.", "", ""},
	{has(KidneyDisease), "No salt substitute of potassium chloride, and no pack whose list of ingredients names a phosphate: it is taken up almost whole, and the food table cannot tell it from the rest.", "chronic_kidney_disease", "potassium and phosphorus: adjust to blood levels; no fixed figure"},
	{has(SoftFood), "Soft or moist food only; if swallowing is poor, a clinician names the texture.", "older_adult_65y_and_over", "soft or minced texture where chewing or swallowing is poor"},
	{has(Coeliac), "No wheat, barley, rye, triticale, malt, spelt or semolina.", "coeliac", "wheat, barley, rye, triticale, malt, spelt, semolina"},
	{has(Coeliac), "Oats only where the label says gluten-free.", "coeliac", "oats only if labelled gluten-free"},
	{has(Coeliac), "Pots, cooking water and spoons are not shared with gluten.", "coeliac", "avoid shared cooking water and utensils"},
	{has(Lactose), "At most {q} g of lactose a day, as much as is usually tolerated at one time.", "lactose_intolerance", "lactose usually tolerated in one dose"},
	{func(p *Person) bool { return len(p.Allergies) > 0 }, "Read every label: a warning that a food may contain an allergen is voluntary. Treat it as the allergen itself where a reaction is severe.", "food_allergy", "advisory may-contain statements are voluntary; treat as contains for severe allergy"},
}

// allergenRules are the rules of special.csv by the word of household.csv.
var allergenRules = map[string]string{
	"milk": "allergen: milk", "egg": "allergen: egg", "fish": "allergen: fish", "shellfish": "allergen: crustacean shellfish",
	"tree-nut": "allergen: tree nuts", "wheat": "allergen: wheat", "peanut": "allergen: peanut", "soy": "allergen: soybean", "sesame": "allergen: sesame",
}

// describe adds the remarks that hold for the person.
func (b *builder) describe() {
	for _, a := range b.p.Allergies {
		rule, ok := allergenRules[a.Allergen]
		if !ok {
			continue
		}
		text := map[AllergyLevel]string{
			AllergyStrict:    "No " + a.Allergen + ", nor food whose label says that it may contain it. Spoons, boards and pans are kept apart from those for food with " + a.Allergen + ".",
			AllergyTraces:    "No " + a.Allergen + "; food that may contain traces of it is allowed, on a clinician's word.",
			AllergyHousehold: "No " + a.Allergen + " in the household, nor food that may contain it: nobody gets it.",
		}[a.Level]
		b.note(text, b.d.rule("food_allergy", rule))
	}
	for _, r := range remarks {
		if r.when(b.p) {
			f := figure{Source: "meaning of the word", Verified: "common practice, no source"}
			if r.group != "" {
				f = b.d.rule(r.group, r.rule)
			}
			b.note(strings.ReplaceAll(r.text, "{q}", measure(f.Value)), f)
		}
	}
	if zinc, _, ok := b.d.goal(b.stage, Zinc.Name()); ok && b.p.Has(Vegan) && b.p.AgeMonths >= infantBelow {
		b.note("People who eat no animal food may need up to half as much zinc again; the floor here is that of a mixed diet.", zinc)
	}
}

// medicines says what the person's medicines ask of the food, and which
// nutrients are to be kept alike from day to day.
func (b *builder) medicines() {
	for _, m := range b.d.medicines {
		if b.p.Has(m.word) {
			b.note(m.text, m.origin)
			b.needs.Steady = append(b.needs.Steady, m.steady...)
		}
	}
}

// supplements counts what the household opted into: a dose lowers what food must
// give, and the room under an upper level that counts all of a nutrient. What is
// only shown, of infants, stays as it is. Upper levels of supplements alone are
// held where the household is read.
func (b *builder) supplements() {
	for _, name := range b.p.Supplements {
		s, why := b.d.supplement(name, b.p)
		if why != "" {
			b.needs.say(fmt.Sprintf("Supplement %q is not counted: %s.", name, why), "supplements", "see data/supplements.csv")
			continue
		}
		b.needs.Supplements = append(b.needs.Supplements, s)
		b.needs.say(fmt.Sprintf("%s, %s, is counted. %s.", micrograms(s.Name), s.Taken, caution(s.MustNot)), micrograms(s.Source), s.Verified)
		for _, dose := range s.Doses {
			if dose.Column < Count {
				b.list[dose.Column].take(dose.Amount, micrograms(s.Name))
			}
			if dose.Column == VitaminA { // half of it at most is not beta-carotene (supplements.csv)
				b.list[Retinol].take(dose.Amount/2, micrograms(s.Name))
			}
		}
	}
	holdFolicAcid(b)
	askVegan(b)
}

// caution says who must not take a supplement, from its cell: "nobody with …" says so by
// itself, and would say the contrary behind a "must not".
func caution(mustNot string) string {
	if strings.HasPrefix(mustNot, "no") {
		return "Caution: " + mustNot
	}
	return "Avoid: " + mustNot
}

// holdFolicAcid holds the folic acid of fortified food under what a supplement leaves of
// the UL, which counts folic acid of both and no folate of food itself. Without a
// supplement it is not held: the UL is of what is added.
func holdFolicAcid(b *builder) {
	dose, from := 0.0, ""
	for _, s := range b.needs.Supplements {
		for _, d := range s.Doses {
			if d.Column == FolicAcid {
				dose, from = dose+d.Amount, joinNotes(from, micrograms(s.Name))
			}
		}
	}
	f, ok := b.d.find(b.stage, Folate.Name(), "UL")
	if dose == 0 || !ok {
		return
	}
	top := f.limit("UL")
	top.Amount = max(0, f.Value-dose)
	top.Note = fmt.Sprintf("%s less %s of %s", trim(f.Value), trim(dose), from)
	b.need(FolicAcid).lower(top)
}

// take lowers the floor of a need by a dose, and its upper level; a need of
// nobody or one that is only shown stays.
func (n *Need) take(dose float64, from string) {
	if n == nil || n.Shown {
		return
	}
	less := func(l *Limit) *Limit {
		return l.with(max(0, l.Amount-dose), joinNotes(l.Note, fmt.Sprintf("%s less %s of %s", trim(l.Amount), trim(dose), from)))
	}
	if n.Floor != nil {
		if n.Floor = less(n.Floor); n.Floor.Amount == 0 {
			n.Floor = nil
		}
	}
	if n.Ceiling != nil && n.Ceiling.Kind == "UL" {
		n.Ceiling = less(n.Ceiling)
	}
}

// askVegan names what no plant food of the shelf gives a vegan reliably and no
// supplement of theirs holds, and its tablets. It is asked about, never counted unasked.
func askVegan(b *builder) {
	if !b.p.Has(Vegan) || b.p.AgeMonths < infantBelow {
		return
	}
	var missing []string
	for _, ask := range []struct{ of, words string }{{VitaminB12.Name(), "vitamin B12"}, {VitaminD.Name(), "vitamin D"}, {"iodine_ug", "iodine"}} {
		if !slices.ContainsFunc(b.needs.Supplements, func(s Supplement) bool {
			return slices.ContainsFunc(s.Doses, func(d Dose) bool { return d.Of == ask.of })
		}) {
			missing = append(missing, ask.words)
			if name := b.d.tablet(ask.of, b.p); name != "" {
				b.needs.AskAbout = append(b.needs.AskAbout, Tablet{name, ask.of})
			}
		}
	}
	if len(missing) > 0 {
		b.needs.say("No plant food of a shelf gives "+strings.Join(missing, ", ")+" reliably: ask about a supplement, and write it under supplements to have it counted.",
			"vegan nutrition advice (data/supplements.csv)", "from memory")
	}
}

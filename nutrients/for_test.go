package nutrients

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// campaign sets the size of the randomised tests: 1 small, 10 middle, 100 full.
var campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

var (
	allStandards = []Standard{StandardRDA, StandardEAR, StandardBasic}
	allSets      = []EnergySet{Energy2023, Energy2005, EnergyGuidelines}
	allStates    = []State{Pregnant1, Pregnant2, Pregnant3, Lactating1, Lactating2}
	allFeedings  = []Feeding{BreastFed, FormulaFed, MixedFed}
)

// everyPerson calls each for every age (each month to 24, each year to 100),
// sex, state and feeding, without conditions.
func everyPerson(each func(Person)) {
	var months []int
	for m := range 24 {
		months = append(months, m)
	}
	for y := 2; y <= 100; y++ {
		months = append(months, 12*y)
	}
	for _, m := range months {
		for _, sex := range []Sex{Female, Male} {
			p := Person{Name: "Ada", AgeMonths: m, YearsOnly: m >= 24, Sex: sex, Count: 1}
			if m < infantBelow {
				for _, p.Feeding = range allFeedings {
					each(p)
				}
				continue
			}
			each(p)
			if sex == Female && m >= childbearingFrom && m < childbearingBelow {
				for _, p.State = range allStates {
					each(p)
				}
			}
		}
	}
}

// conditionSets are no condition, each one, and each pair.
func conditionSets() [][]Condition {
	sets := [][]Condition{nil}
	for i, a := range conditions {
		sets = append(sets, []Condition{Condition(a)})
		for _, b := range conditions[:i] {
			sets = append(sets, []Condition{Condition(a), Condition(b)})
		}
	}
	return sets
}

// No combination of age, sex, state, feeding, conditions, standard and energy
// set leaves a person with a floor above a ceiling, or with a limit that is no
// number. Every person meets every pair of conditions; the nine pairs of
// standard and energy set take turns, and all meet all in the full campaign.
func TestEveryCombinationCanBeMet(t *testing.T) {
	turn, tried := 0, 0
	sets := conditionSets()
	everyPerson(func(p Person) {
		for _, p.Conditions = range sets {
			for k := range len(allStandards) * len(allSets) {
				if k > 0 && *campaign < 100 {
					break
				}
				turn++
				o := Options{Standard: allStandards[turn%3], EnergySet: allSets[turn/3%3], LeanEnergy: turn%2 == 0}
				needs, err := For(p, o)
				if err != nil {
					t.Fatalf("For(%+v, %+v): %v", p, o, err)
				}
				tried++
				for _, fault := range faults(&needs, o) {
					t.Errorf("%s, %s, %s, %v, %s, %s: %s", ageText(p.AgeMonths), p.Sex, p.State, p.Conditions, o.Standard, o.EnergySet, fault)
				}
				if t.Failed() {
					t.FailNow()
				}
			}
		}
	})
	if least := 40_000; tried < least {
		t.Errorf("only %d combinations tried, want at least %d", tried, least)
	}
}

// faults returns what must never be true of anyone's needs.
func faults(n *Needs, o Options) []string {
	var all []string
	fault := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	limit := func(what string, l *Limit, zeroToo bool) {
		switch {
		case l == nil:
		case math.IsNaN(l.Amount) || math.IsInf(l.Amount, 0) || l.Amount < 0 || (l.Amount == 0 && !zeroToo):
			fault("%s is %g", what, l.Amount)
		case l.Kind == "" || l.Source == "" || l.Verified == "":
			fault("%s has no kind, source or mark: %+v", what, *l)
		}
	}
	p := &n.Person
	if n.Stage == "" {
		fault("no life stage")
	}
	for _, note := range n.Notes {
		if note.Text == "" || note.Source == "" || note.Verified == "" {
			fault("note without text, source or mark: %+v", note)
		}
	}
	wantRefused := slices.ContainsFunc(p.Conditions, func(c Condition) bool {
		return slices.Contains([]Condition{KidneyDisease, HeartFailure, Dysphagia, InbornError, TubeFeeding}, c)
	}) || (p.AgeMonths < infantBelow && p.hasDiabetes()) ||
		(p.AgeMonths < infantBelow && p.Feeding != BreastFed && (p.allergic("milk") || p.allergic("soy")))
	if refused := n.Refused != nil; refused != wantRefused {
		fault("refused %v, want %v", refused, wantRefused)
	}
	if n.Refused != nil {
		if n.Refused.Reason == "" || n.Refused.Source == "" || n.Refused.Verified == "" {
			fault("refused without reason, source or mark")
		}
		if len(n.List) > 0 || len(n.Shares) > 0 || n.Feed != nil || n.Meals != nil {
			fault("planned although refused")
		}
		if n.Water.Total == nil || n.Water.Total.Amount <= 0 {
			fault("no water stored for a refused person")
		}
		return all
	}
	limit("EER", &n.EER, false)
	if n.HeightCm <= 0 || n.WeightKg <= 0 {
		fault("no body: %g cm, %g kg", n.HeightCm, n.WeightKg)
	}
	needs := map[Nutrient]*Need{}
	for i := range n.List {
		need := &n.List[i]
		needs[need.Nutrient] = need
		if i > 0 && need.Nutrient <= n.List[i-1].Nutrient {
			fault("%s out of order", need.Nutrient)
		}
		limit(need.Nutrient.Name()+" floor", need.Floor, false)
		limit(need.Nutrient.Name()+" ceiling", need.Ceiling, need.Nutrient == AddedSugars)
		limit(need.Nutrient.Name()+" target", need.Target, false)
		if need.Floor != nil && need.Ceiling != nil && need.Floor.Amount > need.Ceiling.Amount {
			fault("%s: floor %g above ceiling %g", need.Nutrient, need.Floor.Amount, need.Ceiling.Amount)
		}
		if need.Shown && (need.Floor != nil || need.Ceiling != nil) {
			fault("%s: only shown, yet with a floor or ceiling", need.Nutrient)
		}
		for _, supplementOnly := range []Nutrient{VitaminE, Niacin, Folate, Magnesium, VitaminA} {
			if need.Nutrient == supplementOnly && need.Ceiling != nil && need.Ceiling.Kind == "UL" {
				fault("%s: its UL does not count food", need.Nutrient)
			}
		}
		if ul := upperLevelFor(n, need.Nutrient); ul > 0 && need.Ceiling != nil && need.Ceiling.Amount > ul*(1+1e-12) {
			fault("%s: ceiling %g above the upper level %g", need.Nutrient, need.Ceiling.Amount, ul)
		}
	}
	if p.AgeMonths < infantBelow {
		return append(all, infantFaults(n, needs)...)
	}
	if n.Feed != nil {
		fault("a milk feed at %s", ageText(p.AgeMonths))
	}
	limit("total water", n.Water.Total, false)
	limit("drinks", n.Water.Drinks, false)
	if n.Water.Total == nil || n.Water.Drinks == nil || n.Water.Drinks.Amount > n.Water.Total.Amount {
		fault("water %+v", n.Water)
	}
	if needs[Energy] == nil || needs[Protein] == nil || needs[Retinol] == nil || needs[Retinol].Ceiling == nil {
		fault("energy, protein or the retinol ceiling is missing")
		return all
	}
	least := 1.0
	if o.LeanEnergy && p.AgeMonths >= 19*12 && p.AgeMonths < 65*12 && p.State == NoState {
		least = 0.97
	}
	if energy := needs[Energy]; energy.Floor.Amount < least*n.EER.Amount-1e-9 || energy.Ceiling.Amount < 1.1*n.EER.Amount-1e-9 && energy.Ceiling.Kind != kindRule {
		fault("energy %g to %g at a requirement of %g", energy.Floor.Amount, energy.Ceiling.Amount, n.EER.Amount)
	}
	return append(all, macroFaults(n, needs)...)
}

// upperLevelFor returns the UL of the tables where it counts food, 0 when there
// is none.
func upperLevelFor(n *Needs, nutrient Nutrient) float64 {
	d, err := data()
	if err != nil {
		return 0
	}
	name := nutrient.Name()
	if nutrient == Retinol {
		name = "vitamin_a"
	} else if !totalUL[nutrient] {
		return 0
	}
	f, ok := d.dri[n.Stage][driKey{name, "UL"}]
	switch {
	case !ok || !f.set():
		return 0
	case nutrient == Copper:
		return f.Value / 1000 // tabled in mg
	}
	return f.Value
}

// macroFaults checks that protein, fat and carbohydrate can make up the energy
// within their shares, floors and ceilings together.
func macroFaults(n *Needs, needs map[Nutrient]*Need) []string {
	var all []string
	least, most := 0.0, 0.0
	band := slices.ContainsFunc(n.Person.Rules, func(r Rule) bool { return r.Kind == RuleCarbohydrate })
	for _, s := range shareNutrients {
		low, high := 0.0, 100.0
		for i := range n.Shares {
			share := &n.Shares[i]
			if share.Nutrient != s.n {
				continue
			}
			if share.KcalPerG != s.kcalPerG {
				all = append(all, fmt.Sprintf("%s: %g kcal per g", s.n, share.KcalPerG))
			}
			if share.Min != nil {
				low = share.Min.Amount
			}
			if share.Max != nil {
				high = share.Max.Amount
			}
		}
		if need := needs[s.n]; need != nil {
			if need.Floor != nil {
				low = max(low, need.Floor.Amount*s.kcalPerG/n.EER.Amount*100)
			}
			if need.Ceiling != nil {
				high = min(high, need.Ceiling.Amount*s.kcalPerG/n.EER.Amount*100)
			}
		}
		ruled := slices.ContainsFunc(n.Person.Rules, func(r Rule) bool { return r.Kind == RuleFloor || r.Kind == RuleCeiling })
		if low > high+1e-9 && !ruled && !band {
			all = append(all, fmt.Sprintf("%s: %g %% of energy at least, %g %% at most", s.n, low, high))
		}
		if s.n == Protein || s.n == Fat || s.n == Carbohydrate {
			least += low
			most += high
		}
		if ruled || band {
			least, most = 0, 100
		}
	}
	if least > 100 || most < 100 {
		all = append(all, fmt.Sprintf("protein, fat and carbohydrate make up %g to %g %% of energy", least, most))
	}
	return all
}

func infantFaults(n *Needs, needs map[Nutrient]*Need) []string {
	var all []string
	p := &n.Person
	if n.Water.Total != nil || n.Water.Drinks != nil {
		all = append(all, "an infant has water of its own")
	}
	if n.Feed == nil {
		return append(all, "an infant without a feed")
	}
	if n.Feed.Only != (p.AgeMonths < 6) || n.Feed.SpareFactor < 1.1 || n.Feed.PowderGPer100ML < 12 || n.Feed.PowderGPer100ML > 14 {
		all = append(all, fmt.Sprintf("feed %+v", *n.Feed))
	}
	total := 0.0
	for _, l := range []*Limit{n.Feed.FormulaML, n.Feed.HumanMilkML} {
		if l != nil {
			total += l.Amount
			if l.Source == "" || l.Verified == "" {
				all = append(all, "feed without source")
			}
		}
	}
	if (n.Feed.FormulaML != nil) != (p.Feeding != BreastFed) || (n.Feed.HumanMilkML != nil) != (p.Feeding != FormulaFed) {
		all = append(all, "the wrong milk")
	}
	if most := 946.0; total > most || total < 150 {
		all = append(all, fmt.Sprintf("%g mL of milk a day", total))
	}
	for nutrient, need := range needs {
		enforced := p.AgeMonths >= 6 && (nutrient == Energy || nutrient == Protein || nutrient == Iron)
		if need.Shown == enforced {
			all = append(all, fmt.Sprintf("%s: shown only %v, want %v", nutrient, need.Shown, !enforced))
		}
	}
	slices.Sort(all)
	return all
}

// randomPerson draws a person who could stand in a household file: a body
// within the bounds of the age, any words, any rules.
func randomPerson(r *rand.Rand) Person {
	p := Person{Name: "Ada", AgeMonths: r.IntN(12 * 101), Sex: []Sex{Female, Male}[r.IntN(2)], Count: 1}
	if r.IntN(3) == 0 {
		p.AgeMonths = r.IntN(48)
	}
	p.Activity = Activity(activities[r.IntN(4)])
	for _, age := range plausible {
		if p.AgeMonths < age.below {
			for p.HeightCm == 0 {
				p.HeightCm = age.minHeight + r.Float64()*(age.maxHeight-age.minHeight)
				p.WeightKg = age.minWeight + r.Float64()*(age.maxWeight-age.minWeight)
				if b := bmi(p.HeightCm, p.WeightKg); p.AgeMonths >= 24 && (b < bmiMin || b > bmiMax) {
					p.HeightCm = 0
				}
			}
			break
		}
	}
	if r.IntN(3) == 0 {
		p.HeightCm = 0
	}
	if r.IntN(3) == 0 {
		p.WeightKg = 0
	}
	if p.AgeMonths < infantBelow {
		p.Feeding = allFeedings[r.IntN(3)]
	}
	if p.Sex == Female && p.AgeMonths >= childbearingFrom && p.AgeMonths < childbearingBelow && r.IntN(2) == 0 {
		p.State = allStates[r.IntN(len(allStates))]
	}
	for range r.IntN(3) {
		p.Conditions = append(p.Conditions, Condition(conditions[r.IntN(10)]))
	}
	for range r.IntN(3) {
		p.Allergies = append(p.Allergies, Allergy{Allergen: Allergens[r.IntN(len(Allergens))], Level: AllergyLevel(r.IntN(3))})
	}
	for range r.IntN(3) {
		n := append(slices.Clone(driColumns), Energy, Protein, Retinol, SaturatedFat, AddedSugars)[r.IntN(len(driColumns)+5)]
		amount := math.Exp(r.Float64()*12 - 3)
		if n == Energy {
			amount = leastEnergy + r.Float64()*(mostEnergy-leastEnergy)
		}
		rule := Rule{Kind: []RuleKind{RuleFloor, RuleCeiling}[r.IntN(2)], Nutrient: n, Low: amount}
		rule.Text = fmt.Sprintf("%s %s %g %s", rule.Kind, n, amount, n.Unit())
		if clashes(p.Rules, rule) == "" {
			p.Rules = append(p.Rules, rule)
		}
	}
	return p
}

// Bodies at the edges of the plausible and rules of any size never lead to a
// floor above a ceiling, over an upper level, or under the energy and protein
// that a person needs.
func TestRandomBodiesAndRules(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	obeyed := 0
	defer func() {
		if obeyed < 1000 {
			t.Errorf("only %d of the people had rules that can be obeyed", obeyed)
		}
	}()
	for range 8_000 * *campaign {
		p := randomPerson(r)
		o := Options{Standard: allStandards[r.IntN(3)], EnergySet: allSets[r.IntN(3)]}
		needs, err := For(p, o)
		if errors.Is(err, ErrRule) {
			continue // refused, see TestRulesThatCannotBeObeyed
		}
		if err != nil {
			t.Fatalf("For(%+v, %+v): %v", p, o, err)
		}
		obeyed++
		for _, r := range p.Rules {
			if needs.Refused != nil {
				break
			}
			if r.Kind == RuleFloor && floorOf(&needs, r.Nutrient) < r.Low-1e-9 || r.Kind == RuleCeiling && ceilingOf(&needs, r.Nutrient) > r.Low+1e-9 {
				t.Errorf("%+v, %+v: %q is taken and not obeyed: %g to %g", p, o, r, floorOf(&needs, r.Nutrient), ceilingOf(&needs, r.Nutrient))
			}
		}
		for _, fault := range faults(&needs, o) {
			t.Errorf("%+v, %+v: %s", p, o, fault)
		}
		plain := p
		plain.Rules = nil
		standard, err := For(plain, o)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range []Nutrient{Energy, Protein} {
			if got, want := floorOf(&needs, n), floorOf(&standard, n); got < want-1e-9 {
				t.Errorf("%+v: a rule lowers the floor of %s from %g to %g", p, n, want, got)
			}
		}
		if t.Failed() {
			t.FailNow()
		}
	}
}

func find(n *Needs, nutrient Nutrient) *Need {
	for i := range n.List {
		if n.List[i].Nutrient == nutrient {
			return &n.List[i]
		}
	}
	return nil
}

func floorOf(n *Needs, nutrient Nutrient) float64 {
	if need := find(n, nutrient); need != nil && need.Floor != nil {
		return need.Floor.Amount
	}
	return 0
}

func ceilingOf(n *Needs, nutrient Nutrient) float64 {
	if need := find(n, nutrient); need != nil && need.Ceiling != nil {
		return need.Ceiling.Amount
	}
	return math.Inf(1)
}

func shareOf(n *Needs, nutrient Nutrient) (low, high float64) {
	for _, s := range n.Shares {
		if s.Nutrient == nutrient {
			low, high = 0, 100
			if s.Min != nil {
				low = s.Min.Amount
			}
			if s.Max != nil {
				high = s.Max.Amount
			}
			return low, high
		}
	}
	return 0, 100
}

func mustFor(t *testing.T, p Person, o Options) Needs {
	t.Helper()
	needs, err := For(p, o)
	if err != nil {
		t.Fatalf("For(%+v, %+v): %v", p, o, err)
	}
	return needs
}

func TestForIsTheSameEveryTime(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		p := randomPerson(r)
		if _, err := For(p, Options{}); errors.Is(err, ErrRule) {
			continue
		}
		if a, b := mustFor(t, p, Options{}), mustFor(t, p, Options{}); !reflect.DeepEqual(a, b) {
			t.Fatalf("two results for %+v:\n%+v\n%+v", p, a, b)
		}
	}
}

func TestForRefusesWhatTheTablesDoNotKnow(t *testing.T) {
	for _, c := range []struct {
		name string
		p    Person
		o    Options
		want error
	}{
		{"a pregnancy at 13", Person{AgeMonths: 13 * 12, Sex: Female, State: Pregnant2}, Options{}, ErrStage},
		{"a pregnancy at 51", Person{AgeMonths: 51 * 12, Sex: Female, State: Pregnant2}, Options{}, ErrStage},
		{"no sex at 30", Person{AgeMonths: 360}, Options{}, ErrStage},
		{"an age below zero", Person{AgeMonths: -1, Sex: Male}, Options{}, ErrStage},
		{"121 years", Person{AgeMonths: 121 * 12, Sex: Male}, Options{}, ErrStage},
		{"120 years and 11 months", Person{AgeMonths: 121*12 - 1, Sex: Male}, Options{}, nil},
		{"a newborn", Person{Sex: Male, Feeding: BreastFed}, Options{}, nil},
		{"an infant without feeding", Person{AgeMonths: 3, Sex: Male}, Options{}, ErrStage},
		{"an unknown activity", Person{AgeMonths: 360, Sex: Male, Activity: "lazy"}, Options{}, ErrStage},
		{"an unknown standard", Person{AgeMonths: 360, Sex: Male}, Options{Standard: "best"}, ErrOption},
		{"an unknown energy set", Person{AgeMonths: 360, Sex: Male}, Options{EnergySet: "1989"}, ErrOption},
	} {
		if _, err := For(c.p, c.o); !errors.Is(err, c.want) || c.want == nil && err != nil {
			t.Errorf("%s: error %v, want %v", c.name, err, c.want)
		}
	}
}

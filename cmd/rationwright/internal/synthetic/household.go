package synthetic

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"rationwright/nutrients"
)

// names are of nobody: people of the invented island of Ternsund.
var names = []string{
	"Aud", "Borghild", "Dagny", "Eldrid", "Frøydis", "Gunnvor", "Hjørdis", "Ingerid", "Jorunn", "Kjellaug", "Liv", "Magnhild", "Oddny", "Ragnhild", "Signe",
	"Arnljot", "Brynjar", "Eskil", "Folke", "Gaute", "Halvard", "Ivar", "Joar", "Ketil", "Leif", "Njål", "Odd", "Roald", "Sverre", "Torleif",
}

// Ages of those in a household, in years: invented, for trials.
const (
	youngest, grown, older, oldest = 20, 18, 65, 95
	mostBetween                    = 6      // years between a couple
	firstChild, lastChild          = 20, 40 // age of a parent at a child's birth
)

// Household invents household number n of a seed. Everyone in it is a row that a
// household file may hold.
func Household(seed uint64, n int) ([]nutrients.Person, error) {
	all, err := shares()
	if err != nil {
		return nil, err
	}
	h := drawer{rng: rand.New(rand.NewPCG(seed, uint64(n))), shares: all}
	size, err := strconv.Atoi(h.one(drawSize))
	if err != nil {
		return nil, err
	}
	h.fill(size)
	return h.people, nil
}

// drawer draws one household.
type drawer struct {
	rng    *rand.Rand
	shares map[string][]share
	people []nutrients.Person
}

// one draws a word that every household has; the shares of the table may come to a
// little less than 100 %, the rest being the first.
func (d *drawer) one(what string) string {
	if word := pick(d.rng, d.shares[what], 0, ""); word != "" {
		return word
	}
	return d.shares[what][0].word
}

// between draws a whole number from lo to hi.
func (d *drawer) between(lo, hi int) int { return lo + d.rng.IntN(hi-lo+1) }

// fill draws the people of a household of so many.
func (d *drawer) fill(size int) {
	kind := d.one(map[bool]string{true: drawPair, false: drawFamily}[size == 2])
	if size == 1 {
		kind = d.one(drawAlone)
	}
	switch kind {
	case "older":
		d.add(d.between(older, oldest), "")
	case "younger":
		d.add(d.between(youngest, older-1), "")
	case "older couple":
		d.couple(older, oldest-mostBetween)
	case "couple":
		d.couple(youngest, older-1-mostBetween)
	case "adults":
		for range size {
			d.add(d.between(grown, older+10), "")
		}
	case "parent and child", "parent and children":
		d.children(size-1, d.add(d.between(firstChild+1, lastChild+10), ""))
	case "parents and children":
		d.children(size-2, d.couple(firstChild+1, lastChild+10))
	case "three generations":
		parent := d.add(d.between(firstChild+3, lastChild+10), "")
		d.add(min(parent+d.between(firstChild, lastChild), oldest), "")
		d.children(size-2, parent)
	}
}

// couple adds two people of near ages, and returns the younger's.
func (d *drawer) couple(lo, hi int) int {
	age := d.between(lo, hi)
	d.add(age, "f")
	d.add(age+d.between(0, mostBetween), "m")
	return age
}

// children adds children of a parent, none older than the parent allows.
func (d *drawer) children(n, parent int) {
	for range n {
		d.add(d.between(max(0, parent-lastChild), min(grown-1, parent-firstChild)), "")
	}
}

// add adds a person of an age in years, and returns it.
func (d *drawer) add(years int, sex string) int {
	if sex == "" {
		sex = []string{"f", "m"}[d.rng.IntN(2)]
	}
	p := nutrients.Person{Sex: nutrients.Sex(sex), Activity: nutrients.LowActive, Count: 1, AgeMonths: 12 * years, YearsOnly: years > 3}
	for p.Name == "" || slices.ContainsFunc(d.people, func(q nutrients.Person) bool { return q.Name == p.Name }) {
		p.Name = names[d.rng.IntN(len(names))]
	}
	if years <= 3 {
		p.AgeMonths += d.rng.IntN(12)
	}
	if years == 0 {
		p.Feeding = nutrients.Feeding(pick(d.rng, d.shares[drawFeeding], years, sex))
	}
	if word := pick(d.rng, d.shares[drawActivity], years, sex); word != "" {
		p.Activity = nutrients.Activity(word)
	}
	p.State = nutrients.State(pick(d.rng, d.shares[drawState], years, sex))
	if pick(d.rng, d.shares[drawBody], years, sex) != "" {
		d.measure(&p)
	}
	d.conditions(&p, years)
	for _, word := range each(d.rng, d.shares[drawAllergy], years, sex) {
		p.Allergies = append(p.Allergies, nutrients.Allergy{Allergen: word})
	}
	p.Dislikes = each(d.rng, d.shares[drawDislike], years, sex)
	d.people = append(d.people, p)
	return years
}

// measure draws the height and weight of an adult: invented, for trials.
func (d *drawer) measure(p *nutrients.Person) {
	height := 163 + 7*d.rng.NormFloat64()
	if p.Sex == nutrients.Male {
		height = 177 + 7*d.rng.NormFloat64()
	}
	p.HeightCm = math.Round(min(max(height, 145), 205))
	bmi := min(max(26.5+4.5*d.rng.NormFloat64(), 18), 42)
	p.WeightKg = math.Round(bmi * p.HeightCm * p.HeightCm / 10000)
}

// conditions draws the conditions of a person, of which only some stand together.
func (d *drawer) conditions(p *nutrients.Person, years int) {
	diabetes := []nutrients.Condition{nutrients.Diabetes1, nutrients.Diabetes2, nutrients.Diabetes2Diet}
	for _, word := range each(d.rng, d.shares[drawCondition], years, string(p.Sex)) {
		c := nutrients.Condition(word)
		has := func(list ...nutrients.Condition) bool {
			return slices.ContainsFunc(list, func(c nutrients.Condition) bool { return p.Has(c) })
		}
		switch {
		case slices.Contains(diabetes, c) && has(diabetes...):
		case c == nutrients.Vegan && has(nutrients.Vegetarian):
		default:
			p.Conditions = append(p.Conditions, c)
		}
	}
}

package page

import (
	"math"
	"slices"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// What the door has room for in large type. All of it own planning rule: the door is
// read by everyone, so no one person and no one subject may fill it.
const (
	doorCautions = 5
	doorNamed    = 3 // of them at most about people by name: the rest concerns the house
	doorSame     = 2 // at most about one person, or one subject
)

// doorSubjects are the warnings that are about the same thing, by their numbers in the
// table of cautions; any other is a subject of its own. What harms a whole house at
// once and unnoticed stands first. Own planning rule.
var doorSubjects = [][]string{
	{"C16", "C17", "C18"}, // flame and fumes
	{"C01", "C02", "C03", "C04", "C05", "C09", "C10", "C35", "C37", "C38"}, // packs
	{"C06", "C07", "C08", "C31", "C32", "C33"},                             // food that stands
	{"C11", "C12", "C13", "C14", "C15", "C24"},                             // water
}

// doorSaid are the warnings about people that "Must not eat" says on the same sheet:
// they come after the others that are as grave.
var doorSaid = []string{"C19", "C26", "C27", "C28"}

// doorSubject is the place of a warning's subject; those of their own come last.
func doorSubject(c ration.Caution) int {
	k := slices.IndexFunc(doorSubjects, func(ids []string) bool { return slices.Contains(ids, c.ID) })
	if k < 0 {
		return len(doorSubjects)
	}
	return k
}

// doorFive chooses the warnings for the door: the gravest first, and among equals
// first what concerns someone by name, then each subject in turn. Each is there once.
func doorFive(all []ration.Caution) []ration.Caution {
	var five []ration.Caution
	about := map[string]int{} // how often a person or a subject is there already
	named := 0
	take := func(c ration.Caution, most int) {
		keys := c.People
		if len(keys) == 0 {
			keys = []string{"\x00" + c.ID}
			if k := doorSubject(c); k < len(doorSubjects) {
				keys = []string{"\x00" + doorSubjects[k][0]}
			}
		}
		news := slices.ContainsFunc(keys, func(k string) bool { return about[k] < most })
		full := slices.ContainsFunc(keys, func(k string) bool { return about[k] >= doorSame })
		if len(five) == doorCautions || !news || full || len(c.People) > 0 && named == doorNamed ||
			slices.ContainsFunc(five, func(have ration.Caution) bool { return have.ID == c.ID }) {
			return
		}
		five = append(five, c)
		for _, k := range keys {
			about[k]++
		}
		if len(c.People) > 0 {
			named++
		}
	}
	for _, severity := range stores.Severities {
		var people, house []ration.Caution
		for _, c := range all {
			switch {
			case c.Severity != severity:
			case len(c.People) > 0:
				people = append(people, c)
			default:
				house = append(house, c)
			}
		}
		said := func(c ration.Caution) int { return slices.Index(doorSaid, c.ID) }
		slices.SortStableFunc(people, func(a, b ration.Caution) int { return min(said(a), 0) - min(said(b), 0) })
		slices.SortStableFunc(house, func(a, b ration.Caution) int { return doorSubject(a) - doorSubject(b) })
		for _, group := range [][]ration.Caution{people, house} {
			for most := 1; most <= doorSame; most++ {
				for _, c := range group {
					take(c, most)
				}
			}
		}
	}
	return five
}

// doorSizes are the classes of style.css with their type in points, the largest first.
var doorSizes = []struct {
	class string
	pt    float64
}{{" roomy", 15}, {"", 13}, {" full", 11}}

// What one sheet holds in type of one point: the narrower of A4 and Letter is 182 mm
// wide between its margins, the lower 249 mm high; a letter is 0.52 of its type wide on
// average and a line 1.25 of it high. Measured on printed sheets.
const (
	doorLetters = 182 / (0.3528 * 0.52)
	doorLines   = 249 / (0.3528 * 1.25)
)

// doorSize is the class of the largest type in which the door is one sheet; of the
// smallest where it is more.
func (r *Report) doorSize() string {
	for _, s := range doorSizes {
		if r.doorHeight(s.pt) <= doorLines/s.pt {
			return s.class
		}
	}
	return doorSizes[len(doorSizes)-1].class
}

// doorHeight is how many lines the door takes in type of pt points; headings and lines
// in larger type count as more than one. Lines that are not full make it a seventh more
// than what is printed, which is taken off.
func (r *Report) doorHeight(pt float64) float64 {
	wide := doorLetters / pt
	lines := func(letters int, share float64) float64 { return math.Ceil(float64(letters) / (share * wide)) }
	const heading, big, beside = 2.2, 1.25, 0.8
	high := 1.8 * lines(len(r.Who)+12, 0.6)
	water := 20
	for _, e := range r.People {
		if e.DrinkL > 0 {
			water += len(e.Name) + len(" drinks 1.00 L a day.")
		}
	}
	high += big*lines(water, 0.8) + lines(len(r.Demo), 1)
	for _, line := range r.Headline {
		high += 1 + lines(len(line), 0.85)
	}
	if r.MustNot() {
		high += heading
	}
	for _, line := range r.Apart {
		high += lines(len(line), 1) + 0.2
	}
	for _, a := range r.Avoid {
		for _, line := range a.MustNot {
			high += lines(len(line), beside) + 0.2
		}
	}
	high += heading
	if slices.ContainsFunc(r.DoorFive, func(c ration.Caution) bool { _, wanted := sheet.Mark(c.Source); return wanted }) {
		high += lines(len(sheet.Legend), 1)
	}
	for _, c := range r.DoorFive {
		high += lines(len(c.Text)+len(sheet.Names(c.People))+len(c.Source)*9/int(pt), 0.93) + 0.1
	}
	return (high + 5) * 6 / 7 // five: what the door ends with
}

// MustNot reports whether anyone must not eat something, beside what they do not like.
func (r *Report) MustNot() bool {
	return len(r.Apart) > 0 || slices.ContainsFunc(r.Avoid, func(a Avoid) bool { return len(a.MustNot) > 0 })
}

package page

import (
	"slices"

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

// Letters that one sheet of A4 or Letter holds beside its headings, in the sizes of
// style.css; counted on printed sheets.
const (
	doorScant = 1100
	doorRoomy = 1900
)

// doorSize is the class of the largest type in which the door's text is one sheet.
func (r *Report) doorSize() string {
	n := len(r.Who)
	for _, c := range r.DoorFive {
		n += len(c.Text) + len(c.Source)
	}
	for _, a := range r.Avoid {
		for _, line := range a.MustNot {
			n += len(line) + doorLine
		}
	}
	for _, e := range r.People {
		if e.DrinkL > 0 {
			n += len(e.Name) + len(" drinks 1.00 L a day.")
		}
	}
	switch {
	case n < doorScant:
		return " scant"
	case n < doorRoomy:
		return " roomy"
	}
	return ""
}

// doorLine is what a line of its own takes beside its letters, half a line being empty.
const doorLine = 30

// MustNot reports whether anyone must not eat something, beside what they do not like.
func (r *Report) MustNot() bool {
	return slices.ContainsFunc(r.Avoid, func(a Avoid) bool { return len(a.MustNot) > 0 })
}

package nutrients

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// readSupplementNames reads the column supplements, and refuses what the person
// must not take or what passes an upper level together.
func readSupplementNames(row *table.Row, p *Person, aged bool) []string {
	d, err := data()
	if err != nil {
		return nil
	}
	var chosen []string
	total := map[string]float64{}
	names := d.supplementNames()
	for _, part := range row.List("supplements") {
		name := supplementCalled(part, names)
		if name == "" {
			fix := table.Suggest(part, names)
			if fix == "" {
				fix = "known are: " + strings.Join(names, "; ")
			}
			row.FailValue("supplements", part, table.ErrUnknownWord, fix)
			continue
		}
		if slices.Contains(chosen, name) {
			row.FailValue("supplements", part, errors.New("written twice"), "leave one")
			continue
		}
		if !aged || p.Sex == "" {
			continue
		}
		s, why := d.supplement(name, p)
		if why != "" {
			row.FailValue("supplements", part, errors.New(why), "leave it out, or ask a clinician")
			continue
		}
		for _, dose := range s.Doses {
			total[dose.Of] += dose.Amount
			if dose.UL != nil && total[dose.Of] > dose.UL.Amount {
				row.FailValue("supplements", part, fmt.Errorf("with the others it gives %g %s of %s a day, over the upper level of %g (%s)", total[dose.Of], dose.Unit, dose.Of, dose.UL.Amount, dose.UL.Source), "leave one out")
			}
		}
		chosen = append(chosen, name)
	}
	return chosen
}

// supplementCalled returns the generic name that a person means: in any case,
// with µg for ug, or the words before the comma of a name.
func supplementCalled(text string, names []string) string {
	word := strings.NewReplacer("µg", "ug", "mcg", "ug", "microgram", "ug").Replace(canonicalWords(text))
	for _, name := range names {
		short, _, _ := strings.Cut(name, ",")
		if word == canonicalWords(name) || word == canonicalWords(short) {
			return name
		}
	}
	return ""
}

func canonicalWords(text string) string {
	return strings.ReplaceAll(strings.ToLower(strings.Join(strings.Fields(text), " ")), "μ", "µ")
}

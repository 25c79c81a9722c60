package foods

import (
	"errors"
	"fmt"
	"iter"
	"slices"

	"rationwright/nutrients"
)

// Eligible reports whether p, one of household, may eat f, by the rules of
// data/eligibility.csv: age, feeding, pregnancy, conditions, allergies and the
// shared kitchen. When not, why is the first rule that says so. What p does
// not want is another matter, see [Table.Wishes].
//
// Ages are full months: a person whose household row gives only years counts
// as the youngest that the years allow.
func Eligible(p nutrients.Person, household []nutrients.Person, f *Food) (ok bool, why Reason) {
	for why := range bars(&p, household, f) {
		return false, why
	}
	return true, Reason{}
}

// Bars returns every rule that keeps f from p, in the order of the table; it is
// empty where p is eligible, see [Eligible].
func Bars(p nutrients.Person, household []nutrients.Person, f *Food) []Reason {
	return slices.Collect(bars(&p, household, f))
}

func bars(p *nutrients.Person, household []nutrients.Person, f *Food) iter.Seq[Reason] {
	return func(yield func(Reason) bool) {
		rules, err := embeddedRules()
		if err != nil {
			// Rules that cannot be read must not become permission.
			yield(Reason{Text: "the eligibility rules cannot be read", Safety: true, Source: err.Error()})
			return
		}
		for i := range rules {
			if !rules[i].advice && rules[i].applies(p, household, f) && !yield(rules[i].Reason) {
				return
			}
		}
	}
}

// Handling returns how f must be handled for p, who may eat it: mashed,
// chopped, spread thin. It is empty when nothing need be said.
func Handling(p nutrients.Person, f *Food) []Reason {
	rules, err := embeddedRules()
	if err != nil {
		return nil
	}
	var how []Reason
	for i := range rules {
		if rules[i].advice && rules[i].applies(&p, nil, f) {
			how = append(how, rules[i].Reason)
		}
	}
	return how
}

// Portion is a user's own limit on what a person eats of some foods together.
type Portion struct {
	Foods       []*Food // in table order
	GramsPerDay float64
	Text        string // as the user wrote it
}

// Wishes are what a person does not want or asks for, resolved to foods of a
// table. They lift no safety rule.
type Wishes struct {
	no    map[*Food]Reason
	Most  []Portion // at most so much of the foods a day
	Least []Portion // at least so much of the foods a day
}

// Refuses reports whether the person does not want f, and in what words.
func (w *Wishes) Refuses(f *Food) (why Reason, refused bool) {
	why, refused = w.no[f]
	return why, refused
}

// Wishes resolves p's dislikes and food rules against the table: dislikes name
// foods or groups, "no", "most" and "least" name foods, groups allowed too.
// The error joins one [*UnknownError] per name that the table lacks.
func (t *Table) Wishes(p nutrients.Person) (*Wishes, error) {
	w := &Wishes{no: map[*Food]Reason{}}
	var errs []error
	resolve := func(what, name string) []*Food {
		found, err := t.Named(name)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s, %s: %w", p.Name, what, err))
		}
		return found
	}
	for _, name := range p.Dislikes {
		for _, f := range resolve("dislikes", name) {
			w.no[f] = Reason{Text: p.Name + " does not like " + name, Source: "household file, dislikes"}
		}
	}
	for _, r := range p.Rules {
		portion := Portion{GramsPerDay: r.Low, Text: r.Text}
		switch r.Kind {
		case nutrients.RuleNo:
			for _, f := range resolve("rules", r.Food) {
				w.no[f] = Reason{Text: "own rule: " + r.Text, Source: "household file, rules"}
			}
		case nutrients.RuleMost:
			portion.Foods = resolve("rules", r.Food)
			w.Most = append(w.Most, portion)
		case nutrients.RuleLeast:
			portion.Foods = resolve("rules", r.Food)
			w.Least = append(w.Least, portion)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return w, nil
}

package stores

import (
	"slices"
	"strings"
	"sync"
)

// Caution is a warning in plain words, with what to do about it.
type Caution struct {
	ID        string   `json:"id"`
	Topic     string   `json:"topic"`
	Severity  string   `json:"severity"` // stop, warn or info
	Who       string   `json:"who"`
	AppliesTo string   `json:"applies_to"`
	Text      string   `json:"text"`
	Action    string   `json:"action"`
	Source    string   `json:"source"`
	Verified  string   `json:"verified"`
	People    []string `json:"people,omitempty"` // names whom it concerns, when the situation holds people

	whenPeople, whenThings []Tag // any of each; none: no condition
}

// Severities are the words of Caution.Severity, the gravest first.
var Severities = []string{"stop", "warn", "info"}

var cautionRows = tableOf("cautions", func(r row) Caution {
	return Caution{
		ID: r.Text("id"), Topic: r.Text("topic"), Severity: r.Text("severity"), Who: r.Text("who"),
		AppliesTo: r.Text("applies_to"), Text: r.Text("caution"), Action: r.Text("action"),
		Source: r.ref().Source, Verified: r.ref().Verified,
		whenPeople: r.tags("when_people"), whenThings: r.tags("when_things"),
	}
})

// cautions are the rows with the gravest first, else as in the table.
var cautions = sync.OnceValue(func() []Caution {
	all := slices.Clone(cautionRows())
	slices.SortStableFunc(all, func(a, b Caution) int {
		return slices.Index(Severities, a.Severity) - slices.Index(Severities, b.Severity)
	})
	return all
})

// Cautions returns the cautions that touch a situation with these tags, each
// once, the gravest first, then in the order of the table. A caution applies
// when one of its tags of people is given (or it concerns everyone) and one of
// its tags of things is given (or it concerns everything).
func Cautions(tags ...Tag) []Caution {
	touch := func(when []Tag) bool {
		return len(when) == 0 || slices.ContainsFunc(when, func(t Tag) bool { return slices.Contains(tags, t) })
	}
	return where(cautions(), func(c *Caution) bool { return touch(c.whenPeople) && touch(c.whenThings) })
}

// CautionsAbout returns the cautions about people with tag, whatever is stored, the gravest
// first.
func CautionsAbout(tag Tag) []Caution {
	return where(cautions(), func(c *Caution) bool { return len(c.whenThings) == 0 && slices.Contains(c.whenPeople, tag) })
}

// notOrdinary begins what to do in a caution about people for whom no plan is made
// without a clinician's orders: with orders it is one.
const notOrdinary = "Do not use the ordinary plan. "

// Cautions returns the cautions that touch s, as [Cautions] does for its
// tags, with the names of the people whom each concerns.
func (s Situation) Cautions() []Caution {
	tags := s.AllTags()
	out := Cautions(tags...)
	for i := range out {
		if len(out[i].whenPeople) == 0 {
			continue
		}
		ordered := true
		for j := range s.People {
			p := &s.People[j]
			concerns := func(t Tag) bool { return slices.Contains(s.tagsOf(p), t) }
			if slices.ContainsFunc(out[i].whenPeople, concerns) {
				out[i].People = append(out[i].People, p.Name)
				ordered = ordered && len(p.Orders.List) > 0 && p.Unplanned == nil
			}
		}
		if rest, ok := strings.CutPrefix(out[i].Action, notOrdinary); ok && ordered {
			out[i].Action = "This plan keeps the clinician's orders. Have at hand where they cannot be kept: " + strings.ToLower(rest[:1]) + rest[1:]
		}
	}
	return out
}

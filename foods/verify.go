package foods

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"rationwright/nutrients/table"
)

// Severity says how much a [Finding] matters.
type Severity string

// An error makes a figure or a safety rule wrong; a warning is something to
// look at; info is worth knowing.
const (
	Error   Severity = "error"
	Warning Severity = "warning"
	Info    Severity = "info"
)

// Finding is one thing that [Verify] found.
type Finding struct {
	Severity Severity
	Food     *Food // nil when it is of the whole table
	Pack     *Pack // nil when it is not of one pack
	Check    string
	Text     string
}

// String returns the finding as one line.
func (f Finding) String() string {
	of := "table"
	switch {
	case f.Pack != nil:
		of = f.Pack.Key
	case f.Food != nil:
		of = f.Food.NDB + " " + f.Food.Name
	}
	return fmt.Sprintf("%s: %s: %s: %s", f.Severity, of, f.Check, f.Text)
}

// verifier collects findings.
type verifier struct {
	table    *Table
	accepted map[acceptedKey]string // why
	findings []Finding
}

func (v *verifier) add(s Severity, f *Food, check, format string, args ...any) {
	finding := Finding{Severity: s, Food: f, Check: check, Text: fmt.Sprintf(format, args...)}
	figures := f.NDB
	if f.Copied {
		figures = f.Like
	}
	if why, ok := v.accepted[acceptedKey{figures, check}]; ok && (f.Copied || !f.Own) {
		finding.Severity = Info
		finding.Text += "; accepted: " + why
	}
	v.findings = append(v.findings, finding)
}

func (v *verifier) addPack(s Severity, p *Pack, check, format string, args ...any) {
	v.findings = append(v.findings, Finding{Severity: s, Food: p.Food, Pack: p, Check: check, Text: fmt.Sprintf(format, args...)})
}

// Verify checks every food and pack of the table as a careful dietitian would:
// proximates, energy against Atwater factors, units, parts against wholes,
// words, allergens and tags against the description, animal food against
// cholesterol, pieces against the rules for small children, packs against density and
// net weight, keys and names, gaps. Findings come in table order, errors first
// within a food. What the published table itself has out of tolerance is listed
// with its reason in data/exceptions.csv and reported as info.
//
// Whether each cell equals the publication is not checked here but in the tests
// of the package, against an extract of it.
func Verify(t *Table) []Finding { return verify(t, t.Foods) }

// verify checks the keys of the whole table and the given foods of it.
func verify(t *Table, foods []*Food) []Finding {
	v := &verifier{table: t}
	accepted, err := embeddedAcceptances()
	if err != nil {
		v.findings = append(v.findings, Finding{Severity: Error, Check: "exceptions", Text: err.Error()})
	}
	v.accepted = accepted
	v.keys()
	for _, f := range foods {
		first := len(v.findings)
		v.proximates(f)
		v.energy(f)
		v.vitamins(f)
		v.parts(f)
		v.gaps(f)
		v.words(f)
		v.allergens(f)
		v.tags(f)
		v.animal(f)
		v.pieces(f)
		v.use(f)
		for _, p := range v.table.Packs { // of every market
			if p.Food == f {
				v.pack(p)
			}
		}
		slices.SortStableFunc(v.findings[first:], func(a, b Finding) int {
			return cmp.Compare(rank(a.Severity), rank(b.Severity))
		})
	}
	return v.findings
}

func rank(s Severity) int { return slices.Index([]Severity{Error, Warning, Info}, s) }

// keys checks keys and names across the table.
func (v *verifier) keys() {
	ndb, names, packs := map[string]bool{}, map[string]bool{}, map[string]bool{}
	figures := map[string]*Food{}
	for _, f := range v.table.Foods {
		all := fmt.Sprint(f.Per100g)
		if twin := figures[all]; twin != nil {
			v.add(Info, f, "twins", "the same figures as %s %s", twin.NDB, twin.Name)
		}
		figures[all] = f
		if ndb[fold(f.NDB)] {
			v.add(Error, f, "keys", "a second food has the key %s", f.NDB)
		}
		ndb[fold(f.NDB)] = true
		if names[fold(f.Name)] || ndb[fold(f.Name)] {
			v.add(Error, f, "keys", "a second food is called %q", f.Name)
		}
		names[fold(f.Name)] = true
		if !f.Computed && isComputed(f.NDB) {
			v.add(Error, f, "keys", "%q is no NDB number (five digits)", f.NDB)
		}
	}
	for _, p := range v.table.Packs {
		switch {
		case packs[fold(p.Key)]:
			v.addPack(Error, p, "keys", "a second pack has the key %s", p.Key)
		case ndb[fold(p.Key)] || names[fold(p.Key)]:
			v.addPack(Error, p, "keys", "the key %s is also a food", p.Key)
		case strings.ContainsAny(p.Key, ",; \t"):
			v.addPack(Error, p, "keys", "the key %q holds a blank, comma or semicolon", p.Key)
		}
		packs[fold(p.Key)] = true
	}
}

// acceptedKey is what a row of data/exceptions.csv is about.
type acceptedKey struct{ ndb, check string }

// embeddedAcceptances are the reasons of data/exceptions.csv, read once.
var embeddedAcceptances = sync.OnceValues(func() (map[acceptedKey]string, error) {
	return keyed("exceptions.csv", filled("ndb check reason source"), "ndb", func(row *table.Row) (acceptedKey, string) {
		return acceptedKey{row.Text("ndb"), row.Text("check")}, row.Text("reason")
	})
})

package conflict

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
)

// withOnly is the program of a request with only some of its limits in force,
// written apart from the finder's own: the request is edited as its user would,
// the model built anew, and every row that is neither structural nor kept is
// freed. A floor that comes only with the foods of what was given up is no limit
// of the request.
func withOnly(t *testing.T, f *Finder, kept []conflictLimit) *linear.Problem {
	t.Helper()
	req, anyCooking := *f.base.Request, false
	req.People = slices.Clone(req.People)
	for k, e := range f.exclusions {
		if slices.ContainsFunc(kept, func(l conflictLimit) bool { return l.row < 0 && l.exclusion == k }) {
			continue
		}
		switch e.kind {
		case excludeFood:
			req.Without = slices.DeleteFunc(slices.Clone(req.Without), func(s string) bool { return s == e.name })
		case excludeHard:
			req.EasyOpen = false
		case excludeCooking:
			anyCooking = true
		case excludeDislike:
			p := &req.People[e.person]
			p.Dislikes = slices.DeleteFunc(slices.Clone(p.Dislikes), func(s string) bool { return s == e.name })
		case excludeRule:
			p := &req.People[e.person]
			p.Rules = slices.DeleteFunc(slices.Clone(p.Rules), func(r nutrients.Rule) bool { return r.Kind == nutrients.RuleNo && r.Food == e.name })
		default:
			t.Fatalf("an exclusion of kind %d", e.kind)
		}
	}
	m, err := model.BuildWith(&req, anyCooking)
	if err != nil {
		t.Fatal(err)
	}
	type sides struct{ lower, upper bool }
	keep, asked := map[string]sides{}, map[string]bool{}
	for i := range f.base.Problem.Rows {
		asked[f.base.Problem.Rows[i].Name] = true
	}
	for _, l := range kept {
		if l.row >= 0 {
			name := f.base.Problem.Rows[l.row].Name
			keep[name] = sides{keep[name].lower || l.lower, keep[name].upper || l.upper}
		}
	}
	p := m.Problem.Clone()
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
	for i := range p.Rows {
		row, class := &p.Rows[i], m.Rows[i].Class
		row.Lazy = false
		switch {
		case class == model.Structural:
		case asked[row.Name]:
			if !keep[row.Name].lower {
				row.Lower = math.Inf(-1)
			}
			if !keep[row.Name].upper {
				row.Upper = math.Inf(1)
			}
		case class == model.Requirement:
			row.Lower = math.Inf(-1)
		}
	}
	return p
}

// The program that the finder makes of some limits is the one written apart: rows
// and columns of the same names, with the same sides and coefficients.
func TestProgramOfSomeLimits(t *testing.T) {
	compared := 0
	for _, kind := range []string{"budget", "exclusions", "cooking", "least rule"} {
		m, err := model.Build(randomRequest(t, rand.New(rand.NewPCG(3, 2026)), kind))
		if err != nil {
			t.Fatal(err)
		}
		f := newFinder(m)
		all := f.everything()
		for _, every := range []int{1, 2, 3} {
			var kept []conflictLimit
			for k, l := range all {
				if k%every == 0 {
					kept = append(kept, l)
				}
			}
			_, got, err := f.program(kept)
			if err != nil {
				t.Fatal(err)
			}
			want := withOnly(t, f, kept)
			if len(got.Rows) != len(want.Rows) || len(got.Cols) != len(want.Cols) {
				t.Errorf("%s, every %d: %d rows and %d columns, want %d and %d", kind, every, len(got.Rows), len(got.Cols), len(want.Rows), len(want.Cols))
				continue
			}
			for i, row := range want.Rows {
				if has := got.Rows[i]; has.Name != row.Name || has.Lower != row.Lower || has.Upper != row.Upper {
					t.Errorf("%s, every %d: row %+v, want %+v", kind, every, has, row)
				}
			}
			for j := range want.Cols {
				if has, col := got.Cols[j], want.Cols[j]; has.Name != col.Name || has.Upper != col.Upper || !slices.Equal(has.Entries, col.Entries) {
					t.Errorf("%s, every %d: column %s, want %s", kind, every, has.Name, col.Name)
				}
			}
			compared++
		}
	}
	if compared != 12 {
		t.Errorf("%d programs were compared", compared)
	}
}

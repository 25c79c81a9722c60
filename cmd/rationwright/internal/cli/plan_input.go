package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/recheck"
)

// readPlan reads a plan in its JSON form and rebuilds its request, which needs
// no other file; - is standard input. The whole answer of swap or check is read
// for the plan inside it. A plan that does not pass the check of its
// own request, or holds no ration for command to work on, is refused.
func (s *session) readPlan(file, command string) (*ration.Plan, *ration.Request, error) {
	in, name, err := s.open(file)
	if err != nil {
		return nil, nil, badInput(err)
	}
	defer in.Close()
	p, err := ration.ReadPlan(in)
	if err != nil {
		return nil, nil, badInput(fmt.Errorf("%s: %w", name, err))
	}
	req, err := p.Request.Load()
	if err == nil {
		err = recheck.Recheck(req, p)
	}
	if errors.Is(err, ration.ErrChangedRequest) {
		err = fmt.Errorf("%w. For a new plan: %s", err, madeAnew(p.Request))
	}
	if err != nil {
		return nil, nil, badInput(fmt.Errorf("%s: %w", name, err))
	}
	if p.Totals == nil {
		return nil, nil, badInput(fmt.Errorf("%s: %w, and %s needs one; the plan itself says what conflicts and what it would take", name, ration.ErrNoRation, command))
	}
	return p, req, nil
}

// madeAnew is the command that makes the plan that a changed request asks for.
func madeAnew(rec *ration.RequestRecord) string {
	text := "rationwright plan --household FILE"
	for _, part := range []struct {
		flag  string
		there bool
	}{{"--foods FILE", rec.Foods != nil}, {"--prices FILE", rec.Prices != nil}, {"--stock FILE", rec.Stock != nil}, {"--shelves FILE", rec.Shelves != nil}} {
		if part.there {
			text += " " + part.flag
		}
	}
	for _, name := range []string{"least", "days", "standard", "cook", "pets"} {
		if v := rec.Options[name]; v != "" {
			text += " --" + name + " " + v
		}
	}
	return text + " --format json"
}

// onlyWithoutPlan refuses flags that decide a plan where a plan is given; those
// in allowed say something else as well.
func onlyWithoutPlan(cmd *cobra.Command, allowed ...string) error {
	decide := pflag.NewFlagSet("", pflag.ContinueOnError)
	(&planFlags{}).add(decide)
	var wrong []string
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if decide.Lookup(f.Name) != nil && !slices.Contains(allowed, f.Name) {
			wrong = append(wrong, "--"+f.Name)
		}
	})
	if len(wrong) > 0 {
		return usagef("%s cannot go with --plan: the plan has been decided; make a plan with it", strings.Join(wrong, ", "))
	}
	return nil
}

// sameHousehold refuses a --household that is not that of the plan.
func (f *sources) sameHousehold(s *session, req *ration.Request) error {
	if f.household == "" {
		return nil
	}
	home, err := f.people(s)
	if err != nil {
		return badInput(err)
	}
	same := slices.EqualFunc(nutrients.HouseholdRows(home.people), nutrients.HouseholdRows(req.People), slices.Equal[[]string])
	if !same {
		return badInput(fmt.Errorf("%s is not the household of the plan; leave --household out, or make a plan for it", home.name))
	}
	return nil
}

package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/menu"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/withmenu"
)

// defaultSlack is --slack where it is not given.
const defaultSlack = 0.03

func newPlan(s *session) *cobra.Command {
	var (
		flags planFlags
		to    shape
		model bool
		full  bool
		audit bool
		sides comparing
		slack = fraction(defaultSlack)
		aims  string
		own   ownDishes
	)
	ask := &flags.asked
	cmd := &cobra.Command{
		Use:   "plan",
		Short: "What to buy so that everyone is fed, and how near to the best that is",
		Long: `plan finds the packs that feed everyone in the household for the days asked, each
person by their own requirements, at the least cost, weight or shelf volume, and
proves how near that is to the best possible. It prints what fits a screen: who is
fed, what it comes to, what is short, and the list to take to the shop; --full adds
the rest.

Without --household it plans for the demo household of Ternsund, without --prices
at invented demo prices, and says so. What is in --stock costs nothing more, but
weighs and fills. Water is counted by the litre in 20 L containers, fuel by the MJ in
packs of --stove at poor efficiency; --prices may price both (water, and the fuel by
its name).

A plain number is in kg, L, MJ or the currency of the prices, whatever --units
says; units are written behind it, such as 40gal.`,
		Example: `  rationwright plan
  rationwright plan --household ternsund.csv --prices shop.csv --out plan.txt
  rationwright plan --least weight --days 7 --without raisins --without "chickpeas, dry" --units us
  rationwright plan --cook none --max-water 150 --budget 400
  rationwright plan --with-menu --format json --out plan.json
  rationwright plan --compare --frontier cost-weight --plot frontier.svg
  rationwright plan --format json --out plan.json`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := sides.check(cmd); err != nil {
				return err
			}
			switch {
			case ask.WithMenu && (sides.on || model || audit || flags.shelf != ""):
				return usagef("--with-menu makes one plan: not with --compare, --show-model, --audit or --shelves")
			case !ask.WithMenu && own != ownDishes{}:
				return usagef("--dishes and --dish-parts go with --with-menu here")
			case own.check() != nil:
				return own.check()
			}
			out, err := to.output(s)
			if err != nil {
				return err
			}
			picture := &output{out: sides.plot, stdout: s.stdout}
			if err := picture.check(s); err != nil {
				return err
			}
			req, err := flags.request(s)
			if err != nil {
				return err
			}
			if model {
				return showModel(s, req, out)
			}
			ctx, stop := s.within(req.Time)
			defer stop()
			if sides.on {
				return sides.run(ctx, s, req, out, picture, to.units)
			}
			req.Audit, req.Slack = audit, float64(slack)
			if req.Weights, req.Files.Weights, err = s.weights(aims); err != nil {
				return badInput(err)
			}
			p, err := s.makePlan(ctx, req, own)
			if err != nil {
				return err
			}
			lay := report.Brief
			if full {
				lay = report.Plan
			}
			if err := out.answer(p, report.PlanCSV(p), lay(p, to.units)); err != nil {
				return err
			}
			return planOutcome(p, s.ctx.Err() != nil)
		},
	}
	fs := cmd.Flags()
	flags.add(fs)
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	fs.BoolVar(&full, "full", false, "all of the plan: packs, who eats and gets what, what binds, warnings, assumptions")
	fs.BoolVar(&audit, "audit", false, "go through the proof again, with a second solver and in rounded-out arithmetic")
	sides.add(fs)
	fs.StringVar(&aims, "weights", "", "what counts how much in what --slack is spent on: a `FILE` aim,kind,weight")
	fs.Var(&slack, "slack", "what may be added to the best found so that people eat it gladly: 3% or 0.03, 0 for nothing")
	fs.BoolVar(&ask.WithMenu, "with-menu", false, "choose packs and dishes together, so that every gram has its dish; menu shows the days")
	own.add(fs, "with --with-menu: dishes of your own, a `FILE` in the columns of the program's; with --dish-parts")
	fs.BoolVar(&model, "show-model", false, "write the model as algebra to --out, or say how long it is; solve nothing")
	return cmd
}

// showModel writes the model of req as algebra to a file, or to standard output
// where --out says so with "-"; else it says how long that would be.
func showModel(s *session, req *ration.Request, out *output) error {
	ration, err := model.Build(req)
	if err != nil {
		return badInput(err)
	}
	text := ration.Problem.String()
	length := fmt.Sprintf("The model has %d rows and %d columns: %d lines of algebra.", len(ration.Problem.Rows), len(ration.Problem.Cols), strings.Count(text, "\n"))
	if out.out == "" {
		return out.write([]byte(length + " --out FILE keeps them, --out - shows them.\n"))
	}
	s.note("%s", length)
	return out.write([]byte(text))
}

// makePlan makes the plan of req with the progress line on a terminal; with a menu
// together with its dishes, the user's own among them.
func (s *session) makePlan(ctx context.Context, req *ration.Request, own ownDishes) (*ration.Plan, error) {
	unit := map[ration.Least]string{ration.LeastWeight: "kg", ration.LeastVolume: "L"}[req.Least]
	line := newProgress(s.stderr, unit)
	made := plan.Make
	if req.WithMenu {
		book, err := own.book(s, req)
		if err != nil {
			return nil, badInput(err)
		}
		made = func(ctx context.Context, req *ration.Request, show func(search.Progress)) (*ration.Plan, error) {
			return withmenu.Make(ctx, req, book, show)
		}
	}
	p, err := made(ctx, req, line.show)
	line.clear()
	if err != nil {
		return nil, s.failed(ctx, err)
	}
	return p, nil
}

// failed words the end of a command whose solver found no answer.
func (s *session) failed(ctx context.Context, err error) error {
	switch {
	case search.Interrupted(ctx):
		return ctx.Err()
	case errors.Is(err, ration.ErrNoPlan), errors.Is(err, menu.ErrTime):
		s.note("%v", err)
		return outcome(exit.Limit)
	case errors.Is(err, ration.ErrNumerical), errors.Is(err, ration.ErrUnverified):
		return err
	}
	return badInput(err)
}

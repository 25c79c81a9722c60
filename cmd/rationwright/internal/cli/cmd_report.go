package cli

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

const reportLong = `report writes a plan as one HTML file that needs nothing beside it: shopping list by
aisle, water, fuel and space, who must not eat what, what each gets against their
needs, the menu day by day, dates to renew, warnings, sources. It prints on A4 and on
Letter. --only writes one sheet of it: the shopping list, the menu, or the sheet for
the cupboard door.

Up to three --plan set the households side by side, as a handout.`

const reportExample = `  rationwright plan --format json --out plan.json
  rationwright report --plan plan.json --out plan.html
  rationwright report --plan plan.json --only door --out door.html
  rationwright report --plan one.json --plan two.json --plan three.json --out handout.html`

func newReport(s *session) *cobra.Command {
	var (
		plans    []string
		to       shape
		only     string
		frontier bool
		limit    seconds
	)
	cmd := &cobra.Command{
		Use:     "report",
		Short:   "A plan as one page to print",
		Long:    reportLong,
		Example: reportExample,
		Args:    noArgs,
		RunE: s.work(func(cmd *cobra.Command, args []string) error {
			out := &output{out: to.out, stdout: s.stdout}
			if err := out.check(s); err != nil {
				return err
			}
			switch {
			case len(plans) == 0:
				return usagef("say which plan: --plan FILE, the output of plan --format json")
			case len(plans) > page.MostAbreast:
				return usagef("--plan: %d plans; a handout has room for %d", len(plans), page.MostAbreast)
			case len(plans) > 1 && (changed(cmd, "only") || frontier):
				return usagef("--only and --frontier are about one plan; a handout of several has neither")
			}
			var text bytes.Buffer
			var reports []*page.Report
			for _, file := range plans {
				p, req, err := s.readPlan(file, "report")
				if err != nil {
					return err
				}
				r, err := page.New(p, req, sheet.Units(to.units))
				if err != nil {
					return badInput(fmt.Errorf("%s: %w", file, err))
				}
				if only != string(page.Shopping) && only != string(page.Door) && len(plans) == 1 {
					ctx, stop := context.WithTimeout(cmd.Context(), time.Duration(limit))
					defer stop()
					if err := r.AddMenu(ctx, p, req); err != nil {
						return s.failed(ctx, err)
					}
					if r.NoMenu != "" && only == string(page.Menu) {
						return s.failed(ctx, menu.ErrTime)
					}
				}
				if frontier {
					ctx, stop := s.within(seconds(req.Time))
					defer stop()
					if err := r.AddFrontier(ctx, req); err != nil {
						return s.failed(cmd.Context(), err)
					}
				}
				reports = append(reports, r)
			}
			var err error
			if len(reports) > 1 {
				err = page.Handout(&text, reports)
			} else {
				err = reports[0].Write(&text, page.Only(only))
			}
			if err != nil {
				return badInput(err)
			}
			return out.write(text.Bytes())
		}),
	}
	fs := cmd.Flags()
	fs.StringArrayVar(&plans, "plan", nil, "the plan: its JSON `FILE`, - for standard input; repeat for a handout of up to three")
	choice(fs, &only, "only", string(page.All), "all sheets, or one of them", string(page.All), string(page.Shopping), string(page.Menu), string(page.Door))
	fs.BoolVar(&frontier, "frontier", false, "add the picture of cost against weight, which makes a dozen more plans")
	addMenuTime(fs, &limit)
	to.addUnits(fs)
	fs.StringVar(&to.out, "out", "", "write to `FILE` instead of standard output; it is replaced whole or not at all")
	return cmd
}

// pageOf is the whole page of a plan, its menu included.
func pageOf(ctx context.Context, p *ration.Plan, req *ration.Request, u sheet.Units) ([]byte, error) {
	r, err := page.New(p, req, u)
	if err != nil {
		return nil, err
	}
	if err := r.AddMenu(ctx, p, req); err != nil {
		return nil, err
	}
	var text bytes.Buffer
	err = r.Write(&text, page.All)
	return text.Bytes(), err
}

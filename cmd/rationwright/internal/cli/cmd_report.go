package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/menu"
	"rationwright/solver/ration"
)

func newReport(s *session) *cobra.Command {
	var (
		plans    []string
		to       shape
		only     page.Only
		frontier bool
		limit    time.Duration
	)
	cmd := &cobra.Command{
		Use:   "report",
		Short: "A plan as one page to print",
		Long: `report writes a plan as one HTML file that needs nothing beside it: shopping list by
aisle, water, fuel and space, who must not eat what, what each gets against their
needs, the menu day by day, dates to renew, warnings, sources. It prints on A4 and on
Letter. --only writes one sheet of it: the shopping list, the menu, or the sheet for
the cupboard door.

Up to three --plan set the households side by side, as a handout.`,
		Example: `  rationwright plan --format json --out plan.json
  rationwright report --plan plan.json --out plan.html
  rationwright report --plan plan.json --only door --out door.html
  rationwright report --plan one.json --plan two.json --plan three.json --out handout.html`,
		Args: noArgs,
		RunE: to.work(s, func(cmd *cobra.Command, _ []string, out *output) error {
			switch {
			case len(plans) == 0:
				return usagef("say which plan: --plan FILE, the output of plan --format json")
			case len(plans) > page.MostAbreast:
				return usagef("--plan: %d plans; a handout has room for %d", len(plans), page.MostAbreast)
			case len(plans) > 1 && (cmd.Flags().Changed("only") || frontier):
				return usagef("--only and --frontier are about one plan; a handout of several has neither")
			}
			var reports []*page.Report
			for _, file := range plans {
				p, req, err := s.readPlan(file, "report")
				if err != nil {
					return err
				}
				r, err := page.New(p, req, to.units)
				if err != nil {
					return badInput(fmt.Errorf("%s: %w", file, err))
				}
				if only != page.Shopping && only != page.Door && len(plans) == 1 {
					ctx, stop := context.WithTimeout(s.ctx, limit)
					defer stop()
					if err := r.AddMenu(ctx, p, req); err != nil {
						return s.failed(ctx, err)
					}
					if r.NoMenu != "" && only == page.Menu {
						return s.failed(ctx, menu.ErrTime)
					}
				}
				if frontier {
					ctx, stop := s.within(req.Time)
					defer stop()
					if err := r.AddFrontier(ctx, req); err != nil {
						return s.failed(s.ctx, err)
					}
				}
				reports = append(reports, r)
			}
			return out.writeOf(func(w io.Writer) error {
				if len(reports) > 1 {
					return badInput(page.Handout(w, reports))
				}
				return badInput(reports[0].Write(w, only))
			})
		}),
	}
	fs := cmd.Flags()
	fs.StringArrayVar(&plans, "plan", nil, "the plan: its JSON `FILE`, - for standard input; repeat for a handout of up to three")
	choice(fs, &only, "only", page.All, "all sheets, or one of them", page.All, page.Shopping, page.Menu, page.Door)
	fs.BoolVar(&frontier, "frontier", false, "add the picture of cost against weight, which makes a dozen more plans")
	addMenuTime(fs, &limit)
	to.addUnits(fs)
	to.addOut(fs)
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

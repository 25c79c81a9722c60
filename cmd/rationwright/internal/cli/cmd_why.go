package cli

import (
	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/ration"
	"rationwright/solver/why"
)

func newWhy(s *session) *cobra.Command {
	var (
		to    shape
		plan  string
		ask   why.WhyRequest
		limit = ration.DefaultTime
	)
	cmd := &cobra.Command{
		Use:   "why",
		Short: "What each limit of a plan costs, and at what price foods come and go",
		Long: `why explains a plan by its prices: what one unit more or less of each limit that
binds would change, for whom; and for foods, at what price one that is not chosen
would come in, and how far the price of one that is may rise before it goes.

The prices hold if packs could be split, so they are about right, and for small
changes only. Without --food it explains the foods of the plan and those
nearest to it.`,
		Example: `  rationwright plan --format json --out plan.json
  rationwright why --plan plan.json
  rationwright why --plan plan.json --food quinoa --food "rolled oats"`,
		Args: noArgs,
		RunE: to.work(s, func(_ *cobra.Command, _ []string, out *output) error {
			if plan == "" {
				return usagef("say which plan: --plan FILE, the output of plan --format json")
			}
			p, req, err := s.readPlan(plan, "why")
			if err != nil {
				return err
			}
			if err := s.meant(req.Table, ask.Foods...); err != nil {
				return badInput(err)
			}
			ctx, stop := s.within(limit)
			defer stop()
			why, err := why.Explain(ctx, p, ask)
			if err != nil {
				return s.failed(s.ctx, err)
			}
			return out.answer(why, report.WhyCSV(why), report.Why(why, len(ask.Foods) > 0))
		}),
	}
	fs := cmd.Flags()
	fs.StringVar(&plan, "plan", "", "the plan to explain: its JSON `FILE`, - for standard input")
	fs.StringArrayVar(&ask.Foods, "food", nil, "explain this `FOOD` only: any word for it, a name, NDB number or group; repeat for more")
	fs.Var((*seconds)(&limit), "time", "stop after this, as 10s or 2m, with what is worked out by then")
	to.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

package cli

import (
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/check"
)

// briefEffort is what the work of a check is counted from where --time is silent.
const briefEffort = 2 * time.Second

func newCheck(s *session) *cobra.Command {
	var (
		flags planFlags
		to    shape
	)
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Is this stock balanced, how long does it last, what completes it",
		Long: `check says what a stock is worth to the household: whether it is balanced over the
days asked, for how many days it lasts, what runs out first, what must be eaten
soon, what of it is of no use here, and the cheapest purchase that completes it.

The stock list is a table pack,count,best_before. Something filled at home is a row
with food and grams in place of pack. It judges food; water and heat count only
where the list has a row "water" (litres) or "heat" (MJ of useful heat).

The completion is searched for a second or two; --time gives the search longer.`,
		Example: `  rationwright check --stock stock.csv
  rationwright check --stock stock.csv --household ternsund.csv --days 7
  rationwright check --stock stock.csv --format json --out check.json`,
		Args: noArgs,
		RunE: to.work(s, func(cmd *cobra.Command, _ []string, out *output) error {
			if flags.stock == "" {
				return usagef("say what is in store: --stock FILE")
			}
			if cmd.Flags().Changed("least") {
				return usagef("--least cannot go with check: it always looks for the least cost")
			}
			req, err := flags.request(s)
			if err != nil {
				return err
			}
			if !cmd.Flags().Changed("time") {
				req.Effort = briefEffort
			}
			ctx, stop := s.within(req.Time)
			defer stop()
			line := newProgress(s.stderr, "")
			found, err := check.Check(ctx, req, line.show)
			line.clear()
			if err != nil {
				return s.failed(s.ctx, err)
			}
			if err := out.answer(found, report.CheckCSV(found), report.Check(found, to.units)); err != nil {
				return err
			}
			switch {
			case len(found.People) == 0 && len(found.Refused) > 0 && len(found.Unsettled) == 0:
				return outcome(exit.NoRation)
			case !found.Balanced:
				return outcome(exit.Short)
			}
			return nil
		}),
	}
	fs := cmd.Flags()
	flags.add(fs)
	fs.Lookup("least").Hidden = true // known only so that it is refused in words
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

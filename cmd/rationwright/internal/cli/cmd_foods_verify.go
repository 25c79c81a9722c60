package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
	"rationwright/solver/ration"
)

func newFoodsVerify(s *session) *cobra.Command {
	var (
		from sources
		to   shape
		own  ownDishes
	)
	cmd := &cobra.Command{
		Use:   "verify",
		Short: "Check every figure of the food table against every other",
		Long: `verify makes the checks that a careful dietitian would make: whether the parts of
100 g add up, whether the energy fits protein, fat and carbohydrate, whether a
pack can hold what it says, whether a name or key is there twice, and which
figures are missing. Dishes are held against the table: whether their cooking makes
each food ready, whether nothing that spoils stands, whether the amounts are eaten at
a sitting. It exits with 3 when a check fails.`,
		Example: `  rationwright foods verify
  rationwright foods verify --foods own.csv`,
		Args: noArgs,
		RunE: to.work(s, func(_ *cobra.Command, _ []string, out *output) error {
			if err := from.oneStream(); err != nil {
				return err
			}
			t, _, err := from.table(s)
			if err != nil {
				return badInput(err)
			}
			if err := own.check(); err != nil {
				return err
			}
			book, err := own.book(s, &ration.Request{Table: t})
			if err != nil {
				return badInput(err)
			}
			findings := append(foods.Verify(t), book.Verify()...)
			return errors.Join(out.answer(report.FindingsJSON(t, findings), nil, report.Findings(t, findings)), verdict(findings))
		}),
	}
	fs := cmd.Flags()
	from.addTable(fs)
	own.add(fs, "dishes of your own: a `FILE` in the columns of the program's; with --dish-parts")
	to.add(fs, formatTable, formatJSON)
	return cmd
}

// verdict ends verify as bad input when a check failed.
func verdict(findings []foods.Finding) error {
	failed := 0
	for _, f := range findings {
		if f.Severity == foods.Error {
			failed++
		}
	}
	if failed > 0 {
		return badInput(fmt.Errorf("%d checks of the food table failed", failed))
	}
	return nil
}

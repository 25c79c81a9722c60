package cli

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
	"rationwright/solver/ration"
)

func newFoodsVerify(s *session) *cobra.Command {
	var (
		from  sources
		to    shape
		list  string
		parts string
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
		RunE: s.work(func(cmd *cobra.Command, args []string) error {
			out, err := to.output(s)
			if err != nil {
				return err
			}
			if err := from.oneStream(); err != nil {
				return err
			}
			t, _, err := from.table(s)
			if err != nil {
				return badInput(err)
			}
			if (list == "") != (parts == "") {
				return usagef("--dishes and --dish-parts go together: the dishes and what is in them")
			}
			book, err := s.book(&ration.Request{Table: t}, list, parts)
			if err != nil {
				return badInput(err)
			}
			findings := append(foods.Verify(t), book.Verify()...)
			return errors.Join(out.answer(forms{
				formatJSON:  func(w io.Writer) error { return report.FindingsJSON(w, t, findings) },
				formatTable: func(w io.Writer) error { return report.Findings(t, findings).Text(w) },
			}), verdict(findings))
		}),
	}
	fs := cmd.Flags()
	fs.SortFlags = false
	from.addTable(fs)
	fs.StringVar(&list, "dishes", "", "dishes of your own: a `FILE` in the columns of the program's; with --dish-parts")
	fs.StringVar(&parts, "dish-parts", "", "their parts: a `FILE` in the columns of the program's")
	to.add(fs, string(formatTable), string(formatJSON))
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

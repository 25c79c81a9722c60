package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"rationwright/solver/linear"
	"rationwright/solver/model"
)

func newExport(s *session) *cobra.Command {
	var (
		flags planFlags
		to    shape
	)
	cmd := &cobra.Command{
		Use:   "export",
		Short: "Write the model of a plan in MPS form",
		Long: `export builds the model that plan would solve, from the same flags, and writes it
in free MPS form for any other solver. Nothing is solved.`,
		Example: `  rationwright export --household ternsund.csv --least weight --out ternsund.mps`,
		Args:    noArgs,
		RunE: to.work(s, func(_ *cobra.Command, _ []string, out *output) error {
			req, err := flags.request(s)
			if err != nil {
				return err
			}
			ration, err := model.Build(req)
			if err != nil {
				return badInput(err)
			}
			return out.writeOf(func(w io.Writer) error {
				if err := linear.WriteMPS(w, ration.Problem); err != nil {
					return fmt.Errorf("the model cannot be written: %w", err)
				}
				return nil
			})
		}),
	}
	flags.add(cmd.Flags())
	to.addOut(cmd.Flags())
	return cmd
}

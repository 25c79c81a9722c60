package cli

import (
	"bytes"
	"fmt"

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
		RunE: s.work(func(cmd *cobra.Command, args []string) error {
			out := &output{out: to.out, stdout: s.stdout}
			if err := out.check(s); err != nil {
				return err
			}
			req, err := flags.request(s, cmd)
			if err != nil {
				return err
			}
			ration, err := model.Build(req)
			if err != nil {
				return badInput(err)
			}
			var text bytes.Buffer
			if err := linear.WriteMPS(&text, ration.Problem); err != nil {
				return fmt.Errorf("the model cannot be written: %w", err)
			}
			return out.write(text.Bytes())
		}),
	}
	flags.add(cmd.Flags())
	cmd.Flags().StringVar(&to.out, "out", "", "write to `FILE` instead of standard output; it is replaced whole or not at all")
	return cmd
}

package cli

import (
	"context"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// comparing are the flags of plan that set several plans side by side.
type comparing struct {
	on             bool
	frontier, plot string
}

// The words of --frontier: the total made least, and the one that is limited.
var frontiers = map[string][2]ration.Least{
	"cost-weight":   {ration.LeastCost, ration.LeastWeight},
	"cost-volume":   {ration.LeastCost, ration.LeastVolume},
	"weight-volume": {ration.LeastWeight, ration.LeastVolume},
}

func (f *comparing) add(fs *pflag.FlagSet) {
	fs.BoolVar(&f.on, "compare", false, "make the plans of least cost, weight and volume side by side")
	choice(fs, &f.frontier, "frontier", "", "with --compare: ten plans between two of them", "cost-weight", "cost-volume", "weight-volume")
	fs.StringVar(&f.plot, "plot", "", "with --frontier: draw it to a `FILE` ending in .png or .svg")
}

// check refuses flags that do not go together.
func (f *comparing) check(cmd *cobra.Command) error {
	switch {
	case !f.on && f.frontier != "":
		return usagef("--frontier goes with --compare")
	case f.plot != "" && f.frontier == "":
		return usagef("--plot draws a frontier: say which with --compare --frontier cost-weight")
	case f.plot != "" && f.form() == "":
		return usagef("--plot %q: the name must end in .png or .svg", f.plot)
	case f.on && cmd.Flags().Changed("least"):
		return usagef("--least cannot go with --compare: it makes all three")
	}
	return nil
}

// form is the kind of picture that the file's name asks for, "" for none.
func (f *comparing) form() string {
	switch ext := strings.ToLower(filepath.Ext(f.plot)); ext {
	case ".png", ".svg":
		return ext[1:]
	}
	return ""
}

// run makes the plans, and writes them and the picture.
func (f *comparing) run(ctx context.Context, s *session, req *ration.Request, out, picture *output, u sheet.Units) error {
	line := newProgress(s.stderr, "")
	found, err := plan.Compare(ctx, req, f.frontier != "", line.show)
	line.clear()
	if err == nil && f.frontier != "" {
		pair := frontiers[f.frontier]
		err = found.AddFrontier(ctx, req, pair[0], pair[1])
	}
	if err != nil {
		return s.failed(ctx, err)
	}
	if err := out.answer(found, report.CompareCSV(found), report.Compare(found, u)); err != nil {
		return err
	}
	if f.plot != "" && found.Frontier != nil {
		if err := picture.writeOf(func(w io.Writer) error { return report.FrontierPlot(w, found, f.form()) }); err != nil {
			return err
		}
	}
	return planOutcome(found.Plans[0], search.Interrupted(ctx))
}

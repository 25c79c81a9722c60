package cli

import (
	"io"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/nutrients"
)

func newNeeds(s *session) *cobra.Command {
	var (
		from             sources
		to               shape
		standard, energy string
		lean, sources    bool
	)
	cmd := &cobra.Command{
		Use:   "needs",
		Short: "What each person requires, per day",
		Long: `needs prints what each person of the household requires per day: energy, protein,
vitamins, minerals, fibre, water, the shares of energy, and the ceilings that
count the form the food table counts. A clinician's own limits go in the rules
column of the household file.`,
		Example: `  rationwright needs
  rationwright needs --household ternsund.csv --sources
  rationwright needs --standard ear --format csv --out needs.csv`,
		Args: noArgs,
		RunE: s.work(func(cmd *cobra.Command, args []string) error {
			out, err := to.output(s)
			if err != nil {
				return err
			}
			home, err := from.people(s)
			if err != nil {
				return badInput(err)
			}
			t, _, err := from.table(s)
			if err == nil {
				err = s.foodNames(home, t)
			}
			if err != nil {
				return badInput(err)
			}
			demo := from.household == ""
			if demo {
				s.note("this is the demo household of Ternsund; give yours with --household")
			}
			opts := nutrients.Options{Standard: nutrients.Standard(standard), EnergySet: nutrients.EnergySet(energy), LeanEnergy: lean}
			var people []nutrients.Needs
			for _, p := range home.people {
				n, err := nutrients.For(p, opts)
				if err != nil {
					return badInput(err)
				}
				people = append(people, n)
			}
			return out.answer(forms{
				formatJSON:  func(w io.Writer) error { return report.NeedsJSON(w, people, demo) },
				formatCSV:   func(w io.Writer) error { return report.NeedsCSV(w, people) },
				formatTable: func(w io.Writer) error { return report.Needs(people, report.Units(to.units), sources, demo).Text(w) },
			})
		}),
	}
	fs := cmd.Flags()
	from.addHousehold(fs)
	from.addFoods(fs)
	addStandard(fs, &standard, &energy)
	fs.BoolVar(&lean, "lean-energy", false, "energy from 97 % of the requirement, for adults of 19 to 64 only")
	fs.BoolVar(&sources, "sources", false, "say where every figure comes from (csv and json always do)")
	to.addUnits(fs)
	to.add(fs, string(formatTable), string(formatCSV), string(formatJSON))
	return cmd
}

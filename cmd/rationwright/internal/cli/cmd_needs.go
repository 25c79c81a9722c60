package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
)

func newNeeds(s *session) *cobra.Command {
	var (
		from    sources
		to      shape
		opts    nutrients.Options
		sources bool
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
		RunE: to.work(s, func(_ *cobra.Command, _ []string, out *output) error {
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
			var people []nutrients.Needs
			for _, p := range home.people {
				n, err := nutrients.For(p, opts)
				if err != nil {
					return badInput(err)
				}
				if none, err := foods.NoMilk(t, p, home.people, nil); err != nil {
					return badInput(err)
				} else if none && n.Refused == nil {
					askAboutMilk(&n)
				}
				people = append(people, n)
			}
			return out.answer(report.NeedsJSON(people, demo), report.NeedsCSV(people), report.Needs(people, to.units, sources, demo))
		}),
	}
	fs := cmd.Flags()
	from.addHousehold(fs)
	from.addFoods(fs)
	addStandard(fs, &opts.Standard, &opts.EnergySet)
	fs.BoolVar(&opts.LeanEnergy, "lean-energy", false, "energy from 97 % of the requirement, for adults of 19 to 64 only")
	fs.BoolVar(&sources, "sources", false, "say where every figure comes from (csv and json always do)")
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

// askAboutMilk adds to the notes of a small child who may have no milk what is to be asked
// of a clinician, in the words of the caution that its plan carries.
func askAboutMilk(n *nutrients.Needs) {
	for _, c := range stores.CautionsAbout(stores.NoMilk) {
		n.Notes = append(n.Notes, nutrients.Note{Text: c.Text + " " + strings.TrimSuffix(c.Action, "."), Source: c.Source, Verified: c.Verified})
	}
}

package cli

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods/stores"
)

const treatLong = `treat says how a volume of doubtful water is made safe: how long to boil it, and for
each agent how many drops, mL or tablets, how long to wait, and what must not be
done. The doses are those of published tables, between their volumes in
proportion and rounded up; nothing is looked up outside the program.

VOLUME is in litres, or with a unit: 20, 20L, 500mL or 5gal. The agents and the
strengths for which there are doses:

`

// agentLines lists the agents with their strengths.
func agentLines() string {
	var lines strings.Builder
	for _, a := range stores.Agents() {
		for i, strength := range a.Strengths {
			name := a.Key
			if i > 0 {
				name = ""
			}
			fmt.Fprintf(&lines, "  %-20s %s\n", name, strength)
		}
	}
	return lines.String()
}

func newTreat(s *session) *cobra.Command {
	var (
		to                         shape
		agent, strength, condition string
		altitude                   = altitudeM(math.NaN())
	)
	cmd := &cobra.Command{
		Use:   "treat VOLUME",
		Short: "Make a volume of doubtful water safe",
		Long:  treatLong + agentLines(),
		Example: `  rationwright stores treat 20
  rationwright stores treat 5gal --agent bleach --strength 8.25% --condition cloudy --units us
  rationwright stores treat 5 --agent chlorine-tablets --strength 17
  rationwright stores treat 10 --altitude 1500 --format json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("stores treat takes one VOLUME, such as 20L; %d given", len(args))
			}
			return nil
		},
		RunE: s.work(func(cmd *cobra.Command, args []string) error {
			out, err := to.output(s)
			if err != nil {
				return err
			}
			volume := quantity{kind: kindVolume}
			if err := volume.Set(args[0]); err != nil {
				return usagef("VOLUME %q: %w", args[0], err)
			}
			if *volume.value < stores.LeastTreatedL || *volume.value > stores.MostTreatedL {
				return usagef("VOLUME %q: must be %g to %.0f L", args[0], stores.LeastTreatedL, float64(stores.MostTreatedL))
			}
			if strength != "" && agent == "" {
				return usagef("--strength %q: say of which --agent", strength)
			}
			water := stores.Water(condition)
			t, err := treatment(*volume.value, water, agent, strength, float64(altitude))
			if errors.Is(err, stores.ErrStrength) {
				return usagef("%w", err)
			}
			if err != nil {
				return badInput(err)
			}
			return out.answer(forms{
				formatJSON:  func(w io.Writer) error { return report.JSON(w, t) },
				formatCSV:   func(w io.Writer) error { return report.TreatCSV(w, t) },
				formatTable: func(w io.Writer) error { return report.Treat(t, *volume.value, water, report.Units(to.units)).Text(w) },
			})
		}),
	}
	var agents, waters []string
	for _, a := range stores.Agents() {
		agents = append(agents, a.Key)
	}
	for _, w := range stores.Waters() {
		waters = append(waters, string(w))
	}
	fs := cmd.Flags()
	fs.Var(oneNamed{&agent, agents}, "agent", "what it is treated with (default: every agent above)")
	fs.StringVar(&strength, "strength", "", "of the agent: 6%, 8.25%, 17 (mg of a tablet) or the table's own `WORDS`")
	fs.Var(oneNamed{&condition, waters}, "condition", "what the water is like: clear, cloudy, cold; or what makes it unfit (default clear)")
	condition = string(stores.ClearWater)
	fs.Var(&altitude, "altitude", "metres above the sea: 300, 300m or 1000ft (default: not known)")
	to.addUnits(fs)
	to.add(fs, string(formatTable), string(formatCSV), string(formatJSON))
	return cmd
}

// oneNamed is a flag value of one of some words too many for a line of help.
type oneNamed struct {
	value *string
	words []string
}

func (o oneNamed) String() string     { return "" }
func (o oneNamed) Type() string       { return "WORD" }
func (o oneNamed) Set(t string) error { return oneOf{o.value, o.words}.Set(t) }

// treatment gathers the doses of one agent, or of all, for a volume of water.
func treatment(volumeL float64, water stores.Water, agent, strength string, altitude float64) (*report.Treatment, error) {
	t := &report.Treatment{}
	var err error
	if t.Boil, err = stores.Boil(volumeL, altitude, water); err != nil {
		return nil, err
	}
	tags := []stores.Tag{stores.DoubtfulWater}
	for _, a := range stores.Agents() {
		if agent != "" && a.Key != agent {
			continue
		}
		strengths := a.Strengths
		if strength != "" {
			strengths = []string{strength}
		}
		for _, word := range strengths {
			d, err := stores.Disinfect(a.Key, word, volumeL, water)
			switch {
			case errors.Is(err, stores.ErrNoDose):
				if agent != "" && len(strengths) == 1 {
					return nil, err
				}
				t.None = append(t.None, err.Error())
				continue
			case err != nil:
				return nil, err
			}
			t.Doses = append(t.Doses, d)
		}
		switch a.Key {
		case "bleach":
			tags = append(tags, stores.Bleach)
		case "iodine", "iodine-tablets":
			tags = append(tags, stores.Iodine)
		}
	}
	// Nothing is known of who drinks it, so the cautions for people who must not
	// are among them.
	tags = append(tags, stores.Infant, stores.InfantUnder6, stores.Pregnant)
	for _, c := range stores.Cautions(tags...) {
		if c.Topic == "water_treatment_limits" || c.Topic == "bleach_type" || c.Topic == "iodine" || c.Topic == "nitrate" || c.Topic == "infant_water" {
			t.Cautions = append(t.Cautions, c)
		}
	}
	return t, nil
}

package cli

import (
	"errors"
	"fmt"
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
		name := a.Key
		for _, strength := range a.Strengths {
			fmt.Fprintf(&lines, "  %-20s %s\n", name, strength)
			name = "" // an agent is named once
		}
	}
	return lines.String()
}

func newTreat(s *session) *cobra.Command {
	var (
		to              shape
		agent, strength string
		water           = stores.ClearWater
		altitude        *float64
	)
	cmd := &cobra.Command{
		Use:   "treat VOLUME",
		Short: "Make a volume of doubtful water safe",
		Long:  treatLong + agentLines(),
		Example: `  rationwright stores treat 20
  rationwright stores treat 5gal --agent bleach --strength 8.25% --condition cloudy --units us
  rationwright stores treat 5 --agent chlorine-tablets --strength 17
  rationwright stores treat 10 --altitude 1500 --format json`,
		Args: oneArg("stores treat takes one VOLUME, such as 20L; %d given"),
		RunE: to.work(s, func(_ *cobra.Command, args []string, out *output) error {
			var litres *float64
			if err := (quantity{kindVolume, &litres}).Set(args[0]); err != nil {
				return usagef("VOLUME %q: %w", args[0], err)
			}
			if *litres < stores.LeastTreatedL || *litres > stores.MostTreatedL {
				return usagef("VOLUME %q: must be %g to %.0f L", args[0], stores.LeastTreatedL, float64(stores.MostTreatedL))
			}
			if strength != "" && agent == "" {
				return usagef("--strength %q: say of which --agent", strength)
			}
			t, err := treatment(*litres, water, agent, strength, metres(altitude))
			if errors.Is(err, stores.ErrStrength) {
				return usagef("%w", err)
			}
			if err != nil {
				return badInput(err)
			}
			return out.answer(t, report.TreatCSV(t), report.Treat(t, *litres, water, to.units))
		}),
	}
	var agents []string
	for _, a := range stores.Agents() {
		agents = append(agents, a.Key)
	}
	fs := cmd.Flags()
	fs.Var(oneNamed[string]{oneOf[string]{&agent, agents}}, "agent", "what it is treated with (default: every agent above)")
	fs.StringVar(&strength, "strength", "", "of the agent: 6%, 8.25%, 17 (mg of a tablet) or the table's own `WORDS`")
	fs.Var(oneNamed[stores.Water]{oneOf[stores.Water]{&water, stores.Waters()}}, "condition",
		"what the water is like: clear, cloudy, cold; or what makes it unfit (default clear)")
	fs.Var(quantity{kindAltitude, &altitude}, "altitude", "metres above the sea: 300, 300m or 1000ft (default: not known)")
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

// oneNamed is a flag value of one of some words too many for a line of help.
type oneNamed[T ~string] struct{ oneOf[T] }

func (oneNamed[T]) String() string { return "" }
func (oneNamed[T]) Type() string   { return "WORD" }

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

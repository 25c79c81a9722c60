package cli

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

func newStores(s *session) *cobra.Command {
	var (
		flags    planFlags
		to       shape
		plan     string
		altitude *float64
		devices  int
	)
	cmd := &cobra.Command{
		Use:   "stores",
		Short: "Water, fuel, space and supplies for the household of a plan",
		Long: `stores works out everything in a store besides the choice of food: the water that the
plan takes, beside the older and the published allowance, in whole containers with
the days on which it is renewed; how doubtful water is made safe; fuel in whole
packs by stove; space and weight, and what stands on which shelf; supplies by
household and days with their rule; medicines to discuss with a clinician; pets.

It belongs to a plan: give it with --plan, or stores makes it from the flags that
plan takes. "stores treat VOLUME" is the calculator for doubtful water.`,
		Example: `  rationwright stores --plan plan.json
  rationwright stores --plan plan.json --stove alcohol --shelves shelves.csv
  rationwright stores --household ternsund.csv --pets 2 --start 2026-11-25 --units us
  rationwright stores treat 20 --agent bleach --strength 6% --condition cloudy`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return fmt.Errorf("there is no command \"stores %s\"%s", args[0], suggestion(cmd, args[0]))
			}
			return nil
		},
		RunE: to.work(s, func(cmd *cobra.Command, _ []string, out *output) error {
			p, req, err := s.planOrMake(cmd, plan, &flags, "stove", "shelves", "household")
			if err != nil {
				return err
			}
			opt := stockpile.StockpileOptions{AltitudeM: metres(altitude), DeviceUsers: devices}
			if plan != "" {
				if cmd.Flags().Changed("stove") {
					opt.Stove = flags.asked.Stove
				}
				if opt.Shelves, err = flags.shelves(s); err != nil {
					return badInput(err)
				}
			}
			stock, err := stockpile.Of(req, p, opt)
			if err != nil {
				return badInput(err)
			}
			return out.answer(stock, report.StoresCSV(stock), report.Stores(stock, to.units))
		}),
	}
	fs := cmd.Flags()
	fs.StringVar(&plan, "plan", "", "the plan: its JSON `FILE`, - for standard input; without it the plan is made here")
	flags.add(fs)
	fs.Var(quantity{kindAltitude, &altitude}, "altitude", "metres above the sea, for how long water is boiled: 300, 300m or 1000ft (default: not known)")
	fs.Var(whole{&devices, 0, mostDevices}, "devices", "`N` people depend on oxygen or another device that needs power")
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	cmd.AddCommand(newTreat(s))
	return cmd
}

// planOrMake reads the plan that --plan names, or makes one from the flags. A
// plan that feeds nobody ends the command.
func (s *session) planOrMake(cmd *cobra.Command, file string, flags *planFlags, allowed ...string) (*ration.Plan, *ration.Request, error) {
	if file != "" {
		if err := onlyWithoutPlan(cmd, allowed...); err != nil {
			return nil, nil, err
		}
		if err := flags.oneStream(namedFile{"--plan", file}, namedFile{"--shelves", flags.shelf}); err != nil {
			return nil, nil, err
		}
		p, req, err := s.readPlan(file, cmd.Name())
		if err != nil {
			return nil, nil, err
		}
		return p, req, flags.sameHousehold(s, req)
	}
	req, err := flags.request(s)
	if err != nil {
		return nil, nil, err
	}
	req.Slack = defaultSlack
	ctx, stop := s.within(req.Time)
	defer stop()
	p, err := s.makePlan(ctx, req, ownDishes{})
	if err != nil {
		return nil, nil, err
	}
	if p.Totals == nil {
		s.note("there is no ration to store for; \"rationwright plan\" with the same flags says why")
		return nil, nil, planOutcome(p, s.ctx.Err() != nil)
	}
	return p, req, nil
}

// metres is an altitude, NaN where it is not known.
func metres(altitude *float64) float64 {
	if altitude == nil {
		return math.NaN()
	}
	return *altitude
}

package cli

import (
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/swap"
)

func newSwap(s *session) *cobra.Command {
	var (
		to           shape
		plan, person string
		insteadOf    string
		drop, keep   []string
		reduce       []string
		spread       = fraction(swap.DefaultSpread)
		limit        time.Duration
	)
	cmd := &cobra.Command{
		Use:   "swap",
		Short: "Replace foods in a plan with the fewest changes",
		Long: `swap changes a plan so that a food is gone, or less of it is eaten, with as few
changes of other packs as can be, at no more than --spread over the best found
without it. Everyone's needs are kept, but for vitamins that the body stores where
nothing else can be done: the answer then names who is short, and of what. Nothing
lifts a safety rule.

The plan is the output of "plan --format json", or of swap itself. --drop may be
repeated; with --for only that person goes without. --reduce "FOOD=50%" holds a food
to half of what was eaten. --keep FOOD leaves its packs as they are.

--instead-of FOOD changes nothing: it ranks the foods that could stand in for it by
themselves, every other pack of the plan staying as it is.`,
		Example: `  rationwright plan --format json --out plan.json
  rationwright swap --plan plan.json --drop "pink salmon, canned, drained"
  rationwright swap --plan plan.json --drop "wheat bran" --for Maja
  rationwright swap --plan plan.json --reduce "raisins=50%" --keep "rolled oats"
  rationwright swap --plan plan.json --instead-of "rolled oats"`,
		Args: noArgs,
		RunE: to.work(s, func(cmd *cobra.Command, _ []string, out *output) error {
			switch {
			case plan == "":
				return usagef("say which plan: --plan FILE, the output of plan --format json")
			case insteadOf != "" && len(drop)+len(reduce)+len(keep) > 0:
				return usagef("--instead-of only looks; leave --drop, --reduce and --keep out, or make the swap")
			case insteadOf != "":
				return s.replacements(limit, plan, insteadOf, person, out, to.units)
			case len(drop)+len(reduce) == 0:
				return usagef("say what to change: --drop FOOD or --reduce \"FOOD=50%%\"; or ask with --instead-of FOOD")
			}
			change := swap.SwapRequest{Drop: drop, Keep: keep, For: person, Spread: float64(spread), Reduce: map[string]float64{}}
			for _, text := range reduce {
				name, share, err := readReduce(text)
				if err != nil {
					return err
				}
				change.Reduce[name] = share
			}
			p, req, err := s.readPlan(plan, "swap")
			if err != nil {
				return err
			}
			if err := s.meant(req.Table, slices.Concat(drop, keep, slices.Sorted(maps.Keys(change.Reduce)))...); err != nil {
				return badInput(err)
			}
			if limit > 0 {
				p.Request.Options["time"] = limit.String()
				req.Time = limit
			}
			ctx, stop := s.within(req.Time)
			defer stop()
			line := newProgress(s.stderr, "")
			swap, err := swap.Make(ctx, p, change, line.show)
			line.clear()
			if err != nil {
				return s.failed(s.ctx, err)
			}
			if err := out.answer(swap, report.SwapCSV(swap), report.Swap(swap, to.units)); err != nil {
				return err
			}
			return planOutcome(swap.Plan, s.ctx.Err() != nil)
		}),
	}
	fs := cmd.Flags()
	fs.StringVar(&plan, "plan", "", "the plan to change: its JSON `FILE`, - for standard input")
	fs.StringArrayVar(&drop, "drop", nil, "`FOOD` that goes: any word for it, a name, NDB number or group; repeat for more")
	fs.StringArrayVar(&reduce, "reduce", nil, "`FOOD=SHARE` of what was eaten, as raisins=50%; repeat for more")
	fs.StringArrayVar(&keep, "keep", nil, "`FOOD` whose packs stay as they are; repeat for more")
	fs.StringVar(&person, "for", "", "`NAME` of the one person whom the change is for (default: everyone)")
	fs.StringVar(&insteadOf, "instead-of", "", "rank what could replace this `FOOD`, and change nothing")
	fs.Var(&spread, "spread", "how much dearer than the best without the food it may be")
	fs.Var((*seconds)(&limit), "time", "how long to search, as 10s or 2m; a longer time finds fewer changes and proves more (default: that of the plan)")
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

// replacements ranks what could replace a food of a plan.
func (s *session) replacements(limit time.Duration, plan, food, person string, out *output, u sheet.Units) error {
	p, req, err := s.readPlan(plan, "swap")
	if err != nil {
		return err
	}
	if err := s.meant(req.Table, food); err != nil {
		return badInput(err)
	}
	if limit == 0 {
		limit = req.Time
	}
	ctx, stop := s.within(limit)
	defer stop()
	found, err := swap.Replacements(ctx, p, food, person)
	if err != nil {
		return s.failed(ctx, err)
	}
	return out.answer(found, report.ReplacingCSV(found, p), report.Replacing(found, p, u))
}

// readReduce splits FOOD=SHARE at the last equals sign.
func readReduce(text string) (name string, share float64, err error) {
	at := strings.LastIndex(text, "=")
	if at <= 0 {
		return "", 0, usagef("--reduce %q: write the food, =, and its share: \"raisins=50%%\"", text)
	}
	var f fraction
	if err := f.Set(text[at+1:]); err != nil || f >= 1 {
		return "", 0, usagef("--reduce %q: the share must be from 0%% to under 100%%", text)
	}
	return strings.TrimSpace(text[:at]), float64(f), nil
}

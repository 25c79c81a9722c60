package cli

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

func newRotate(s *session) *cobra.Command {
	var (
		from        sources
		to          shape
		plan, start string
		earlier     string
		temp        *float64
		months      = 12
	)
	cmd := &cobra.Command{
		Use:   "rotate",
		Short: "What to use up, refill and replace, and when",
		Long: `rotate says what to eat by when, the oldest first; what to replace this month; when
to refill water and change batteries; and how many packs a month, eaten from the
store and bought back, keep all of it inside its date, at what cost a
year.

It works from the stock on hand (--stock), from a plan as it is filled on the day
of --start (--plan), or from both: then the stock is what there is and the plan
what is to be held. A warm store shortens the dates (--temp).

The calendar (--format ics) has one event for each batch, with reminders. Give the
one written before with --earlier, and events keep their identity, however the
stock has changed.`,
		Example: `  rationwright rotate --stock stock.csv
  rationwright rotate --plan plan.json --start 2026-11-25 --temp 25
  rationwright rotate --stock stock.csv --plan plan.json --months 24
  rationwright rotate --stock stock.csv --format ics --earlier old.ics --out new.ics`,
		Args: noArgs,
		RunE: to.work(s, func(_ *cobra.Command, _ []string, out *output) error {
			if from.stock == "" && plan == "" {
				return usagef("say what is in store: --stock FILE, --plan FILE or both")
			}
			if earlier != "" && out.format != formatICS {
				return usagef("--earlier goes with --format ics only")
			}
			if start != "" {
				if err := goodDay(start); err != nil {
					return err
				}
			}
			if err := from.oneStream(namedFile{"--plan", plan}, namedFile{"--earlier", earlier}); err != nil {
				return err
			}
			rotation, err := s.rotation(&from, plan, start, temp, months)
			if err != nil {
				return err
			}
			if out.format == formatICS {
				return out.writeOf(func(w io.Writer) error { return s.calendar(w, rotation, earlier) })
			}
			return out.answer(rotation, report.RotateCSV(rotation), report.Rotate(rotation, to.units))
		}),
	}
	fs := cmd.Flags()
	from.addStock(fs)
	fs.StringVar(&plan, "plan", "", "the plan that is held: its JSON `FILE`, - for standard input")
	from.addTable(fs)
	fs.StringVar(&start, "start", "", "the day from which is counted, a `DATE` as 2026-11-25 (default: today; of a plan alone: its own)")
	fs.Var(quantity{kindTemp, &temp}, "temp", "steady temperature of the store: 21, 21C or 70F (default 21; 32 for a plan made with --hot)")
	fs.Var(whole{&months, 1, mostMonths}, "months", "how many months ahead are listed, `N` from 1 to 120")
	fs.StringVar(&earlier, "earlier", "", "the calendar `FILE` written before, so that events keep their identity; with --format ics")
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON, formatICS)
	return cmd
}

const mostMonths = 120

// rotation works out the rotation of a stock, a plan, or both.
func (s *session) rotation(from *sources, plan, start string, temp *float64, months int) (*stockpile.Rotation, error) {
	in := stockpile.RotationInput{Start: start, TempC: stockpile.UsualStoreC, Months: months}
	demo := ration.Demo{Prices: from.prices == ""}
	if plan != "" {
		p, req, err := s.readPlan(plan, "rotate")
		if err != nil {
			return nil, err
		}
		if from.foods != "" || from.prices != "" {
			return nil, usagef("--foods and --prices cannot go with --plan: the plan has its own")
		}
		in.Plan, in.Req, demo = p, req, req.Demo
		if in.Start == "" && from.stock == "" {
			in.Start = req.Start
		}
		if req.Hot {
			in.TempC = stockpile.HotStoreC
		}
	}
	if temp != nil {
		in.TempC = *temp
	}
	if in.Start == "" {
		in.Start = time.Now().Format(time.DateOnly)
	}
	if from.stock != "" {
		var larder *foods.Table
		var err error
		if in.Req != nil {
			larder = in.Req.Table
		} else if larder, _, err = from.table(s); err != nil {
			return nil, badInput(err)
		}
		if in.Stock, err = from.stockOf(s, larder, in.Start); err != nil {
			return nil, badInput(err)
		}
	}
	r, err := stockpile.RotationOf(in)
	if err != nil {
		return nil, badInput(err)
	}
	r.Demo = demo
	return r, nil
}

// calendar writes the rotation as iCalendar, following the earlier one.
func (s *session) calendar(w io.Writer, r *stockpile.Rotation, earlier string) error {
	var before io.Reader
	if earlier != "" {
		in, name, err := s.open(earlier)
		if err != nil {
			return badInput(fmt.Errorf("--earlier: %w", err))
		}
		defer in.Close()
		before, earlier = in, name
	}
	text, err := stores.Calendar(r.Actions, r.Start, before)
	if errors.Is(err, stores.ErrCalendar) {
		err = fmt.Errorf("%s: %w", earlier, err)
	}
	if err != nil {
		return badInput(err)
	}
	_, err = w.Write(text)
	return err
}

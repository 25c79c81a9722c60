package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/register"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods/stores"
	"rationwright/nutrients/table"
	"rationwright/solver/community"
	"rationwright/solver/ration"
)

// mostSharing is the most households of one share: all of their programs are in
// memory together, 7 MB each at the peak (200 of them: 1.5 GB).
const mostSharing = 300

// shareFlags are the flags of share.
type shareFlags struct {
	planFlags
	shape
	households string
	time       time.Duration
}

// defaultShareEach is the work of one search of one household.
const defaultShareEach = 300 * time.Millisecond

func newShare(s *session) *cobra.Command {
	var f shareFlags
	cmd := &cobra.Command{
		Use:   "share",
		Short: "A common stock and budget shared among households: who gets what",
		Long: `share shares a common stock and a common budget among the households of a register:
first the household that is served worst gets as much as can be, then all together
spend as little as can be. What a household gets is a part of every daily need, the
same part for everyone in it. It lists who gets which whole packs and what each buys,
with the proven gap of both.

Milk for infants, water to drink, what is set aside against a low blood sugar, orders
of a clinician, allergies and upper limits are never given up. Without --budget everyone's
needs are met in full, and the stock is shared so that all together spend the least.

It is meant for a village: every household is planned several times over.`,
		Example: `  rationwright share --households village.csv --stock store.csv --budget 5000
  rationwright share --households village.csv --stock store.csv --budget 5000 --format csv --out hand-out.csv`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return f.run(s) },
	}
	fs := cmd.Flags()
	fs.StringVar(&f.households, "households", "", "the register: a CSV or NDJSON `FILE`, as of batch")
	f.planFlags.addStock(fs)
	fs.Lookup("stock").Usage = "the common stock: a `FILE` pack,count,best_before; its packs cost nothing"
	f.asked.Time = defaultShareEach
	fs.Var((*seconds)(&f.asked.Time), "each", "work for each search of a household: as much as plan does in this time")
	fs.Var((*seconds)(&f.time), "time", "end by then with what was found: 30s, 5m (default: as long as it takes)")
	f.addTable(fs)
	f.addWishes(fs)
	fs.Lookup("budget").Usage = "what all may spend together, in the currency of the prices"
	fs.Lookup("least").Hidden = true // it is always cost
	f.addStove(fs)
	f.addStart(fs)
	f.addUnits(fs)
	f.shape.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

// run shares the store.
func (f *shareFlags) run(s *session) error {
	if f.households == "" {
		return usagef("say which register: --households FILE")
	}
	if f.asked.Least != ration.LeastCost {
		return usagef("--least %s: what is shared is made to cost the least", f.asked.Least)
	}
	if f.households == standardInput && f.stock == standardInput {
		return usagef("--households and --stock cannot both read standard input; give a file for one")
	}
	if err := f.check(); err != nil {
		return err
	}
	out, err := f.output(s)
	if err != nil {
		return err
	}
	asked, err := f.request(s)
	if err != nil {
		return badInput(err)
	}
	shared := &report.Shared{Households: []report.SharedTo{}, Left: []report.SharedRemain{}}
	req := &community.Request{Budget: f.asked.Limits.Budget}
	places, err := f.read(s, asked, shared, req)
	if err != nil {
		return badInput(err)
	}
	if err := f.share(s, shared, req, places); err != nil {
		return err
	}
	if err := out.answer(shared, report.ShareCSV(shared), report.Share(shared, f.units)); err != nil {
		return err
	}
	return sharedOutcome(shared)
}

// request is what is asked for every household, the common stock at hand.
func (f *shareFlags) request(s *session) (*ration.Request, error) {
	larder, files, err := f.table(s)
	if err != nil {
		return nil, err
	}
	stock, stockErr := f.stockOf(s, larder, f.asked.Start)
	if err := errors.Join(stockErr, s.meant(larder, f.asked.Without...)); err != nil {
		return nil, err
	}
	if stock.WaterL != nil || stores.HeatOfStock(stock) != nil {
		s.note("water and fuel of a common stock are not shared out; every household stores its own")
	}
	files.Stock = stock.Rows
	asked := f.of(larder, files)
	asked.Stock = stock.Lines
	asked.Limits.Budget = nil
	return asked, nil
}

// read reads the register. places are those of the households that share among all.
func (f *shareFlags) read(s *session, asked *ration.Request, to *report.Shared, req *community.Request) (places []int, err error) {
	in, name, err := s.open(f.households)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	r, err := register.NewReader(name, in)
	if err != nil {
		return nil, err
	}
	s.warn(r.Warnings)
	at := map[string]int{}
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return places, nil
		}
		if err != nil {
			return nil, err
		}
		if len(to.Households) == mostSharing {
			return nil, fmt.Errorf("%s:%d:1: more than %d households; share among fewer at a time", name, h.Line, mostSharing)
		}
		if first, twice := at[strings.ToLower(h.ID)]; twice {
			return nil, &table.Error{File: name, Line: h.Line, Column: 1, Field: register.Column, Value: h.ID, Err: fmt.Errorf("it begins in line %d already, and others stand between", first), Fix: "put all rows of a household together, and give each an id of its own"}
		}
		at[strings.ToLower(h.ID)] = h.Line
		people, warnings, err := h.People(asked.Table)
		s.warn(warnings)
		one := report.SharedTo{ID: h.ID}
		if err != nil {
			one.Exit, one.Errors = exit.BadInput, strings.Split(err.Error(), "\n")
		} else {
			own := *asked
			own.People = people
			places = append(places, len(to.Households))
			req.Households = append(req.Households, &own)
		}
		to.Households = append(to.Households, one)
	}
}

// share shares among the households that could be read.
func (f *shareFlags) share(s *session, to *report.Shared, req *community.Request, places []int) error {
	if len(req.Households) == 0 {
		return nil
	}
	ctx := s.ctx
	if f.time > 0 {
		var stop context.CancelFunc
		ctx, stop = s.within(f.time)
		defer stop()
	}
	found, err := community.Make(ctx, req)
	switch {
	case s.ctx.Err() != nil:
		return s.ctx.Err()
	case errors.Is(err, community.ErrNothingToShare):
		s.note("%v", err)
		return outcome(exit.NoRation)
	case err != nil:
		return s.failed(s.ctx, err)
	}
	to.Stopped, to.Level, to.LevelBound, to.LevelGap = found.Stopped, found.Level, found.LevelBound, found.LevelGap
	to.Cost, to.Bound, to.Gap = found.Cost, found.CostBound, found.CostGap
	for i, place := range places {
		h := &to.Households[place]
		if why := found.Apart[i]; why != nil {
			h.Exit, h.Errors = exit.OfError(why).Code, strings.Split(why.Error(), "\n")
			if h.Exit == exit.BadInput { // it was read, and cannot be fed as it is
				h.Exit = exit.NoRation
			}
			continue
		}
		p := found.Plans[i]
		h.Totals, h.Packs, h.Shortfalls, h.Refused = p.Totals, p.Packs, p.Shortfalls, p.Refused
		to.Currency = p.Totals.Currency
	}
	for k, line := range req.Households[0].Stock {
		left := int(line.Count)
		if k < len(found.Left) {
			left = found.Left[k]
		}
		to.Left = append(to.Left, report.SharedRemain{Pack: line.Pack.Key, Food: line.Pack.Food.Name, Count: left})
	}
	return nil
}

// sharedOutcome ends with the code of the worst.
func sharedOutcome(shared *report.Shared) error {
	worst := exit.Done
	for _, h := range shared.Households {
		worst = exit.Worst(worst, h.Exit)
	}
	return ended(worst)
}

package cli

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods/dishes"
	"rationwright/solver/menu"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// menuFlags are the flags of menu.
type menuFlags struct {
	from     sources
	plan     string
	own      ownDishes
	coldDays string
	fromDay  int
	only     report.MenuPart
	limit    time.Duration
}

// menuTime is how long the days of a menu may take unless --time says more: many times
// what 60 people need. Own planning rule, no source.
const menuTime = time.Minute

func addMenuTime(fs *pflag.FlagSet, limit *time.Duration) {
	*limit = menuTime
	fs.Var((*seconds)(limit), "time", "the menu has this long once the plan is read: 30s, 2m")
}

func newMenu(s *session) *cobra.Command {
	var (
		f  menuFlags
		to shape
	)
	cmd := &cobra.Command{
		Use:   "menu",
		Short: "Spread a plan over days and meals",
		Long: `menu spreads a plan over its days: which dish is on the table at breakfast, midday and
evening, what is opened for it, what each person gets in household measures and in
grams, how it is cooked, with how much water and heat. Every gram of the plan is
eaten and every pack of it opened; what fits no dish is said.

A pack that does not keep is opened where it can be finished in time. --cold-days names
days on which nothing is heated. --from-day N --stock FILE makes the rest again from
what is in store on day N: after a pack went bad, with a guest (--household), after a
day away.

The plan is the output of "plan --format json". One made with --with-menu has its menu, in
which every gram has its dish, and that is shown. Your own dishes go into two files in the
columns of the program's own: --dishes and --dish-parts.`,
		Example: `  rationwright plan --format json --start 2026-01-05 --out plan.json
  rationwright menu --plan plan.json
  rationwright menu --plan plan.json --only overview
  rationwright menu --plan plan.json --cold-days 3,4 --format csv --out menu.csv
  rationwright menu --plan plan.json --from-day 6 --stock left.csv
  rationwright menu --plan plan.json --format ics --out menu.ics`,
		Args: noArgs,
		RunE: to.work(s, func(cmd *cobra.Command, _ []string, out *output) error {
			m, p, err := s.menu(cmd, &f)
			if err != nil {
				return s.failed(s.ctx, err)
			}
			if out.format == formatICS {
				return out.writeOf(func(w io.Writer) error { return badInput(report.MenuCalendar(w, m, to.units)) })
			}
			return out.answer(m, report.MenuCSV(m, p), report.Menu(m, p, f.only, to.units))
		}),
	}
	fs := cmd.Flags()
	fs.StringVar(&f.plan, "plan", "", "the plan to spread: its JSON `FILE`, - for standard input")
	fs.StringVar(&f.coldDays, "cold-days", "", "`DAYS` on which nothing is heated, as 3,4")
	fs.IntVar(&f.fromDay, "from-day", 1, "make the menu again from day `N` on, from what --stock has")
	fs.StringVar(&f.from.stock, "stock", "", "what is in store on that day: a `FILE` pack,count,best_before; with --from-day")
	fs.StringVar(&f.from.household, "household", "", "who eats from that day on, where that has changed: a `FILE` as for plan; with --from-day")
	f.own.add(fs, "dishes of your own: a `FILE` in the columns of the program's; with --dish-parts")
	addMenuTime(fs, &f.limit)
	choice(fs, &f.only, "only", report.MenuAll, "which part is shown", report.MenuAll, report.MenuOverview, report.MenuDays)
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON, formatICS)
	return cmd
}

// menu reads what the flags name and makes the menu.
func (s *session) menu(cmd *cobra.Command, f *menuFlags) (*menu.Menu, *ration.Plan, error) {
	again := cmd.Flags().Changed("from-day")
	switch {
	case f.plan == "":
		return nil, nil, usagef("say which plan: --plan FILE, the output of plan --format json")
	case f.own.check() != nil:
		return nil, nil, f.own.check()
	case again && f.from.stock == "":
		return nil, nil, usagef("--from-day needs --stock FILE: what is in store on that day")
	case !again && (f.from.stock != "" || f.from.household != ""):
		return nil, nil, usagef("--stock and --household go with --from-day; a plan has its own")
	}
	if err := f.from.oneStream(namedFile{"--plan", f.plan}, namedFile{"--dishes", f.own.list}, namedFile{"--dish-parts", f.own.parts}); err != nil {
		return nil, nil, err
	}
	p, req, err := s.readPlan(f.plan, "menu")
	if err != nil {
		return nil, nil, err
	}
	ctx, stop := context.WithTimeout(s.ctx, f.limit) // who waits for a plan from a pipe loses none of it
	defer stop()
	if again {
		if p, req, err = s.rest(ctx, f, p, req); err != nil {
			return nil, nil, err
		}
	}
	cold, err := readDays(f.coldDays, f.fromDay, f.fromDay+p.Days-1)
	if err != nil {
		return nil, nil, err
	}
	if p.Menu != nil && !again && len(cold) == 0 && f.own.list == "" {
		m, err := menu.Of(ctx, p, req)
		return m, p, err
	}
	book, err := f.own.book(s, req)
	if err != nil {
		return nil, nil, badInput(err)
	}
	m, err := menu.Make(ctx, &menu.Request{Plan: p, Of: req, Book: book, ColdDays: cold, FromDay: f.fromDay})
	return m, p, err
}

// ownDishes are the two files of dishes of the user's own; "" names none.
type ownDishes struct{ list, parts string }

func (d *ownDishes) add(fs *pflag.FlagSet, usage string) {
	fs.StringVar(&d.list, "dishes", "", usage)
	fs.StringVar(&d.parts, "dish-parts", "", "their parts: a `FILE` in the columns of the program's")
}

// check refuses one file without the other.
func (d *ownDishes) check() error {
	if (d.list == "") != (d.parts == "") {
		return usagef("--dishes and --dish-parts go together: the dishes and what is in them")
	}
	return nil
}

// book is the dishes of a request, the user's own among them, whose rows it puts into
// the request.
func (d *ownDishes) book(s *session, req *ration.Request) (*dishes.Book, error) {
	book, err := menu.BookOf(req)
	if err != nil || d.list == "" {
		return book, err
	}
	return book, s.readRows(d.list, &req.Files.Dishes, func(name string, rows io.Reader) ([]string, error) {
		return nil, s.readRows(d.parts, &req.Files.DishParts, func(partsName string, partRows io.Reader) ([]string, error) {
			return book.Read(name, rows, partsName, partRows)
		})
	})
}

// rest plans the days from --from-day on again, from what is in store alone.
func (s *session) rest(ctx context.Context, f *menuFlags, p *ration.Plan, req *ration.Request) (*ration.Plan, *ration.Request, error) {
	if f.fromDay < 1 || f.fromDay > p.Days {
		return nil, nil, usagef("--from-day %d: the plan has days 1 to %d", f.fromDay, p.Days)
	}
	left := *req
	left.Days = p.Days - f.fromDay + 1
	left.StockOnly = true
	left.Limits = ration.Limits{}
	left.Files.Stock = nil
	if start, err := time.Parse(time.DateOnly, req.Start); err == nil {
		left.Start = start.AddDate(0, 0, f.fromDay-1).Format(time.DateOnly)
	}
	stock, err := f.from.stockOf(s, req.Table, left.Start)
	if err != nil {
		return nil, nil, badInput(err)
	}
	left.Stock, left.StockWaterL, left.StockHeatMJ = stock.Lines, nil, nil
	if f.from.household != "" {
		home, err := f.from.people(s)
		if err != nil {
			return nil, nil, badInput(err)
		}
		left.People = home.people
	}
	line := newProgress(s.stderr, "")
	again, err := plan.Make(ctx, &left, line.show)
	line.clear()
	if err != nil {
		return nil, nil, err
	}
	left.Start = req.Start
	if again.Totals == nil {
		if again.Closest == nil {
			return nil, nil, badInput(fmt.Errorf("what is in store feeds nobody from day %d on", f.fromDay))
		}
		again.People, again.Packs, again.Shortfalls = again.Closest.People, again.Closest.Packs, again.Closest.Shortfalls
	}
	return again, &left, nil
}

// readDays reads days as 3,4 between first and last.
func readDays(text string, first, last int) ([]int, error) {
	var days []int
	for part := range strings.SplitSeq(text, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		d, err := strconv.Atoi(part)
		if err != nil || d < first || d > last {
			return nil, usagef("--cold-days %q: write days from %d to %d, parted by commas", text, first, last)
		}
		if !slices.Contains(days, d) {
			days = append(days, d)
		}
	}
	return days, nil
}

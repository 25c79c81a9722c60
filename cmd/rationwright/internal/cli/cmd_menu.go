package cli

import (
	"bytes"
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
	"rationwright/nutrients/table"
	"rationwright/solver/menu"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

const menuLong = `menu spreads a plan over its days: which dish is on the table at breakfast, midday and
evening, what is opened for it, what each person gets in household measures and in
grams, how it is cooked, with how much water and heat. Every gram of the plan is
eaten and every pack of it opened; what fits no dish is said.

A pack that does not keep is opened where it can be finished in time. --cold-days names
days on which nothing is heated. --from-day N --stock FILE makes the rest again from
what is in store on day N: after a pack went bad, with a guest (--household), after a
day away.

The plan is the output of "plan --format json". One made with --with-menu has its menu, in
which every gram has its dish, and that is shown. Your own dishes go into two files in the
columns of the program's own: --dishes and --dish-parts.`

const menuExample = `  rationwright plan --format json --start 2026-01-05 --out plan.json
  rationwright menu --plan plan.json
  rationwright menu --plan plan.json --only overview
  rationwright menu --plan plan.json --cold-days 3,4 --format csv --out menu.csv
  rationwright menu --plan plan.json --from-day 6 --stock left.csv
  rationwright menu --plan plan.json --format ics --out menu.ics`

// menuFlags are the flags of menu.
type menuFlags struct {
	from     sources
	plan     string
	dishes   string
	parts    string
	coldDays string
	fromDay  int
	only     string
	limit    seconds
}

// menuTime is how long the days of a menu may take unless --time says more: many times
// what 60 people need. Own planning rule, no source.
const menuTime = seconds(time.Minute)

func addMenuTime(fs *pflag.FlagSet, limit *seconds) {
	*limit = menuTime
	fs.Var(limit, "time", "the menu has this long once the plan is read: 30s, 2m")
}

func newMenu(s *session) *cobra.Command {
	var (
		f  menuFlags
		to shape
	)
	cmd := &cobra.Command{
		Use:     "menu",
		Short:   "Spread a plan over days and meals",
		Long:    menuLong,
		Example: menuExample,
		Args:    noArgs,
		RunE: s.work(func(cmd *cobra.Command, args []string) error {
			out, err := to.output(s)
			if err != nil {
				return err
			}
			m, p, err := s.menu(cmd.Context(), cmd, &f)
			if err != nil {
				return s.failed(cmd.Context(), err)
			}
			u := report.Units(to.units)
			return out.answer(forms{
				formatJSON:  func(w io.Writer) error { return report.JSON(w, m) },
				formatCSV:   func(w io.Writer) error { return report.MenuCSV(w, m, p) },
				formatICS:   func(w io.Writer) error { return badInput(report.MenuCalendar(w, m, u)) },
				formatTable: func(w io.Writer) error { return report.Menu(m, p, report.MenuPart(f.only), u).Text(w) },
			})
		}),
	}
	fs := cmd.Flags()
	fs.StringVar(&f.plan, "plan", "", "the plan to spread: its JSON `FILE`, - for standard input")
	fs.StringVar(&f.coldDays, "cold-days", "", "`DAYS` on which nothing is heated, as 3,4")
	fs.IntVar(&f.fromDay, "from-day", 1, "make the menu again from day `N` on, from what --stock has")
	fs.StringVar(&f.from.stock, "stock", "", "what is in store on that day: a `FILE` pack,count,best_before; with --from-day")
	fs.StringVar(&f.from.household, "household", "", "who eats from that day on, where that has changed: a `FILE` as for plan; with --from-day")
	fs.StringVar(&f.dishes, "dishes", "", "dishes of your own: a `FILE` in the columns of the program's; with --dish-parts")
	fs.StringVar(&f.parts, "dish-parts", "", "their parts: a `FILE` in the columns of the program's")
	addMenuTime(fs, &f.limit)
	choice(fs, &f.only, "only", string(report.MenuAll), "which part is shown", string(report.MenuAll), string(report.MenuOverview), string(report.MenuDays))
	to.addUnits(fs)
	to.add(fs, string(formatTable), string(formatCSV), string(formatJSON), string(formatICS))
	return cmd
}

// menu reads what the flags name and makes the menu.
func (s *session) menu(ctx context.Context, cmd *cobra.Command, f *menuFlags) (*menu.Menu, *ration.Plan, error) {
	again := changed(cmd, "from-day")
	switch {
	case f.plan == "":
		return nil, nil, usagef("say which plan: --plan FILE, the output of plan --format json")
	case (f.dishes == "") != (f.parts == ""):
		return nil, nil, usagef("--dishes and --dish-parts go together: the dishes and what is in them")
	case again && f.from.stock == "":
		return nil, nil, usagef("--from-day needs --stock FILE: what is in store on that day")
	case !again && (f.from.stock != "" || f.from.household != ""):
		return nil, nil, usagef("--stock and --household go with --from-day; a plan has its own")
	}
	if err := f.from.oneStream(namedFile{"--plan", f.plan}, namedFile{"--dishes", f.dishes}, namedFile{"--dish-parts", f.parts}); err != nil {
		return nil, nil, err
	}
	p, req, err := s.readPlan(f.plan, "menu")
	if err != nil {
		return nil, nil, err
	}
	ctx, stop := context.WithTimeout(ctx, time.Duration(f.limit)) // who waits for a plan from a pipe loses none of it
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
	if p.Menu != nil && !again && len(cold) == 0 && f.dishes == "" {
		m, err := menu.Of(ctx, p, req)
		return m, p, err
	}
	book, err := s.book(req, f.dishes, f.parts)
	if err != nil {
		return nil, nil, badInput(err)
	}
	m, err := menu.Make(ctx, &menu.Request{Plan: p, Of: req, Book: book, ColdDays: cold, FromDay: f.fromDay})
	return m, p, err
}

// book is the dishes of a request, and the user's own of two files, whose rows it
// puts into the request; "" names none.
func (s *session) book(req *ration.Request, list, parts string) (*dishes.Book, error) {
	book, err := menu.BookOf(req)
	if err != nil || list == "" {
		return book, err
	}
	err = s.read(list, func(name string, in io.Reader) (warnings []string, err error) {
		rows, err := io.ReadAll(io.LimitReader(in, table.MaxBytes+1))
		if err != nil {
			return nil, err
		}
		err = s.read(parts, func(partsName string, in io.Reader) ([]string, error) {
			partRows, err := io.ReadAll(io.LimitReader(in, table.MaxBytes+1))
			if err != nil {
				return nil, err
			}
			if warnings, err = book.Read(name, bytes.NewReader(rows), partsName, bytes.NewReader(partRows)); err != nil {
				return nil, err
			}
			if req.Files.Dishes, err = rowsOf(rows); err == nil {
				req.Files.DishParts, err = rowsOf(partRows)
			}
			return nil, err
		})
		return warnings, err
	})
	return book, err
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

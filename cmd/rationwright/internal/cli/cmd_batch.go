package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/cmd/rationwright/internal/batch"
	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/register"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/nutrients/table"
	"rationwright/solver/ration"
)

// batchFlags are the flags of batch.
type batchFlags struct {
	planFlags
	households, out, list, reports string
	resume                         bool
	started                        bool // --start is given
}

// defaultEach is the work of each household where --each is not given.
const defaultEach = time.Second

func newBatch(s *session) *cobra.Command {
	var f batchFlags
	cmd := &cobra.Command{
		Use:   "batch",
		Short: "A plan for every household of a register, and what they need together",
		Long: `batch plans every household of a register, one after the other, and writes one line
of JSON for each, in the order of the register: its id, status and exit code (as plan
would end), value, bound, gap, totals, packs, shortfalls, who is refused, errors.

The register is household.csv with the id of the household in a column household, the
rows of one household standing together; or NDJSON, one {"id":…,"household":[rows]} a
line. What is asked holds for every household alike.

A line depends on its household and on what is asked only: work is counted, not
clocked, so that the same register gives the same bytes on any machine. Whatever ends
a run, --resume goes on behind the last whole line. What is wrong with a household
stands on its line and stops no other.

Exit code 3: some households could not be read; else 4: some cannot be fed within the
limits; else 6: no plan was found for some.`,
		Example: `  rationwright batch --households village.csv --out village.ndjson --list to-buy.csv
  rationwright batch --households village.csv --out village.ndjson --list to-buy.csv --resume
  rationwright batch --households village.ndjson --days 7 --least weight --reports pages`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return f.run(s) },
	}
	fs := cmd.Flags()
	fs.StringVar(&f.households, "households", "", "the register: a CSV or NDJSON `FILE`")
	fs.StringVar(&f.out, "out", "", "write the lines to `FILE` instead of standard output, each as soon as it is there")
	fs.StringVar(&f.list, "list", "", "at the end write what all need together, by pack, to a CSV `FILE`")
	fs.StringVar(&f.reports, "reports", "", "write a page to print for each household into `DIR`")
	fs.BoolVar(&f.resume, "resume", false, "go on with a run that was ended, behind the last whole line of --out")
	f.addAsked(fs)
	return cmd
}

// addAsked adds the flags of what is asked of every household.
func (f *batchFlags) addAsked(fs *pflag.FlagSet) {
	f.asked.Time = defaultEach
	fs.Var((*seconds)(&f.asked.Time), "each", "work for each household: as much as plan does in this time")
	f.addTable(fs)
	f.addWishes(fs)
	f.addStove(fs)
	f.addSearch(fs)
	fs.Var((*fraction)(&f.asked.Slack), "slack", "what may be added to the best found so that people eat it gladly: 3% or 0.03 (default 0: nothing)")
}

// Asked is what the flags of batch ask of every household: for programs that run the
// same elsewhere. Notes go to stderr.
func Asked(ctx context.Context, args []string, stderr io.Writer) (*ration.Request, error) {
	var f batchFlags
	fs := pflag.NewFlagSet("batch", pflag.ContinueOnError)
	f.addAsked(fs)
	if err := fs.Parse(args); err != nil {
		return nil, err
	}
	if rest := fs.Args(); len(rest) > 0 {
		return nil, fmt.Errorf("%q is no flag of batch", rest[0])
	}
	if err := f.check(); err != nil {
		return nil, err
	}
	return f.request(&session{ctx: ctx, stdin: strings.NewReader(""), stderr: stderr})
}

// run runs the batch.
func (f *batchFlags) run(s *session) error {
	if err := f.checkUse(); err != nil {
		return err
	}
	lines, list := &output{out: f.out, stdout: s.stdout}, &output{out: f.list, stdout: s.stdout}
	for _, o := range []*output{lines, list} {
		if err := o.check(s); err != nil {
			return err
		}
	}
	if f.inFile() {
		s.outs = append(s.outs, f.out+batch.BegunSuffix) // is written too
	}
	if err := f.checkReports(); err != nil {
		return err
	}
	asked, err := f.request(s)
	if err != nil {
		return err
	}
	scan, err := f.scan(s)
	if err != nil {
		return badInput(err)
	}
	out, total, err := f.begin(s, lines, scan, asked)
	if err != nil {
		return err
	}
	defer out.Close()
	if err := f.plan(s, scan, asked, out, total); err != nil {
		return err
	}
	if f.list != "" {
		if err := list.writeOf(total.List().Write); err != nil {
			return err
		}
	}
	return summary(s, total)
}

// checkUse refuses flags that do not go together.
func (f *batchFlags) checkUse() error {
	switch {
	case f.households == "":
		return usagef("say which register: --households FILE")
	case f.households == standardInput:
		return usagef("--households is read twice and cannot be standard input; give a file")
	case f.resume && !f.inFile():
		return usagef("--resume goes on with a file; say which: --out FILE")
	}
	f.started = f.asked.Start != ""
	return f.check()
}

// inFile reports whether lines go into a file, which a run can go on with: not to
// standard output, a device or a pipe.
func (f *batchFlags) inFile() bool {
	if f.out == "" || f.out == "-" {
		return false
	}
	info, err := os.Stat(f.out)
	return err != nil || info.Mode().IsRegular()
}

// request is what is asked of every household.
func (f *batchFlags) request(s *session) (*ration.Request, error) {
	larder, files, err := f.table(s)
	if err != nil {
		return nil, badInput(err)
	}
	if err := s.meant(larder, f.asked.Without...); err != nil {
		return nil, badInput(fmt.Errorf("--without: %w", err))
	}
	return f.of(larder, files), nil
}

// scan reads the register for the first time.
func (f *batchFlags) scan(s *session) (*batch.Scan, error) {
	in, name, err := s.openRegister(f.households)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	scan, err := batch.ScanRegister(name, in)
	if err == nil {
		s.warn(scan.Warnings)
	}
	return scan, err
}

// openRegister opens a register, which may be larger than other tables.
func (s *session) openRegister(file string) (io.ReadCloser, string, error) {
	return s.openBy(file, func(string) (*os.File, error) {
		f, err := os.Open(file)
		if err != nil {
			return nil, table.Join(&table.Error{File: file, Err: plainFileError(err), Fix: "check the name and who may read it"})
		}
		if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
			return nil, errors.Join(table.Join(&table.Error{File: file, Err: errors.New("no file that can be read twice"), Fix: "give a CSV or NDJSON file"}), f.Close())
		}
		return f, nil
	})
}

// begin opens the file of lines: anew, or behind the lines that are there.
func (f *batchFlags) begin(s *session, lines *output, scan *batch.Scan, asked *ration.Request) (io.WriteCloser, *batch.Total, error) {
	if f.out == "" || f.out == "-" {
		return struct {
			io.Writer
			io.Closer
		}{s.stdout, io.NopCloser(nil)}, &batch.Total{}, nil
	}
	target, err := lines.target()
	if err != nil {
		return nil, nil, badInput(err)
	}
	if !f.inFile() {
		out, err := os.OpenFile(target, os.O_WRONLY, 0)
		return out, &batch.Total{}, lines.cannot(err)
	}
	then, err := batch.ReadBegun(target)
	if err != nil {
		return nil, nil, badInput(err)
	}
	if then != nil && f.resume && !f.started {
		asked.Start = then.Start() // not today, which may be another day by now
	}
	now, err := batch.BegunOf(scan, asked, f.reports != "")
	if err != nil {
		return nil, nil, err
	}
	out, err := os.OpenFile(target, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, nil, lines.cannot(err)
	}
	if lockFile(out) {
		return nil, nil, errors.Join(badInput(fmt.Errorf("%s: is being written by another run; wait for its end, or write to another file", f.out)), out.Close())
	}
	total, err := f.goOn(out, target, now, then)
	if err != nil {
		return nil, nil, errors.Join(err, out.Close())
	}
	return out, total, nil
}

// goOn puts out at the place of the next line.
func (f *batchFlags) goOn(out *os.File, target string, now, then *batch.Begun) (*batch.Total, error) {
	if f.resume {
		total, err := batch.Resume(f.out, out, now, then)
		return total, badInput(err)
	}
	if then != nil {
		if there, err := batch.Count(out); err != nil || there < then.Households {
			return nil, badInput(errors.Join(err, fmt.Errorf("%s: %d of %d households of a run stand there; --resume goes on with it, or remove %s to begin anew",
				f.out, there, then.Households, f.out+batch.BegunSuffix)))
		}
	}
	if err := out.Truncate(0); err != nil { // before the note, which is about the lines
		return nil, badInput(fmt.Errorf("%s: cannot be written: %w", f.out, plainFileError(err)))
	}
	if _, err := out.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	text, err := ration.Marshal(now)
	if err != nil {
		return nil, err
	}
	return &batch.Total{}, replaceFile(target+batch.BegunSuffix, nil, text)
}

// plan plans the households that are left.
func (f *batchFlags) plan(s *session, scan *batch.Scan, asked *ration.Request, out io.Writer, total *batch.Total) error {
	in, name, err := s.openRegister(f.households)
	if err != nil {
		return badInput(err)
	}
	defer in.Close()
	planner, err := batch.NewPlanner(*asked, f.reports != "")
	if err != nil {
		return err
	}
	line := newBatchProgress(s, scan.Households, total.Households)
	defer line.clear()
	run := &batch.Run{
		Name: name, Scan: scan, Planner: planner, Out: out, Done: total.Households, Total: total,
		Told: line.told, Wrote: line.wrote,
	}
	if f.reports != "" {
		run.Each = f.report
	}
	switch err := run.Go(s.ctx, in); {
	case s.ctx.Err() != nil:
		line.clear()
		if f.inFile() {
			s.note("interrupted behind %d of %d households; --resume goes on with the next", total.Households, scan.Households)
		} else {
			s.note("interrupted behind %d of %d households", total.Households, scan.Households)
		}
		return outcome(exit.Interrupted)
	case err != nil:
		line.clear()
		return badInput(fmt.Errorf("%w; %d of %d households are done", err, total.Households, scan.Households))
	}
	return nil
}

// report writes the page of a household.
func (f *batchFlags) report(h *register.Household, made *batch.Made) error {
	if made.Plan == nil {
		return nil
	}
	text, err := pageOf(context.Background(), made.Plan, made.Request, sheet.Metric)
	if err != nil {
		return fmt.Errorf("household %s: %w", h.ID, err)
	}
	return replaceFile(filepath.Join(f.reports, batch.PageName(h.ID)), nil, text)
}

// checkReports makes the directory of reports and finds out whether it can be
// written to.
func (f *batchFlags) checkReports() error {
	if f.reports == "" {
		return nil
	}
	err := os.MkdirAll(f.reports, 0o777)
	if err == nil {
		err = tryDir(f.reports)
	}
	if err != nil {
		return badInput(fmt.Errorf("%s: cannot be written to: %w; give --reports another place", f.reports, plainFileError(err)))
	}
	return nil
}

// summary says what the register came to, and ends with the code of the worst.
func summary(s *session, t *batch.Total) error {
	text := fmt.Sprintf("%d households", t.Households)
	if t.Gaps > 0 {
		text += fmt.Sprintf("; gap %.2f %% on average, %.2f %% at most", 100*t.Gap/float64(t.Gaps), 100*t.Widest)
	}
	code := exit.Done
	for _, c := range []struct {
		n    int
		what string
		code int
	}{
		{t.Unread, exit.Unread.Counted, exit.BadInput}, {t.Unfed, exit.Infeasible.Counted, exit.NoRation},
		{t.Unplanned, exit.Unplanned.Counted, exit.Limit},
		{t.Refusing, "with someone whom a clinician must plan for", exit.Done}, {t.Short, "fed short of a vitamin", exit.Done},
	} {
		if c.n > 0 {
			text += fmt.Sprintf("; %d %s", c.n, c.what)
			code = exit.Worst(code, c.code)
		}
	}
	s.note("%s", text)
	return ended(code)
}

package cli

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"rationwright/cmd/rationwright/internal/cli/demo"
	"rationwright/cmd/rationwright/internal/register"
	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
	"rationwright/solver/ration"
)

// standardInput is the file name that stands for standard input.
const standardInput = "-"

// input is a file that is read, with an ear for interrupts.
type input struct {
	*heard
	io.Closer
}

// open opens a file that the user named; - is standard input. The second value is
// the name that errors carry. Every file that is read comes through here: what the
// answer would replace is refused.
func (s *session) open(file string) (io.ReadCloser, string, error) {
	return s.openBy(file, table.Open)
}

func (s *session) openBy(file string, open func(string) (*os.File, error)) (io.ReadCloser, string, error) {
	if file == standardInput {
		const name = "standard input"
		if f, ok := s.stdin.(*os.File); ok {
			if err := s.spare(f, name); err != nil {
				return nil, name, err
			}
		}
		return input{&heard{ctx: s.ctx, in: s.stdin}, io.NopCloser(nil)}, name, nil
	}
	f, err := await(s.ctx, func() (*os.File, error) { return open(file) }) // a pipe opens when both ends are there
	if err != nil {
		return nil, file, err
	}
	if err := s.spare(f, file); err != nil {
		return nil, file, errors.Join(err, f.Close())
	}
	return input{&heard{ctx: s.ctx, in: f}, f}, file, nil
}

// spare refuses a file that is read and would be replaced by the answer, by
// whatever path it was named.
func (s *session) spare(f *os.File, name string) error {
	in, err := f.Stat()
	if err != nil || !in.Mode().IsRegular() {
		return nil // what is no file is not replaced
	}
	for _, out := range s.outs {
		if at, err := os.Stat(out); err == nil && os.SameFile(at, in) {
			return fmt.Errorf("%s is read and would be replaced by what is written to %s; write to another file", name, out)
		}
	}
	return nil
}

// readAll reads a whole CSV file, up to one byte more than any reader takes.
func (s *session) readAll(file string) ([]byte, string, error) {
	in, name, err := s.open(file)
	if err != nil {
		return nil, name, err
	}
	defer in.Close()
	content, err := io.ReadAll(io.LimitReader(in, table.MaxBytes+1))
	if err != nil {
		err = &table.Error{File: name, Err: fmt.Errorf("cannot be read: %w", err), Fix: "check the file and give it again"}
	}
	return content, name, err
}

// warn prints the warnings of a reader.
func (s *session) warn(lines []string) {
	for _, line := range lines {
		s.note("warning: %s", line)
	}
}

// namedFile is a flag with the file that it names.
type namedFile struct{ flag, file string }

// oneStream refuses a command line that reads standard input twice.
func (f *sources) oneStream(more ...namedFile) error {
	var flags []string
	for _, x := range append([]namedFile{{"--household", f.household}, {"--foods", f.foods}, {"--prices", f.prices}, {"--stock", f.stock}}, more...) {
		if x.file == standardInput {
			flags = append(flags, x.flag)
		}
	}
	if len(flags) > 1 {
		return usagef("%s cannot all read standard input; give files for all but one", strings.Join(flags, " and "))
	}
	return nil
}

// household is a household as read, with what is needed to point at its cells.
type household struct {
	people  []nutrients.Person
	name    string
	content []byte
}

// people reads --household, or the demo household.
func (f *sources) people(s *session) (*household, error) {
	h := &household{name: demo.Name, content: demo.Household}
	if f.household != "" {
		var err error
		if h.content, h.name, err = s.readAll(f.household); err != nil {
			return h, err
		}
	}
	people, warnings, err := nutrients.ReadHousehold(h.name, bytes.NewReader(h.content))
	s.warn(warnings)
	h.people = people
	return h, err
}

// table loads the food table with the user's foods and prices in it, and
// returns the rows of their files as well.
func (f *sources) table(s *session) (t *foods.Table, rows ration.Files, err error) {
	t, err = foods.Load()
	if err != nil {
		return nil, rows, fmt.Errorf("the built-in food table is broken: %w", err)
	}
	foodsErr := s.read(f.foods, func(name string, r io.Reader) ([]string, error) {
		changes, err := t.ReadFoods(name, r)
		if err != nil {
			return nil, err
		}
		rows.Foods = changes.Rows
		return changes.Warnings, nil
	})
	pricesErr := s.read(f.prices, func(name string, r io.Reader) ([]string, error) {
		changes, err := t.ReadPrices(name, r)
		if err != nil {
			return nil, err
		}
		rows.Prices = changes.Rows
		if changes.Invented > 0 {
			s.note("%s prices %d packs; %d more keep an invented demo price", name, changes.Priced, changes.Invented)
		}
		return changes.Warnings, nil
	})
	capsErr := s.readRows(f.caps, &rows.Caps, t.ReadKindCaps)
	if f.sizes != "" {
		t.Sell(f.sizes)
	}
	return t, rows, table.Join(foodsErr, pricesErr, capsErr)
}

// read opens file, unless it is "", passes it to take, and prints the warnings
// that take returns.
func (s *session) read(file string, take func(name string, r io.Reader) ([]string, error)) error {
	if file == "" {
		return nil
	}
	in, name, err := s.open(file)
	if err != nil {
		return err
	}
	defer in.Close()
	warnings, err := take(name, in)
	s.warn(warnings)
	return err
}

// readRows is read for a CSV file whose rows a plan carries: they are put into rows where
// take finds no fault.
func (s *session) readRows(file string, rows *[][]string, take func(name string, r io.Reader) ([]string, error)) error {
	return s.read(file, func(name string, r io.Reader) ([]string, error) {
		content, err := io.ReadAll(io.LimitReader(r, table.MaxBytes+1))
		if err != nil {
			return nil, err
		}
		warnings, err := take(name, bytes.NewReader(content))
		if err != nil {
			return nil, err
		}
		*rows, err = csv.NewReader(bytes.NewReader(bytes.TrimPrefix(content, []byte("\ufeff")))).ReadAll()
		return warnings, err
	})
}

// weights reads the weights of the second aim, and returns the rows of their file;
// without one both are nil.
func (s *session) weights(file string) (w ration.Weights, rows [][]string, err error) {
	err = s.readRows(file, &rows, func(name string, r io.Reader) (warnings []string, err error) {
		w, warnings, err = ration.ReadWeights(name, r)
		return warnings, err
	})
	return w, rows, err
}

// stockOf reads --stock as it is on day, an ISO date; without it the stock is empty.
func (f *sources) stockOf(s *session, t *foods.Table, day string) (*foods.Stock, error) {
	stock := &foods.Stock{}
	err := s.read(f.stock, func(name string, r io.Reader) ([]string, error) {
		read, err := t.ReadStockOn(day, name, r)
		if err != nil {
			return nil, err
		}
		stock = read
		for _, line := range read.Taken {
			s.note("%s", line)
		}
		return read.Warnings, nil
	})
	return stock, err
}

// foodNames points at every food name of the household file that means nothing
// to the food table or could mean several things, and says what a word is taken
// to mean that has other meanings. The reader of the file cannot: it knows no foods.
func (s *session) foodNames(h *household, t *foods.Table) error {
	return register.Words(h.name, h.content, t, func(person, said string) { s.note("%s: %s", person, said) })
}

// meant says what names are taken to mean that could have been meant otherwise;
// the error is about those that mean nothing or must be asked.
func (s *session) meant(t *foods.Table, names ...string) error {
	var errs []error
	for _, name := range names {
		m, err := t.Resolve(name)
		if what, fix, ok := foods.NameFault(err); ok { // worded as that of a cell is
			err = errors.New(what + "; " + fix)
		}
		if errs = append(errs, err); err == nil && m.Said() != "" {
			s.note("%s", m.Said())
		}
	}
	return errors.Join(errs...)
}

// openModel opens a model file; - is standard input. Unlike CSV files, models
// may be large: their reader has its own limit.
func (s *session) openModel(file string) (io.ReadCloser, string, error) {
	return s.openBy(file, func(string) (*os.File, error) {
		f, err := os.Open(file)
		if err != nil {
			return nil, fmt.Errorf("%s: %w; check the name and who may read it", file, errors.Unwrap(err))
		}
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return nil, errors.Join(fmt.Errorf("%s: is a directory; give the MPS file inside it", file), f.Close())
		}
		return f, nil
	})
}

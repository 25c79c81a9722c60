package web

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
	"rationwright/solver/ration"
)

// entered is all that the user has said, as it was said: a record that rebuilds a
// request, whose cells may still be wrong.
type entered struct {
	ration.RequestRecord
	Kept      []string   `json:"kept,omitempty"`       // foods whose packs stay as they are in a swap
	ShelfRows [][]string `json:"shelf_rows,omitempty"` // the shelves as they were written
}

// Columns of the three tables.
var (
	personColumns = nutrients.HouseholdRows(nil)[0]
	stockColumns  = []string{"pack", "count", "best_before", "place", "opened", "food", "grams"}
	priceColumns  = []string{"pack", "price", "currency"}
)

// gladSlack is the part of the best found that a plan may cost more so that people eat
// it gladly, as that of the command line is.
const gladSlack = 0.03

// blankPeople is how many people there is room for on the first form.
const blankPeople = 4

// fresh is what stands before anything is said: a form to fill in, and the defaults
// of the command line.
func fresh(today string) entered {
	rec := ration.Record(ration.Filled(&ration.Request{Start: today, Slack: gladSlack}))
	rec.Demo.Prices = true
	rec.Household = withSpare([][]string{personColumns}, personColumns, blankPeople)
	return entered{RequestRecord: *rec}
}

// filled is the household without rows in which nothing is written.
func (e *entered) filled() [][]string {
	return withoutBlank(e.Household)
}

// names are the names of the household.
func (e *entered) names() []string {
	var names []string
	for _, row := range e.filled()[1:] {
		if name := cell(row, personColumns, "name"); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// errNobody asks for a household.
var errNobody = errors.New("nobody is entered yet: write a name, an age and a sex")

// request reads all that was entered. Every fault is in the error, in the words of
// the form.
func (e *entered) request() (*ration.Request, error) {
	rec := e.RequestRecord
	if rec.Household = e.filled(); len(rec.Household) < 2 {
		return nil, errNobody
	}
	rec.Demo.Prices = len(rec.Prices) == 0
	req, err := rec.Load()
	if err != nil {
		return nil, worded{err, rec.Household}
	}
	var faults []error
	for i := range req.People {
		p := &req.People[i]
		names := slices.Clone(p.Dislikes)
		for _, rule := range p.Rules {
			if rule.Food != "" {
				names = append(names, rule.Food)
			}
		}
		for _, name := range names {
			if _, err := req.Table.Resolve(name); err != nil {
				faults = append(faults, fmt.Errorf("%s: %w", p.Name, plainName(err)))
			}
		}
	}
	for _, name := range rec.Without {
		if _, err := req.Table.Resolve(name); err != nil {
			faults = append(faults, plainName(err))
		}
	}
	return req, errors.Join(faults...)
}

// plainName words the fault of a name of food.
func plainName(err error) error {
	if what, fix, ok := foods.NameFault(err); ok {
		return errors.New(what + "; " + fix)
	}
	return err
}

// worded is a fault of a record, said of the people whose cells are wrong.
type worded struct {
	error
	household [][]string
}

func (w worded) Unwrap() error { return w.error }

// problemsOf is what is wrong, a line each.
func problemsOf(err error) []string {
	if err == nil {
		return nil
	}
	var w worded
	located := (*table.Errors)(nil)
	if errors.As(err, &w) && errors.As(w.error, &located) {
		var lines []string
		for _, fault := range located.List {
			who := ""
			if fault.File == "plan: household" && fault.Line > 1 && fault.Line <= len(w.household) {
				who = fmt.Sprintf("Person %d", fault.Line-1)
				if name := w.household[fault.Line-1][0]; name != "" {
					who = name
				}
				who += ": "
			}
			text := fault.Err.Error()
			switch {
			case fault.Field == "":
			case fault.Value == "":
				text = strings.ReplaceAll(fault.Field, "_", " ") + ": " + text
			default:
				text = fmt.Sprintf("%s %q: %s", strings.ReplaceAll(fault.Field, "_", " "), fault.Value, text)
			}
			lines = append(lines, sheet.Sentence(who+text+sheet.Around("; ", fault.Fix, "")))
		}
		return lines
	}
	var lines []string
	for line := range strings.SplitSeq(err.Error(), "\n") {
		lines = append(lines, sheet.Sentence(line))
	}
	return lines
}

// meanings says what the words for food are taken to mean that could be meant
// otherwise.
func meanings(t *foods.Table, names []string) []string {
	var lines []string
	for _, name := range names {
		if m, err := t.Resolve(name); err == nil {
			if said := m.Said(); said != "" {
				lines = append(lines, said)
			}
		}
	}
	return lines
}

// foodWords are the words for food that the forms suggest: kinds, then foods.
func foodWords(t *foods.Table) []string {
	var words []string
	for _, k := range t.Kinds().Kinds {
		words = append(words, k.Name)
	}
	slices.Sort(words)
	return words
}

// cell is the value of a column of a row.
func cell(row, columns []string, name string) string {
	if i := slices.Index(columns, name); i >= 0 && i < len(row) {
		return row[i]
	}
	return ""
}

// fitted returns rows with exactly these columns, header first; columns that rows do
// not have are empty.
func fitted(rows [][]string, columns []string) [][]string {
	out := [][]string{columns}
	if len(rows) == 0 {
		return out
	}
	for _, row := range rows[1:] {
		fit := make([]string, len(columns))
		for i, name := range columns {
			fit[i] = cell(row, rows[0], name)
		}
		out = append(out, fit)
	}
	return out
}

// withSpare adds so many empty rows to fill in.
func withSpare(rows [][]string, columns []string, spare int) [][]string {
	for range spare {
		rows = append(rows, make([]string, len(columns)))
	}
	return rows
}

// listOf splits a cell at semicolons.
func listOf(text string) []string {
	var list []string
	for part := range strings.SplitSeq(text, ";") {
		if part = strings.TrimSpace(part); part != "" {
			list = append(list, part)
		}
	}
	return list
}

// limit reads a limit that may be empty.
func limit(text, what string) (*float64, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, nil
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
	if err != nil || !(v > 0 && v < 1e9) {
		return nil, fmt.Errorf("%s %q: not a number above 0; write it as 150 or 99.50, or leave it empty", what, text)
	}
	return &v, nil
}

// writeRows writes rows as CSV that a spreadsheet cannot run.
func writeRows(w io.Writer, rows [][]string) error {
	safe := make([][]string, len(rows))
	for i, row := range rows {
		for _, c := range row {
			safe[i] = append(safe[i], facts.Cell(c))
		}
	}
	return csv.NewWriter(w).WriteAll(safe)
}

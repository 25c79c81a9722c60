package table_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients/table"
)

// cell reads a file of one cell and returns its row and table.
func cell(t *testing.T, text string) (*table.Row, *table.Table) {
	t.Helper()
	read, err := table.Read("f.csv", strings.NewReader("x,y\n\""+strings.ReplaceAll(text, `"`, `""`)+"\",z\n"), []table.Column{{Name: "x"}, {Name: "absent"}})
	if err != nil {
		t.Fatal(err)
	}
	return read.Rows[0], read
}

func TestFloat(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		ok   bool
		why  string // part of the message when it is refused
	}{
		{"12.5", 12.5, true, ""},
		{" 12.5 ", 12.5, true, ""},
		{"0", 0, true, ""},
		{".5", 0.5, true, ""},
		{"5.", 5, true, ""},
		{"+5", 5, true, ""},
		{"1E-05", 1e-5, true, ""}, // as spreadsheets write small numbers
		{"-0", 0, true, ""},
		{"", 0, false, ""},
		{"1,5", 0, false, "decimal comma; write 1.5"},
		{"1 000", 0, false, "grouped"},
		{"1,000.5", 0, false, "grouped"},
		{"1.000,5", 0, false, "grouped"},
		{"5 g", 0, false, `"g" follows it; write 5 alone`},
		{"5g", 0, false, `"g" follows it; write 5 alone`},
		{"5%", 0, false, `"%" follows it; write 5 alone`},
		{"NaN", 0, false, "not a number"},
		{"nan", 0, false, "not a number"},
		{"inf", 0, false, "not a number"},
		{"-Infinity", 0, false, "not a number"},
		{"0x1p-2", 0, false, "not a number"},
		{"0x10", 0, false, "not a number"},
		{"1_000", 0, false, "not a number"},
		{"1e999", 0, false, "not a number"},
		{"1e9999", 0, false, "not a number"},
		{"--5", 0, false, "not a number"},
		{"５", 0, false, "not a number"}, // full-width digit
		{"-3", 0, false, "negative; write a number from 0 to 100"},
		{"101", 0, false, "out of range; write a number from 0 to 100"},
		{"100", 100, true, ""},
		{"99.99", 99.99, true, ""},
		{"100.01", 0, false, "out of range; write a number from 0 to 100"},
		{"-0.01", 0, false, "negative; write a number from 0 to 100"},
	} {
		row, read := cell(t, c.text)
		got, ok := row.Float("x", 0, 100)
		if ok != c.ok || got != c.want || math.Signbit(got) {
			t.Errorf("Float(%q) = %g, %v; want %g, %v", c.text, got, ok, c.want, c.ok)
		}
		switch err := read.Err(); {
		case (c.ok || c.text == "") && err != nil:
			t.Errorf("Float(%q): %v", c.text, err)
		case c.why != "" && (err == nil || !strings.Contains(err.Error(), c.why)):
			t.Errorf("Float(%q): error %v does not say %q", c.text, err, c.why)
		}
	}
}

// A number may be the least and the most of the column, and not beyond, also where the
// least is not none.
func TestBothEndsOfARange(t *testing.T) {
	for _, c := range []struct {
		text string
		ok   bool
	}{
		{"12", true}, {"12.0", true}, {"10", true}, {"11", true}, {"9", false}, {"13", false}, {"-12", false}, {"0", false},
	} {
		row, read := cell(t, c.text)
		if _, ok := row.Float("x", 10, 12); ok != c.ok || (read.Err() == nil) != c.ok {
			t.Errorf("Float(%q) from 10 to 12: %v, %v; want %v", c.text, ok, read.Err(), c.ok)
		}
		row, read = cell(t, c.text)
		if _, ok := row.Int("x", 10, 12); ok != c.ok || (read.Err() == nil) != c.ok {
			t.Errorf("Int(%q) from 10 to 12: %v, %v; want %v", c.text, ok, read.Err(), c.ok)
		}
	}
}

func TestInt(t *testing.T) {
	for _, c := range []struct {
		text string
		want int
		ok   bool
	}{
		{"3", 3, true}, {"3.0", 3, true}, {"1e1", 10, true}, {"", 0, false}, {"3.5", 0, false}, {"11", 0, false}, {"10", 10, true}, {"9", 9, true}, {"0", 0, true},
		{"-1", 0, false}, {"x", 0, false}, {"99999999999999999999", 0, false},
	} {
		row, read := cell(t, c.text)
		got, ok := row.Int("x", 0, 10)
		if got != c.want || ok != c.ok || (read.Err() == nil) != (c.ok || c.text == "") {
			t.Errorf("Int(%q) = %d, %v, error %v; want %d, %v", c.text, got, ok, read.Err(), c.want, c.ok)
		}
	}
}

func TestDate(t *testing.T) {
	row, read := cell(t, "2028-02-29")
	day, ok := row.Date("x")
	if !ok || !day.Equal(time.Date(2028, 2, 29, 0, 0, 0, 0, time.UTC)) || read.Err() != nil {
		t.Errorf("Date = %v, %v, %v", day, ok, read.Err())
	}
	for _, bad := range []string{"2027-02-29", "29.2.2028", "2028-2-29", "tomorrow"} {
		row, read := cell(t, bad)
		if _, ok := row.Date("x"); ok || !errors.Is(read.Err(), table.ErrDate) {
			t.Errorf("Date(%q): %v, error %v; want ErrDate", bad, ok, read.Err())
		}
	}
	for text, inside := range map[string]bool{"0000-01-01": false, "1979-12-31": false, "1980-01-01": true, "2100-12-31": true, "2101-01-01": false, "9999-12-31": false} {
		row, read := cell(t, text)
		if _, ok := row.Date("x"); ok != inside || errors.Is(read.Err(), table.ErrRange) == inside {
			t.Errorf("Date(%q): %v, error %v; want %v", text, ok, read.Err(), inside)
		}
	}
}

func TestListAndChoices(t *testing.T) {
	row, read := cell(t, " milk;; Wheat ; milk; whaet;zzzz ")
	if got := fmt.Sprintf("%q", row.List("x")); got != `["milk" "Wheat" "milk" "whaet" "zzzz"]` {
		t.Errorf("List = %s", got)
	}
	if got := fmt.Sprintf("%q", row.Choices("x", "milk", "wheat", "egg")); got != `["milk" "wheat"]` {
		t.Errorf("Choices = %s", got)
	}
	want := strings.Join([]string{
		`f.csv:2:1: x "milk": written twice; leave one`,
		`f.csv:2:1: x "whaet": unknown word; did you mean "wheat"?`,
		`f.csv:2:1: x "zzzz": unknown word; write one of: milk wheat egg`,
	}, "\n")
	if err := read.Err(); err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestChoice(t *testing.T) {
	row, read := cell(t, "Active")
	if got := row.Choice("x", "inactive", "active"); got != "active" || read.Err() != nil {
		t.Errorf("Choice = %q, %v", got, read.Err())
	}
	row, read = cell(t, "")
	if got := row.Choice("x", "a"); got != "" || read.Err() != nil {
		t.Errorf("Choice of an empty cell = %q, %v", got, read.Err())
	}
}

// A column that the file does not have reads as empty cells; one that the
// format does not have is the caller's bug.
func TestAbsentColumn(t *testing.T) {
	row, read := cell(t, "1")
	if row.Has("absent") || row.Text("absent") != "" || row.List("absent") != nil {
		t.Error("an absent column is not empty")
	}
	row.Fail("absent", table.ErrEmpty, "write it")
	if got, want := read.Err().Error(), `f.csv:2:1: absent "": empty; write it`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic for a column outside the format")
		}
	}()
	row.Text("nowhere")
}

func TestErrorKeepsItsParts(t *testing.T) {
	row, read := cell(t, "x1")
	row.Float("x", 0, 1)
	var fault *table.Error
	if !errors.As(read.Err(), &fault) {
		t.Fatal("no *table.Error inside")
	}
	if fault.File != "f.csv" || fault.Line != 2 || fault.Column != 1 || fault.Field != "x" || fault.Value != "x1" || !errors.Is(fault, table.ErrNumber) {
		t.Errorf("%+v", fault)
	}
}

// The faults of a row stand from left to right, whenever they were found.
func TestFaultsOfARowAreSorted(t *testing.T) {
	read, err := table.Read("f.csv", strings.NewReader("x,y,z\n1,2,3\n4,5,6\n"), table.Filled.Columns("x y z"))
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range []int{1, 0} {
		for _, field := range []string{"z", "x", "y"} {
			read.Rows[i].Fail(field, table.ErrRange, "")
		}
	}
	want := "f.csv:2:1: x \"1\": out of range\nf.csv:2:3: y \"2\": out of range\nf.csv:2:5: z \"3\": out of range\n" +
		"f.csv:3:1: x \"4\": out of range\nf.csv:3:3: y \"5\": out of range\nf.csv:3:5: z \"6\": out of range"
	if got := read.Err().Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// An empty cell leaves what is there, and so does one that is wrong, which is recorded.
func TestSetLeavesWhatIsNotSaid(t *testing.T) {
	for _, c := range []struct {
		text   string
		number float64
		said   string
		yes    bool
		faults int
	}{{"12", 12, "12", false, 1}, {"", 7, "before", false, 0}, {"x", 7, "x", false, 2}, {"101", 7, "101", false, 2}, {"yes", 7, "yes", true, 1}, {"No", 7, "No", false, 1}, {"YES", 7, "YES", true, 1}} {
		row, read := cell(t, c.text)
		number, said := 7.0, "before"
		row.SetFloat("x", 0, 100, &number)
		row.SetText("x", &said)
		yes := row.Yes("x")
		var faults *table.Errors
		if number != c.number || said != c.said || yes != c.yes || errors.As(read.Err(), &faults) != (c.faults > 0) || faults != nil && len(faults.List) != c.faults {
			t.Errorf("%q: %g, %q, yes %v, %v; want %+v", c.text, number, said, yes, read.Err(), c)
		}
	}
	row, _ := cell(t, "1")
	if file, line, column := row.Position("x"); file != "f.csv" || line != 2 || column != 1 {
		t.Errorf("the cell is at %s:%d:%d, want f.csv:2:1", file, line, column)
	}
	if file, line, column := row.Position("absent"); file != "f.csv" || line != 2 || column != 1 {
		t.Errorf("a cell of a column that is not there is at %s:%d:%d, want the row's start", file, line, column)
	}
}

func TestLongValueIsShortened(t *testing.T) {
	row, read := cell(t, strings.Repeat("é", 500))
	row.Float("x", 0, 1)
	if got := read.Err().Error(); len(got) > 200 || !strings.Contains(got, "…") {
		t.Errorf("%d bytes: %s", len(got), got)
	}
	// Of 60 bytes all is repeated, of more 60 at most, to the end of a letter.
	for text, want := range map[string]string{
		strings.Repeat("x", 60): strings.Repeat("x", 60), strings.Repeat("x", 61): strings.Repeat("x", 60) + "…",
		strings.Repeat("é", 31): strings.Repeat("é", 30) + "…", "x" + strings.Repeat("é", 31): "x" + strings.Repeat("é", 29) + "…",
	} {
		row, read := cell(t, text)
		row.Float("x", 0, 1)
		if got := read.Err().Error(); !strings.Contains(got, `x "`+want+`": `) {
			t.Errorf("%s: want %q in it", got, want)
		}
	}
}

func TestJoin(t *testing.T) {
	_, a := table.Read("b.csv", strings.NewReader(""), nil)
	plain := errors.New("plain")
	err := table.Join(a, nil, plain, &table.Error{File: "a.csv", Line: 3, Column: 1, Err: table.ErrEmpty})
	want := ": plain\na.csv:3:1: empty\nb.csv:1:1: empty file; write a header line: "
	if err.Error() != want || !errors.Is(err, plain) {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
	if table.Join(nil, nil) != nil {
		t.Error("Join of nothing is not nil")
	}
}

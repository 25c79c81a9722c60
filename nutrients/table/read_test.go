package table_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

// pantry is the format of most tests here.
var pantry = table.Format{
	Row: "food",
	Columns: []table.Column{
		{Name: "food", Presence: table.Filled},
		{Name: "kcal", Presence: table.Present},
		{Name: "note"},
	},
}

// readAll reads text as pantry.csv, its numbers too, and returns what a user
// would see.
func readAll(text string) (t *table.Table, err error) {
	t, err = pantry.Read("pantry.csv", strings.NewReader(text))
	if t == nil {
		return nil, err
	}
	for _, row := range t.Rows {
		row.Float("kcal", 0, 900)
	}
	return t, t.Err()
}

// Every way in which a file can be wrong as a whole, with the message that a
// user reads: position, what is wrong, what to do.
func TestFaultsOfAFile(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
		is               error
	}{
		{"empty", "", `pantry.csv:1:1: empty file; write a header line: food,kcal`, nil},
		{"byte order mark alone", "\ufeff", `pantry.csv:1:1: empty file; write a header line: food,kcal`, nil},
		{"header only", "food,kcal\n", `pantry.csv:1:1: no rows below the header; add a line for each food`, table.ErrNoRows},
		{"header and blank rows", "food,kcal\n,\n\n , \n", `pantry.csv:1:1: no rows below the header; add a line for each food`, table.ErrNoRows},
		{"semicolons", "food;kcal\nrice;360\n", `pantry.csv:1:5: cells are not separated by commas but by semicolons; save the table with commas, and with decimal points`, table.ErrSeparator},
		{"semicolons and decimal commas", "food;kcal;note\nrice;360,5;x\n", `pantry.csv:1:5: cells are not separated by commas but by semicolons; save the table with commas, and with decimal points`, table.ErrSeparator},
		{"tabs", "food\tkcal\nrice\t360\n", `pantry.csv:1:5: cells are not separated by commas but by tabs; save the table with commas, and with decimal points`, table.ErrSeparator},
		{"UTF-16", "\xff\xfef\x00o\x00", `pantry.csv: not a UTF-8 text file: it is UTF-16; save it as "CSV UTF-8"`, table.ErrEncoding},
		{"UTF-16 without mark", "f\x00o\x00o\x00d\x00", `pantry.csv:1:2: not a UTF-8 text file: it holds a NUL byte (UTF-16, or no text at all); save it as "CSV UTF-8"`, table.ErrEncoding},
		{"NUL byte", "food,kcal\nri\x00ce,360\n", `pantry.csv:2:3: not a UTF-8 text file: it holds a NUL byte (UTF-16, or no text at all); save it as "CSV UTF-8"`, table.ErrEncoding},
		{"Latin-1", "food,kcal\npur\xe9e,80\n", `pantry.csv:2:4: not a UTF-8 text file: byte 0xe9 is not UTF-8 (perhaps Latin-1 or Windows-1252); save it as "CSV UTF-8"`, table.ErrEncoding},
		{"Latin-1 at once", "\xe9tude,kcal\n", `pantry.csv:1:1: not a UTF-8 text file: byte 0xe9 is not UTF-8 (perhaps Latin-1 or Windows-1252); save it as "CSV UTF-8"`, table.ErrEncoding},
		{"NUL byte at once", "\x00food,kcal\n", `pantry.csv:1:1: not a UTF-8 text file: it holds a NUL byte (UTF-16, or no text at all); save it as "CSV UTF-8"`, table.ErrEncoding},
		{"old spreadsheet", "\xd0\xcf\x11\xe0rest", `pantry.csv: not a UTF-8 text file: it is a spreadsheet or an archive; save it as "CSV UTF-8"`, table.ErrEncoding},
		{"UTF-16, the other way", "\xfe\xff\x00f", `pantry.csv: not a UTF-8 text file: it is UTF-16; save it as "CSV UTF-8"`, table.ErrEncoding},
		{"bars", "food|kcal\nrice|360\n", `pantry.csv:1:5: cells are not separated by commas but by bars; save the table with commas, and with decimal points`, table.ErrSeparator},
		{"spreadsheet", "PK\x03\x04rest", `pantry.csv: not a UTF-8 text file: it is a spreadsheet or an archive; save it as "CSV UTF-8"`, table.ErrEncoding},
		{"carriage returns", "food,kcal\rrice,360\r", `pantry.csv: lines end in carriage returns alone; save it with line feeds (LF or CRLF)`, nil},
		{"missing columns", "note,food\nx,rice\n", `pantry.csv:1:1: missing column "kcal"; the header needs: food,kcal`, table.ErrColumn},
		{"column twice", "food,kcal,Food\nrice,360,oats\n", `pantry.csv:1:11: column "food" is there twice; leave one`, nil},
		{"long row", "food,kcal\nrice,360,5\n", `pantry.csv:2:1: wrong number of cells: 3 where the header has 2; put a cell that holds a comma in quotes: "a, b"; if 360,5 is one number, write it with a decimal point`, table.ErrRagged},
		{"short row", "food,kcal,note\nrice,360\n", `pantry.csv:2:1: wrong number of cells: 2 where the header has 3; write a comma for each empty cell`, table.ErrRagged},
		{"unclosed quote", "food,kcal\n\"rice,360\noats,380\n", `pantry.csv:2:1: misplaced quote: a cell that begins in this row is never closed; close it with ", and write a quote inside a quoted cell twice`, table.ErrQuote},
		{"bare quote", "food,kcal\nri\"ce,360\n", `pantry.csv:2:3: misplaced quote; put the whole cell in quotes, and write a quote inside it twice: "a ""b"" c"`, table.ErrQuote},
		{"bare quote in the next line of a row", "food,kcal\n\"pea\nsoup\",3\"60\n", `pantry.csv:3:8: misplaced quote; put the whole cell in quotes, and write a quote inside it twice: "a ""b"" c"`, table.ErrQuote},
		{"quote inside quotes", "food,kcal\n\"ri\"ce,360\n", `pantry.csv:2:4: misplaced quote; put the whole cell in quotes, and write a quote inside it twice: "a ""b"" c"`, table.ErrQuote},
		{"empty cell", "food,kcal\n,360\n", `pantry.csv:2:1: food "": empty; every food needs it`, table.ErrEmpty},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := readAll(c.text)
			if err == nil || err.Error() != c.want {
				t.Fatalf("got\n%v\nwant\n%s", err, c.want)
			}
			if c.is != nil && !errors.Is(err, c.is) {
				t.Errorf("errors.Is(err, %v) is false", c.is)
			}
		})
	}
}

// What spreadsheets and editors write is read without complaint.
func TestAccepted(t *testing.T) {
	for name, text := range map[string]string{
		"plain":               "food,kcal\nrice,360\n",
		"no last line end":    "food,kcal\nrice,360",
		"CRLF":                "food,kcal\r\nrice,360\r\n",
		"byte order mark":     "\ufefffood,kcal\r\nrice,360\r\n",
		"column order":        "kcal,food\n360,rice\n",
		"capitals and spaces": " Food , KCAL \n rice , 360 \n",
		"blank lines":         "food,kcal\n\n\nrice,360\n\n",
		"rows of commas":      "food,kcal\n,\nrice,360\n,\n",
		"empty last column":   "food,kcal,\nrice,360,\n",
		"a last return":       "food,kcal\nrice,360\r",
		"quotes":              "\"food\",\"kcal\"\n\"rice\",\"360\"\n",
	} {
		t.Run(name, func(t *testing.T) {
			table, err := readAll(text)
			if err != nil {
				t.Fatal(err)
			}
			if len(table.Rows) != 1 || len(table.Warnings) != 0 {
				t.Fatalf("%d rows, warnings %q; want one row and none", len(table.Rows), table.Warnings)
			}
			kcal, ok := table.Rows[0].Float("kcal", 0, 900)
			if food := table.Rows[0].Text("food"); food != "rice" || !ok || kcal != 360 {
				t.Errorf("food %q, kcal %g, %v; want rice, 360, true", food, kcal, ok)
			}
		})
	}
}

func TestUnknownColumnIsNamed(t *testing.T) {
	read, err := readAll("food,kcals,kcal,notes\nrice,1,360,dry\n")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`pantry.csv:1:6: column "kcals" is not known and is not read; did you mean "kcal"?`,
		`pantry.csv:1:17: column "notes" is not known and is not read; did you mean "note"?`,
	}
	if fmt.Sprint(read.Warnings) != fmt.Sprint(want) {
		t.Errorf("warnings\n%q\nwant\n%q", read.Warnings, want)
	}
}

// Where no column must be there, a file without a header is told of all; a semicolon in the header of
// a table whose cells commas part is a part of a name.
func TestHeaderOfOptionalColumns(t *testing.T) {
	_, err := table.Read("f.csv", strings.NewReader(""), table.Optional.Columns(" x  y "))
	if want := "f.csv:1:1: empty file; write a header line: x,y"; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
	read, err := readAll("food,kcal,a;b\nrice,360,1;2\n")
	if err != nil || len(read.Rows) != 1 || len(read.Warnings) != 1 || !strings.HasPrefix(read.Warnings[0], `pantry.csv:1:11: column "a;b" is not known`) {
		t.Errorf("%+v, %v", read, err)
	}
}

func TestAllowEmpty(t *testing.T) {
	format := pantry
	format.AllowEmpty = true
	if _, err := format.Read("pantry.csv", strings.NewReader("food,kcal\n")); err != nil {
		t.Error(err)
	}
}

// Every bad cell of a file is found in one run, in the order of the file, and
// positions stay right after a line break inside a quoted cell.
func TestAllFaultsInOneRun(t *testing.T) {
	_, err := readAll("food,kcal,note\n\"pea\nsoup\",x,\n,12,\nrice,\"1,5\",\noats,-3,a,b\nmilk,9999,\n")
	want := strings.Join([]string{
		`pantry.csv:3:7: kcal "x": not a number; write digits and a decimal point, such as 12.5`,
		`pantry.csv:4:1: food "": empty; every food needs it`,
		`pantry.csv:5:6: kcal "1,5": not a number: it has a decimal comma; write 1.5`,
		`pantry.csv:6:1: wrong number of cells: 4 where the header has 3; put a cell that holds a comma in quotes: "a, b"`,
		`pantry.csv:7:6: kcal "9999": out of range; write a number from 0 to 900`,
	}, "\n")
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestManyFaultsAreCapped(t *testing.T) {
	_, err := readAll("food,kcal\n" + strings.Repeat("rice,x\n", 12_345))
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 101 || lines[100] != "and 12245 more" {
		t.Errorf("%d lines, the last %q; want 101 lines, the last %q", len(lines), lines[len(lines)-1], "and 12245 more")
	}
	// 10,000 are kept of each file and the rest counted: 20,000 and 2,345 twice, less the 100 printed.
	lines = strings.Split(table.Join(err, err).Error(), "\n")
	if len(lines) != 101 || lines[100] != "and 24590 more" {
		t.Errorf("of two files %d lines, the last %q", len(lines), lines[len(lines)-1])
	}
	for rows, more := range map[int]int{9_999: 0, 10_000: 0, 10_001: 1} {
		_, err := readAll("food,kcal\n" + strings.Repeat("rice,x\n", rows))
		var faults *table.Errors
		if !errors.As(err, &faults) || len(faults.List) != rows-more || faults.More != more {
			t.Errorf("%d faults: %d kept and %d more", rows, len(faults.List), faults.More)
		}
	}
	for rows, last := range map[int]string{100: `pantry.csv:101:6: kcal "x": not a number; write digits and a decimal point, such as 12.5`, 101: "and 1 more"} {
		_, err := readAll("food,kcal\n" + strings.Repeat("rice,x\n", rows))
		if lines := strings.Split(err.Error(), "\n"); lines[len(lines)-1] != last || len(lines) != rows {
			t.Errorf("%d faults: %d lines, the last %q", rows, len(lines), lines[len(lines)-1])
		}
	}
}

// endless is a file that never ends; it counts what was read of it.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	e.read += len(p)
	return len(p), nil
}

// A file of 64 MiB is read: a row, and blank lines to the end.
func TestLargestFile(t *testing.T) {
	blank := strings.Repeat(" ", table.MaxLine-1) + "\n"
	text := "food,kcal\nrice,360\n" + strings.Repeat(blank, table.MaxBytes/table.MaxLine-1)
	text += strings.Repeat(" ", table.MaxBytes-len(text))
	if read, err := readAll(text); err != nil || len(read.Rows) != 1 {
		t.Errorf("%d bytes: %v", len(text), err)
	}
	if _, err := readAll(text + " "); !errors.Is(err, table.ErrTooLarge) {
		t.Errorf("a byte more: %v", err)
	}
}

func TestHugeFileIsRefusedAtTheLimit(t *testing.T) {
	var file endless
	_, err := pantry.Read("pantry.csv", &file)
	if !errors.Is(err, table.ErrTooLarge) {
		t.Fatalf("error %v, want ErrTooLarge", err)
	}
	if file.read > table.MaxBytes+1 {
		t.Errorf("read %d bytes, want at most %d", file.read, table.MaxBytes+1)
	}
}

func TestReadErrorIsKept(t *testing.T) {
	_, err := pantry.Read("pantry.csv", io.MultiReader(strings.NewReader("food"), failing{}))
	if !errors.Is(err, errBroken) {
		t.Errorf("error %v does not wrap %v", err, errBroken)
	}
}

var errBroken = errors.New("the disk is broken")

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errBroken }

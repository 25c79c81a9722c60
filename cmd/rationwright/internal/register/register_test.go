package register

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"rationwright/foods"
	"rationwright/nutrients/table"
)

// read reads a whole register; of each household it says its id and its people's
// names, or what is wrong.
func read(t *testing.T, text string) (said []string, err error) {
	t.Helper()
	larder, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	r, err := NewReader("r.csv", strings.NewReader(text))
	if err != nil {
		return nil, err
	}
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return said, nil
		}
		if err != nil {
			return said, err
		}
		people, warnings, err := h.People(larder)
		line := h.ID + ":"
		for _, p := range people {
			line += fmt.Sprintf(" %s %d", p.Name, p.AgeMonths/12)
		}
		if err != nil {
			line += " " + err.Error()
		}
		said = append(said, line+strings.Join(warnings, ""))
	}
}

func TestRegister(t *testing.T) {
	const two = "household,name,age_years,sex\nA,Ola,34,m\nA,Kari,33,f\nB,Per,70,m\n"
	plain := []string{"A: Ola 34 Kari 33", "B: Per 70"}
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"plain", two, plain},
		{"no end of line", strings.TrimSuffix(two, "\n"), plain},
		{"CRLF", strings.ReplaceAll(two, "\n", "\r\n"), plain},
		{"byte order mark", "\xef\xbb\xbf" + two, plain},
		{"byte order mark before objects", "\xef\xbb\xbf" + `{"id":"A","household":[["name","age_years","sex"],["Ola","34","m"],["Kari","33","f"]]}` + "\n" +
			`{"id":"B","household":[["name","age_years","sex"],["Per","70","m"]]}`, plain},
		{"other order", "name,household,age_years,sex\nOla,A,34,m\nKari,A,33,f\nPer,B,70,m\n", plain},
		{"a longer column before", "household_note,\"household\",name,age_years,sex\nx,A,Ola,34,m\n,A,Kari,33,f\n,B,Per,70,m\n", plain},
		{"empty lines", "household,name,age_years,sex\n\nA,Ola,34,m\n,,,\n\nA,Kari,33,f\n\nB,Per,70,m\n\n", plain},
		{"line break in a cell", "household,name,age_years,sex,note\nA,Ola,34,m,\"one\ntwo\"\nA,Kari,33,f,\nB,Per,70,m,\n", plain},
		{"as many bytes of empty lines as a household may have", "household,name,age_years,sex\nA,Ola,34,m\n" + strings.Repeat(strings.Repeat(" ", MaxBytes/2-1)+"\n", 2) + "A,Kari,x,f\nB,Per,70,m\n", []string{
			`A: r.csv:5:8: age_years "x": not a number; write a whole number in digits, such as 14`, plain[1],
		}},
		{"places", "household,name,age_years,sex\nA,Ola,34,m\n\nA,Kari,x,f\nB,Per,70,q\n", []string{
			`A: r.csv:4:8: age_years "x": not a number; write a whole number in digits, such as 14`,
			`B: r.csv:5:10: sex "q": unknown word; write one of: f m`,
		}},
		{"a row without its id", "household,name,age_years,sex\nA,Ola,34,m\n,Kari,33,f\nB,Per,70,m\n", []string{
			`A: r.csv:3:1: household "": empty; write the id of the household in every row`, plain[1],
		}},
		{"the first row without its id", "household,name,age_years,sex\n,Ola,34,m\nB,Per,70,m\n", []string{
			`: r.csv:2:1: household "": no id; write the id of the household in every row`, plain[1],
		}},
		{"a quote never closed", "household,name,age_years,sex\nA,\"Ola,34,m\nA,Kari,33,f\nB,Per,70,m\n", []string{
			"A: r.csv:2:1: misplaced quote: a cell that begins in this row is never closed; close it with \", and write a quote inside a quoted cell twice", plain[1],
		}},
		{"too few cells", "household,name,age_years,sex\nA,Ola\nB,Per,70,m\n", []string{
			"A: r.csv:2:1: wrong number of cells: 2 where the header has 4; write a comma for each empty cell", plain[1],
		}},
		{"a long line", "household,name,age_years,sex\nA,Ola,34,m\nA," + strings.Repeat("x", table.MaxLine) + ",34,m\nB,Per,70,m\n", []string{
			"A: r.csv:3:1: more than a table may hold: a line of more than 1048576 bytes; give a table that a person could have written", plain[1],
		}},
		{"a food that is none", "household,name,age_years,sex,dislikes\nA,Ola,34,m,nosuchfood\nB,Per,70,m,\n", []string{
			`A: r.csv:2:12: dislikes "nosuchfood": no food or kind is called "nosuchfood"; "rationwright foods list" has all names`, plain[1],
		}},
		{"not UTF-8", "household,name,age_years,sex\nA,\xc5se,34,f\nB,Per,70,m\n", []string{
			`A: r.csv:2:3: not a UTF-8 text file: byte 0xc5 is not UTF-8 (perhaps Latin-1 or Windows-1252); save it as "CSV UTF-8"`, plain[1],
		}},
		{"NDJSON of lists", `{"id":"A","household":[["name","age_years","sex"],["Ola",34,"m"],["Kari","33","f"]]}` + "\n" + `{"id":"B","household":[["name","age_years","sex"],["Per","70","m"]]}`, plain},
		{"NDJSON of objects", `{"id":"A","household":[{"name":"Ola","age_years":34,"sex":"m"},{"name":"Kari","age_years":33,"sex":"f","state":null}]}` + "\r\n\n" + `{"household":[{"name":"Per","age_years":70,"sex":"m"}],"id":"B"}` + "\n", plain},
		{"NDJSON with faults", `{"id":"A","household":[["name","age_years","sex"],["Ola",34,"q"]]}` + "\n{\n" + `{"id":"","household":[]}` + "\n" + `{"id":"C","household":[[true]]}` + "\n" + `{"id":"B","household":[["name","age_years","sex"],["Per","70","m"]]}`, []string{
			`A: household A:2:8: sex "q": unknown word; write one of: f m`,
			`: r.csv:2:2: no household in JSON: unexpected end of JSON input; write {"id":"…","household":[[header],[cells],…]} in one line`,
			`: r.csv:3:1: id "": no id; give it a short id of letters and digits`,
			`C: r.csv:4:1: id "C": row 1 of household, cell 1: neither a text nor a number; write {"id":"…","household":[[header],[cells],…]} in one line`,
			plain[1],
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := read(t, c.text)
			if err != nil {
				t.Fatal(err)
			}
			if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(c.want, "\n"))
			}
		})
	}
}

// TestObjectsThatAreNone: what is wrong with a household in an object is said of its row,
// person and column, all counted from 1; a brace alone begins a register of objects.
func TestObjectsThatAreNone(t *testing.T) {
	for household, want := range map[string]string{
		`[["name"],null]`:                      "row 2 of household is no list of cells",
		`[["name","sex"],["Ola",true]]`:        "row 2 of household, cell 2: neither a text nor a number",
		`[["name"],{"name":"Ola"}]`:            "row 2 of household is no list of cells",
		`[{"name":"Ola"},null]`:                "person 2 of household is no object",
		`[{"name":"Ola"},["Kari"]]`:            "person 2 of household is no object",
		`[{"name":"Ola"},{"name":"K","x":{}}]`: "person 2 of household, x: neither a text nor a number",
		`[]`:                                   "no rows in household",
	} {
		h := Parse([]byte(`{"id":"A","household":` + household + `}`))
		if h.fault == nil || !strings.Contains(h.fault.Error(), want) || h.ID != "A" || h.Line != 1 {
			t.Errorf("%s: %v in line %d, want %q", household, h.fault, h.Line, want)
		}
	}
	if h := Parse([]byte(`{"id":"A",,}`)); h.fault == nil || !strings.HasPrefix(h.fault.Error(), "line:1:11:") || h.Line != 1 { // the second comma is the 11th byte
		t.Errorf("%v in line %d", h.fault, h.Line)
	}
	said, err := read(t, "{\n"+`{"id":"B","household":[["name","age_years","sex"],["Per","70","m"]]}`)
	if err != nil || len(said) != 2 || !strings.Contains(said[0], "r.csv:1:") || said[1] != "B: Per 70" {
		t.Errorf("%q, %v", said, err)
	}
	said, err = read(t, `{"id":"A","household":["`+strings.Repeat("x", table.MaxLine)+`"]}`+"\n"+`{"id":"B","household":[["name","age_years","sex"],["Per","70","m"]]}`)
	if err != nil || len(said) != 2 || !strings.Contains(said[0], "r.csv:1:1: more than a table may hold: a line of more than") || said[1] != "B: Per 70" {
		t.Errorf("%.200q, %v", said, err)
	}
}

// TestHouseholdOfManyRows: so many rows under one id and not one more; those after it are
// read all the same. Fifty lines may be one row, and so may be the header.
func TestHouseholdOfManyRows(t *testing.T) {
	for rows, fits := range map[int]bool{MaxRows: true, MaxRows + 1: false, MaxRows + 7: false} {
		r, err := NewReader("r.csv", strings.NewReader("household,name,age_years,sex\n"+strings.Repeat("A,Ola,34,m\n", rows)+"B,Per,70,m\n"))
		if err != nil {
			t.Fatal(err)
		}
		a, err := r.Next()
		if err != nil || a.ID != "A" || (a.fault == nil) != fits || !fits && !errors.Is(a.fault, table.ErrTooMany) {
			t.Errorf("%d rows: %v, %v", rows, a.fault, err)
		}
		if b, err := r.Next(); err != nil || b.ID != "B" || b.Line != rows+2 || b.fault != nil {
			t.Errorf("behind %d rows: %+v, %v", rows, b, err)
		}
	}
	for breaks, fits := range map[int]bool{49: true, 50: true, 51: false} {
		said, err := read(t, "household,name,age_years,sex,note\nA,Ola,34,m,\""+strings.Repeat("\n", breaks)+"\"\nB,Per,70,m,\n")
		if err != nil || said[len(said)-1] != "B: Per 70" || (said[0] == "A: Ola 34") != fits {
			t.Errorf("a cell of %d line breaks: %q, %v", breaks, said, err)
		}
	}
	said, err := read(t, "\"note\nx\",household,name,age_years,sex\nx,A,Ola,34,m\n,B,Per,x,m\n")
	if want := []string{"A: Ola 34", `B: r.csv:4:8: age_years "x": not a number; write a whole number in digits, such as 14`}; err != nil || !slices.Equal(said, want) {
		t.Errorf("%q, %v, want %q", said, err, want)
	}
}

// TestReadingFails: where a file cannot be read on, its line is told; what was read before is
// not taken for all of it.
func TestReadingFails(t *testing.T) {
	broken := errors.New("the disk is gone")
	for text, want := range map[string]string{
		"": "r: cannot be read: the disk is gone",
		"household,name,age_years,sex\nA,Ola,34,m\nB,Per,70,m\n": "r:4:1: cannot be read: the disk is gone",
		"{}\n{}\n": "r:3:1: cannot be read: the disk is gone",
		"household,name,age_years,sex\nA,\"Ola,34,m\n": "r:3:1: cannot be read: the disk is gone",
	} {
		r, err := NewReader("r", io.MultiReader(strings.NewReader(text), iotest.ErrReader(broken)))
		for n := 0; err == nil && n < 9; n++ {
			_, err = r.Next()
		}
		if !errors.Is(err, broken) || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// What is no register is refused as a whole, with its place.
func TestNoRegister(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "r.csv:1:1: empty file; write a header line: name,sex"},
		{"household,name,age_years,sex\n", "r.csv:1:1: no rows below the header; add a line for each person of each household"},
		{"household,name,age_years,sex\n\n,,,\n", "r.csv:1:1: no rows below the header; add a line for each person of each household"},
		{"name,age_years,sex\nOla,34,m\n", `r.csv:1:1: missing column "household"; a register is household.csv with the id of the household in a column household`},
		{"household,name,age_years\nA,Ola,34\n", `r.csv:1:1: missing column "sex"; the header needs: name,sex`},
		{"household;name;age_years;sex\nA;Ola;34;m\n", "r.csv:1:10: cells are not separated by commas but by semicolons; save the table with commas, and with decimal points"},
		{"PK\x03\x04xyz", "r.csv: not a UTF-8 text file: it is a spreadsheet or an archive; save it as \"CSV UTF-8\""},
		{strings.Repeat("x", 2<<20), "r.csv:1:1048577: more than a table may hold: a line of more than 1048576 bytes; give a table that a person could have written"},
	} {
		if _, err := read(t, c.text); err == nil || err.Error() != c.want {
			t.Errorf("%.40q: %v, want %s", c.text, err, c.want)
		}
	}
}

// A column that is not known is said once, of the header; the id's is known.
func TestUnknownColumns(t *testing.T) {
	r, err := NewReader("r.csv", strings.NewReader("household,name,age_years,sex,village\nA,Ola,34,m,x\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0], `r.csv:1:30: column "village" is not known`) {
		t.Errorf("warnings %q", r.Warnings)
	}
	r, err = NewReader("r.csv", strings.NewReader("household_of,\"household\",name,age_years,sex\nx,A,Ola,34,m\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0], `r.csv:1:1: column "household_of" is not known`) {
		t.Errorf("warnings %q", r.Warnings)
	}
}

// However a register is cut off or spoiled, reading it ends, and every household that
// it hands on has people or a fault.
func FuzzRegister(f *testing.F) {
	f.Add("household,name,age_years,sex\nA,Ola,34,m\nA,Kari,33,f\nB,\"Per\n\",70,m\n")
	f.Add(`{"id":"A","household":[{"name":"Ola","age_years":34,"sex":"m"}]}` + "\n{}\n[]")
	f.Add("\xef\xbb\xbfhousehold,name,age_years,sex\r\n,,\r\nA,\"\",,\r\n")
	larder, err := foods.Load()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := NewReader("r", strings.NewReader(text))
		if err != nil {
			return
		}
		for n := 0; ; n++ {
			h, err := r.Next()
			if errors.Is(err, io.EOF) {
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if people, _, err := h.People(larder); len(people) == 0 && err == nil {
				t.Fatalf("household %q has neither people nor a fault", h.ID)
			}
			if n > len(text) {
				t.Fatal("more households than bytes")
			}
		}
	})
}

// TestIDs: an id is there, is at most so long, and can be seen.
func TestIDs(t *testing.T) {
	for id, want := range map[string]error{
		"": errNoID, "A-17": nil, "Åse 3": nil, strings.Repeat("x", MaxID): nil, strings.Repeat("x", MaxID+1): errLongID,
		"a\nb": errUnseenID, "a\x1bb": errUnseenID, "a\u200bb": errUnseenID, "a\ufffdb": errUnseenID, "a\u2028b": errUnseenID,
	} {
		if got := checkID(id); got != want {
			t.Errorf("%q: %v, want %v", id, got, want)
		}
	}
}

// TestBrokenRowByItsFirstCell: a row that cannot be taken apart is of the household that
// its first cell names, as long as an id may be; a longer one is none, and the row is of
// the household before it.
func TestBrokenRowByItsFirstCell(t *testing.T) {
	for length, own := range map[int]bool{1: true, MaxID - 1: true, MaxID: true, MaxID + 1: false} {
		id := strings.Repeat("B", length)
		said, err := read(t, "household,name,age_years,sex\nA,Ola,34,m\n"+id+",Per\",70,m\nC,Siv,20,f\n")
		if err != nil {
			t.Fatal(err)
		}
		if (len(said) == 3) != own || own && (!strings.HasPrefix(said[0], "A: Ola 34") || !strings.HasPrefix(said[1], id+":")) || !strings.HasPrefix(said[len(said)-1], "C: Siv 20") {
			t.Errorf("a first cell of %d letters: %.80q", length, said)
		}
	}
}

// TestCellsOfJSON: a text, a number as it is written, or nothing (RFC 8259, sections 6 and 7:
// a number begins with a minus or a digit, 0 too); all else is no cell.
func TestCellsOfJSON(t *testing.T) {
	for value, want := range map[string]string{
		`0`: "0", `0.5`: "0.5", ` 7 `: "7", `-1`: "-1", `9`: "9", `1e3`: "1e3", `"x"`: "x", `"0"`: "0", `"\u00e9"`: "é", `""`: "", `null`: "", ``: "",
	} {
		if got, err := cellOf(json.RawMessage(value)); err != nil || got != want {
			t.Errorf("%s: %q, %v, want %q", value, got, err, want)
		}
	}
	for _, value := range []string{`true`, `false`, `[1]`, `{"a":1}`, `"\x"`} {
		if got, err := cellOf(json.RawMessage(value)); err == nil {
			t.Errorf("%s was taken as %q", value, got)
		}
	}
}

// TestObjectIDs: an id means the same however its letters are written: "é" of one sign
// (U+00E9) or of a letter and its accent (Unicode, Standard Annex 15, form C).
func TestObjectIDs(t *testing.T) {
	for id, want := range map[string]string{"caf\u00e9": "caf\u00e9", " cafe\u0301 ": "caf\u00e9"} {
		if got := Parse([]byte(`{"id":"` + id + `","household":[["name","age_years","sex"],["Ola","34","m"]]}`)).ID; got != want {
			t.Errorf("%q: %q, want %q", id, got, want)
		}
	}
}

// TestLongestHousehold: in an object as in lines, so many rows and not one more.
func TestLongestHousehold(t *testing.T) {
	for rows, fits := range map[int]bool{MaxRows: true, MaxRows + 1: false} {
		h := Parse([]byte(`{"id":"A","household":[["name","age_years","sex"]` + strings.Repeat(`,["Ola","34","m"]`, rows-1) + `]}`))
		if (h.fault == nil) != fits || !fits && !errors.Is(h.fault, table.ErrTooMany) {
			t.Errorf("an object of %d rows: %v", rows, h.fault)
		}
	}
}

// TestWordsOfFood: a name that has other meanings is told, with whose it is and what it is
// taken to mean; one that means nothing is a fault at its place.
func TestWordsOfFood(t *testing.T) {
	larder, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	err = Words("h.csv", []byte("name,dislikes,rules\nOla,honey;corn,\nKari,nosuchfood,\n"), larder, func(person, text string) { said = append(said, person+": "+text) })
	if len(said) != 1 || !strings.HasPrefix(said[0], `Ola: "corn" is taken to mean sweetcorn`) {
		t.Errorf("%q", said)
	}
	if err == nil || !strings.HasPrefix(err.Error(), `h.csv:3:6: dislikes "nosuchfood":`) {
		t.Error(err)
	}
}

// TestLinesBelowManyEmptyOnes: a spreadsheet may leave thousands of rows of commas, more bytes of
// them than a household may have; what is wrong below them is told by the line where it stands.
func TestLinesBelowManyEmptyOnes(t *testing.T) {
	// Cells of nothing but line breaks, of as many lines as a household may have bytes.
	lines := func(n int) string { return `"` + strings.Repeat("\n", n-1) + "\",,,,\n" }
	most := strings.Repeat(lines(50), MaxBytes/50) + lines(MaxBytes%50)
	if said, err := read(t, "household,name,age_years,sex,note\nA,Ola,34,m,\n"+most+"A,Per,700,m,\n"); err != nil || len(said) != 1 || !strings.Contains(said[0], fmt.Sprintf("r.csv:%d:", 2+MaxBytes+1)) {
		t.Errorf("%.200q, %v: want a fault in line %d", said, err, 2+MaxBytes+1)
	}
	empty := strings.Repeat(",,,,\n", MaxBytes/5+10)
	said, err := read(t, "household,name,age_years,sex,note\nA,Ola,34,m,\n"+empty+"A,Per,700,m,\n\"\n\",,,,\nB,Siv,20,x,\n")
	if err != nil || len(said) != 2 {
		t.Fatalf("%q, %v", said, err)
	}
	at := 2 + MaxBytes/5 + 10 + 1
	for i, want := range []string{fmt.Sprintf("r.csv:%d:", at), fmt.Sprintf("r.csv:%d:", at+3)} {
		if !strings.Contains(said[i], want) {
			t.Errorf("%.200q, want a fault at %s", said[i], want)
		}
	}
}

// TestFoodsOfRules: names of food in rules are looked up as dislikes are, the last of a list too;
// a rule without a food, or one that is none, has no name to look up.
func TestFoodsOfRules(t *testing.T) {
	larder, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	err = Words("h.csv", []byte("name,dislikes,rules\nOla,,no honey;most corn 50 g/day\nKari,,floor zinc 8 mg;no nosuchfood\nPer,honey;other,\nLiv,,less corn\n"), larder,
		func(person, text string) { said = append(said, person+": "+text) })
	if len(said) != 1 || !strings.HasPrefix(said[0], `Ola: "corn" is taken to mean sweetcorn`) {
		t.Errorf("%q", said)
	}
	var faults *table.Errors
	if !errors.As(err, &faults) || len(faults.List) != 2 || !strings.HasPrefix(faults.List[0].Error(), `h.csv:3:7: rules "no nosuchfood":`) || !strings.HasPrefix(faults.List[1].Error(), `h.csv:4:5: dislikes "other":`) {
		t.Errorf("%v", err)
	}
}

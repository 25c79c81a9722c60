package facts

import (
	"bytes"
	"encoding/csv"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// dangerous is how spreadsheets are known to begin a formula (common practice, no
// source), with what a cell may carry before it.
var dangerous = []string{"=", "+", "-", "@", "\t=", "\r=", "\n=", " =", "\u200b=", "＝", "＋", "－", "＠", "\u202e="}

// Whatever a text is, the cell that is read back begins no formula, holds no
// control or invisible character, and keeps every letter; numbers stay numbers.
func TestCellsAreHarmless(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	letters := []rune("abc åø漢字,\"';=+-@\t\r\n\x1b\u200b\u202e＝0123456789.()|!")
	written := func(text string, value any) {
		table := New("section text")
		table.Add("x", Row{"text": value})
		var b bytes.Buffer
		if err := table.Write(&b); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatalf("%q: %v, %d rows", text, err, len(rows))
		}
		got := rows[1][1]
		first := strings.TrimLeftFunc(got, unicode.IsSpace)
		_, numeric := strconv.ParseFloat(got, 64)
		if first != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(first)[0]) && numeric != nil {
			t.Errorf("%q is written %q: a formula", text, got)
		}
		if strings.ContainsFunc(got, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }) {
			t.Errorf("%q is written %q", text, got)
		}
		kept := func(s string) string {
			return strings.Map(func(r rune) rune {
				if unicode.IsLetter(r) || unicode.IsDigit(r) {
					return r
				}
				return -1
			}, s)
		}
		if kept(got) != kept(text) {
			t.Errorf("%q is written %q: letters are lost", text, got)
		}
	}
	check := func(text string) { // by itself, behind a pointer, and where a list begins and goes on
		written(text, text)
		written(text, &text)
		written(text, []string{text})
		written(text+"; "+text, []string{text, text})
	}
	for _, start := range dangerous {
		check(start + "1+1")
		check(start + "HYPERLINK(1)")
		if got := Cell(start + "a"); !strings.HasPrefix(got, "'") {
			t.Errorf("%q becomes %q, without an apostrophe", start+"a", got)
		}
	}
	for range 3000 {
		text := make([]rune, rng.IntN(8))
		for i := range text {
			text[i] = letters[rng.IntN(len(letters))]
		}
		check(string(text))
	}
	for _, number := range []string{"-1", "-0.5", "+3", "12"} {
		if got := Cell(number); got != number {
			t.Errorf("the number %s becomes %q", number, got)
		}
	}
	for _, plain := range []string{"Maja", "a-b", "x=1", "1+1", "", "d'Arc"} {
		if got := Cell(plain); got != plain {
			t.Errorf("%q becomes %q", plain, got)
		}
	}
}

type line struct {
	Pack  string   `json:"pack"`
	Count int      `json:"count,omitempty"`
	Cost  *float64 `json:"cost,omitempty"`
	inner
}

type inner struct {
	Kg float64 `json:"kg"`
}

// A row has its values under its columns: by key, by another name, shared ones on
// every row, an absent value as an empty cell and nought as 0.
func TestTable(t *testing.T) {
	cost := -0.25
	table := New("section pack n cost weight_kg unit flag list")
	table.Each("pack", []line{{"rice", 2, &cost, inner{0.1 + 0.2}}, {"=beans", 0, nil, inner{0}}}, "pack n=count cost weight_kg=kg", Row{"unit": "kg"})
	table.Add("other", Row{"flag": true, "list": []string{"a", "b"}, "n": 1234567})
	table.Each("none", []line(nil), "pack", nil)
	var b bytes.Buffer
	if err := table.Write(&b); err != nil {
		t.Fatal(err)
	}
	want := "section,pack,n,cost,weight_kg,unit,flag,list\npack,rice,2,-0.25,0.3,kg,,\npack,'=beans,0,,0,kg,,\nother,,1234567,,,,true,a; b\n"
	if b.String() != want {
		t.Errorf("got\n%swant\n%s", b.String(), want)
	}
	if !table.Has("unit") || table.Has("units") || !table.Has("section") || !table.Has("list") {
		t.Error("Has does not know the columns")
	}
	first := New("section") // the first column is one as any other
	first.Add("kind", Row{"section": "own"})
	var own bytes.Buffer
	if err := first.Write(&own); err != nil || own.String() != "section\nown\n" {
		t.Errorf("a cell of the first column: %q, %v", own.String(), err)
	}
}

// A column or a key that is not there is found even where a list is empty.
func TestWrongNamesPanic(t *testing.T) {
	for name, do := range map[string]func(){
		"column":       func() { New("section a").Add("x", Row{"b": 1}) },
		"column of":    func() { New("section a").Each("x", []line(nil), "b=pack", nil) },
		"key":          func() { New("section a").Each("x", []line(nil), "a=packs", nil) },
		"kind of cell": func() { New("section a").Add("x", Row{"a": struct{}{}}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("a wrong %s passes", name)
				}
			}()
			do()
		}()
	}
}

// Printable keeps what can be seen and lets nothing else through.
func TestPrintable(t *testing.T) {
	for text, want := range map[string]string{
		"Åse & Knut":               "Åse & Knut",
		"a\x1b[31mb":               "a [31mb",
		"a\r\nb":                   "a  b",
		"evil\u202etxt":            "eviltxt",
		"a\u2028b\u2029c":          "a b c",
		"\ufeffBOM":                "BOM",
		"fill\u3164er":             "filler",
		"\u0085next":               " next",
		"e\u0301":                  "e\u0301",
		string([]byte{'a', 0xff}):  "a\ufffd",
		"tag\U000e0041\U000e007fx": "tagx",
	} {
		if got := Printable(text); got != want {
			t.Errorf("Printable(%q) = %q, want %q", text, got, want)
		}
	}
	if !slices.Equal([]rune(Printable("漢字")), []rune("漢字")) {
		t.Error("letters are lost")
	}
}

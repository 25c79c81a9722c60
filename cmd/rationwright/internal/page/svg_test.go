package page

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// TestSlim holds the small form of a picture against the one that the plotting
// library wrote: the same words in the same order, the same lines drawn, every style
// that is named there, and under half of the bytes.
func TestSlim(t *testing.T) {
	p := plot.New()
	p.Title.Text, p.Y.Label.Text = "A & B < 50 %", "kg"
	p.Add(plotter.NewGrid())
	bars, err := plotter.NewBarChart(plotter.Values{3, 1.25, 2, 8}, 12)
	if err != nil {
		t.Fatal(err)
	}
	p.Add(bars)
	to, err := p.WriterTo(needsWidth, needsWidth, "svg")
	if err != nil {
		t.Fatal(err)
	}
	var whole bytes.Buffer
	if _, err := to.WriteTo(&whole); err != nil {
		t.Fatal(err)
	}
	small := slim(whole.String())
	wantWords, wantLines := read(t, whole.String())
	words, lines := read(t, small)
	if !reflect.DeepEqual(words, wantWords) || len(words) < 5 {
		t.Errorf("it says %q, want %q", words, wantWords)
	}
	if lines != wantLines || lines < 5 {
		t.Errorf("%d strokes and areas, want %d", lines, wantLines)
	}
	for _, m := range regexp.MustCompile(`class="([^"]*)"`).FindAllStringSubmatch(small, -1) {
		if !strings.Contains(small, "."+m[1]+"{") {
			t.Errorf("no style %s", m[1])
		}
	}
	if 2*len(small) > whole.Len() {
		t.Errorf("%d bytes of %d", len(small), whole.Len())
	}
}

// read returns the texts of an SVG and how many pieces are drawn.
func read(t *testing.T, svg string) (words []string, pieces int) {
	t.Helper()
	in := ""
	for dec := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return words, pieces
		}
		if err != nil {
			t.Fatal(err)
		}
		switch x := token.(type) {
		case xml.StartElement:
			in = x.Name.Local
			for _, a := range x.Attr {
				if a.Name.Local == "d" {
					pieces += strings.Count(a.Value, "M")
				}
			}
		case xml.CharData:
			if in == "text" && strings.TrimSpace(string(x)) != "" {
				words = append(words, string(x))
			}
		}
	}
}

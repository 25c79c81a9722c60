package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/apache/beam/sdks/v2/go/pkg/beam/testing/ptest"

	"rationwright/cmd/rationwright/internal/batch"
	"rationwright/cmd/rationwright/internal/cli"
	"rationwright/cmd/rationwright/internal/synthetic"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

var count = flag.Int("many", 8, "how many households of an invented register")

func TestMain(m *testing.M) { ptest.Main(m) }

// The pipeline on the embedded runner writes the lines that batch writes, in any
// order: of households that can be read and fed, that cannot, and that are alike.
func TestSameLinesAsBatch(t *testing.T) {
	var text bytes.Buffer
	for n := range *count {
		people, err := synthetic.Household(5, n+1)
		if err != nil {
			t.Fatal(err)
		}
		line, err := ration.Marshal(map[string]any{"id": fmt.Sprintf("H%d", n+1), "household": nutrients.HouseholdRows(people)})
		if err != nil {
			t.Fatal(err)
		}
		text.Write(line)
	}
	text.WriteString(`{"id":"bad","household":[["name","age_years","sex"],["Per","x","m"]]}` + "\n")
	text.WriteString(`{"id":"alone","household":[["name","age_years","sex","conditions"],["Aud","60","f","dysphagia"]]}` + "\n")
	for _, id := range []string{"one", "two"} {
		text.WriteString(`{"id":"` + id + `","household":[["name","age_years","sex"],["` + strings.ToUpper(id) + `","60","f"]]}` + "\n")
	}
	dir := t.TempDir()
	file, lines, beamed := filepath.Join(dir, "register.ndjson"), filepath.Join(dir, "batch.ndjson"), filepath.Join(dir, "beam.ndjson")
	if err := os.WriteFile(file, text.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	asked := []string{"--standard", "basic", "--each", "50ms", "--start", "2026-11-25", "--days", "5"}
	var notes bytes.Buffer
	if code := cli.Run(append([]string{"batch", "--households", file, "--out", lines}, asked...), strings.NewReader(""), &notes, &notes); code != 3 {
		t.Fatalf("batch ended with %d, want 3 for the household that cannot be read: %s", code, notes.String())
	}
	req, err := cli.Asked(context.Background(), asked, &notes)
	if err != nil {
		t.Fatal(err)
	}
	p, err := pipeline(file, beamed, req)
	if err != nil {
		t.Fatal(err)
	}
	if err := ptest.Run(p); err != nil {
		t.Fatal(err)
	}
	want, got := sorted(t, lines), sorted(t, beamed)
	if len(want) != *count+4 {
		t.Fatalf("%d lines of batch, want %d", len(want), *count+4)
	}
	if !slices.Equal(got, want) {
		t.Errorf("%d lines of the pipeline, %d of batch, or not the same:\n%s\n%s", len(got), len(want), strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func sorted(t *testing.T, file string) []string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	list := strings.Split(strings.TrimSpace(string(text)), "\n")
	slices.Sort(list)
	return list
}

// What a record says is asked of a household is what the flags say.
func TestRecordCarriesWhatIsAsked(t *testing.T) {
	var notes bytes.Buffer
	req, err := cli.Asked(context.Background(), []string{"--days", "9", "--least", "weight", "--each", "70ms", "--without", "rice", "--max-weight", "90", "--start", "2026-11-25", "--cook", "none"}, &notes)
	if err != nil {
		t.Fatal(err)
	}
	rec := batch.RecordOf(*req)
	back, err := rec.Load()
	if err != nil {
		t.Fatal(err)
	}
	again := batch.RecordOf(*back)
	a, err := ration.Marshal(rec)
	if err != nil {
		t.Fatal(err)
	}
	b, err := ration.Marshal(again)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a, b) {
		t.Errorf("read back as\n%s\nwant\n%s", b, a)
	}
	for _, want := range []string{`"9"`, `"weight"`, `"70ms"`, `"rice"`, `90`, `"none"`} {
		if !bytes.Contains(a, []byte(want)) {
			t.Errorf("no %s in %s", want, a)
		}
	}
}

package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/foods"
)

// said runs a command line and gives its exit code and all that it says.
func said(t *testing.T, args ...string) (int, string) {
	t.Helper()
	var out, errs bytes.Buffer
	code := Run(args, strings.NewReader(""), &out, &errs)
	return code, out.String() + errs.String()
}

// A word for food means the same whatever command it is said to: every word of every
// kind is known to each of them, though some ask which of several is meant. A word that
// is none is known to no command.
func TestEveryWordInEveryCommand(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, k := range table.Kinds().Kinds {
		words = append(words, k.Words()...)
	}
	if len(words) < 1000 {
		t.Fatalf("only %d words", len(words))
	}
	dir := t.TempDir()
	write := writer(t, dir)
	person := write("signe.csv", "name,age_years,sex\nSigne,30,f\n")
	plan := filepath.Join(dir, "plan.json")
	if code, text := said(t, "plan", "--household", person, "--days", "7", "--slack", "0", "--time", "5s", "--start", "2026-01-05", "--format", "json", "--out", plan); code != 0 {
		t.Fatalf("no plan: %d %s", code, text)
	}
	repeat := func(flag string, words []string) (list []string) {
		for _, w := range words {
			list = append(list, flag, w)
		}
		return list
	}
	cell := func(before string, words []string, after string) string {
		return `"` + before + strings.Join(words, after+";"+before) + after + `"`
	}
	const unknown = "no food or kind is called"
	for _, c := range []struct {
		name string
		args func(words []string) []string
	}{
		{"needs, dislikes", func(w []string) []string {
			return []string{"needs", "--household", write("dislikes.csv", "name,age_years,sex,dislikes\nSigne,30,f,"+cell("", w, "")+"\n")}
		}},
		{"needs, rules", func(w []string) []string {
			return []string{"needs", "--household", write("rules.csv", "name,age_years,sex,rules\nSigne,30,f,"+cell("most ", w, " 900 g/day")+"\n")}
		}},
		{"export, without", func(w []string) []string {
			return append([]string{"export", "--household", person, "--out", filepath.Join(dir, "out.mps")}, repeat("--without", w)...)
		}},
		{"why, food", func(w []string) []string {
			return append([]string{"why", "--plan", plan, "--time", "1s"}, repeat("--food", w)...)
		}},
		{"swap, keep", func(w []string) []string {
			return append([]string{"swap", "--plan", plan, "--time", "1s", "--drop", "soybean oil"}, repeat("--keep", w)...)
		}},
		{"swap, drop", func(w []string) []string {
			return append([]string{"swap", "--plan", plan, "--time", "1s"}, repeat("--drop", w)...)
		}},
		{"batch, dislikes", func(w []string) []string {
			return []string{"batch", "--households", write("register.csv", "household,name,age_years,sex,conditions,dislikes\na,Signe,30,f,kidney-disease,"+cell("", w, "")+"\n"), "--each", "1s"}
		}},
		{"check, a shelf list", func(w []string) []string {
			return []string{"check", "--household", person, "--time", "1s", "--stock", write("shelf.txt", "2 tins of "+strings.Join(w, ", 400 g\n2 tins of ")+", 400 g\n")}
		}},
		{"caps", func(w []string) []string {
			return []string{"export", "--household", person, "--out", filepath.Join(dir, "out.mps"), "--caps", write("caps.csv", "kind,measure,value\n\""+strings.Join(w, "\",day,300\n\"")+"\",day,300\n")}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, text := said(t, c.args(words)...)
			for line := range strings.Lines(text) {
				if strings.Contains(line, unknown) || strings.Contains(line, "no such kind") {
					t.Error(line)
				}
			}
			if code == exit.Fault || code == exit.Usage {
				t.Errorf("exit %d: %s", code, text)
			}
			code, text = said(t, c.args([]string{"zwrnk"})...)
			if code != exit.BadInput || !strings.Contains(text, "zwrnk") || !strings.Contains(text, unknown) && !strings.Contains(text, "no such kind") {
				t.Errorf("a word that is none: exit %d: %s", code, text)
			}
		})
	}
	t.Run("foods show", func(t *testing.T) {
		for _, w := range words {
			if code, text := said(t, "foods", "show", w); code != 0 {
				t.Errorf("%q: %d %s", w, code, text)
			}
		}
	})
}

// writer puts files into dir and says where they are.
func writer(t *testing.T, dir string) func(name, text string) string {
	return func(name, text string) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
}

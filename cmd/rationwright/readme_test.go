package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// session finds a terminal session in the README: a comment that says which
// lines of the output are shown, then one command with its output.
//
//	<!-- shown: 1-4; TOTALS; WHAT MAJA GETS A DAY+6 -->
//	```console
//	$ go run ./cmd/rationwright plan
//	…
//	```
//
// A range shows those lines, a heading the section up to the next empty line,
// a heading with +n that line and n more. What is left out between is shown as
// a line of three dots.
var session = regexp.MustCompile("(?s)<!-- shown: ([^>]*?) -->\n```console\n\\$ go run ./cmd/rationwright ([^\n]*)\n(.*?)```\n")

// TestReadmeSessions runs every session of the README and compares what is
// shown byte for byte; -update rewrites it.
func TestReadmeSessions(t *testing.T) {
	t.Chdir(root)
	name := filepath.Join("README.md")
	readme, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	sessions := 0
	written := session.ReplaceAllFunc(readme, func(block []byte) []byte {
		sessions++
		part := session.FindSubmatch(block)
		shown, command, old := string(part[1]), string(part[2]), string(part[3])
		var out, messages bytes.Buffer
		if code := run(words(command), strings.NewReader(""), &out, &messages); code != 0 {
			t.Errorf("%s: exit code %d: %s", command, code, messages.String())
			return block
		}
		want, err := excerpt(out.String(), shown)
		if err != nil {
			t.Errorf("%s: %v in:\n%s", command, err, out.String())
			return block
		}
		if want != old && !*update {
			t.Errorf("%s shows\n%s\nwhile the README has\n%s", command, want, old)
		}
		return []byte(strings.TrimSuffix(string(block), old+"```\n") + want + "```\n")
	})
	if sessions < 2 {
		t.Errorf("the README has %d sessions", sessions)
	}
	if *update {
		if err := os.WriteFile(name, written, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestReadmeNamesCommandsAndCodes: the README has a row for every command and
// every exit code that the help names, and no others.
func TestReadmeNamesCommandsAndCodes(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	var help bytes.Buffer
	if code := run([]string{"--help"}, strings.NewReader(""), &help, &help); code != 0 {
		t.Fatalf("exit code %d: %s", code, help.String())
	}
	_, rest, _ := strings.Cut(help.String(), "Available Commands:\n")
	commands, rest, _ := strings.Cut(rest, "\n\n")
	_, codes, _ := strings.Cut(rest, "Exit codes:\n")
	rows := func(text string) (firsts []string) {
		for line := range strings.Lines(text) {
			if f := strings.Fields(line); len(f) > 0 && f[0] != "help" {
				firsts = append(firsts, f[0])
			}
		}
		return firsts
	}
	for _, name := range rows(commands) {
		if !bytes.Contains(readme, []byte("| `"+name+"`")) && !bytes.Contains(readme, []byte("| `"+name+" ")) {
			t.Errorf("the README's table has no command %q", name)
		}
	}
	for line := range strings.Lines(codes) {
		if f := strings.Fields(line); len(f) > 1 {
			text := strings.ReplaceAll(strings.Join(f[1:], " "), "solve:", "`solve`:")
			if row := fmt.Sprintf("| %s | %s |", f[0], text); !bytes.Contains(readme, []byte(row)) {
				t.Errorf("the README has no row %q", row)
			}
		}
	}
	if n, m := len(rows(commands)), len(rows(codes)); n < 5 || m < 8 {
		t.Errorf("the help names %d commands and %d exit codes", n, m)
	}
}

// words splits a command at spaces outside double quotes.
func words(command string) []string {
	var list []string
	for i, part := range strings.Split(command, `"`) {
		if i%2 == 1 {
			list = append(list, part)
		} else {
			list = append(list, strings.Fields(part)...)
		}
	}
	return list
}

var lineRange = regexp.MustCompile(`^(\d+)-(\d+)$`)

// excerpt returns the lines of text that shown names.
func excerpt(text, shown string) (string, error) {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	var b strings.Builder
	next := 0
	for item := range strings.SplitSeq(shown, ";") {
		item = strings.TrimSpace(item)
		from, to := 0, 0
		if m := lineRange.FindStringSubmatch(item); m != nil {
			first, _ := strconv.Atoi(m[1])
			last, _ := strconv.Atoi(m[2])
			from, to = first-1, last
		} else {
			heading, more, counted := strings.Cut(item, "+")
			from = slices.Index(lines, heading)
			if from < 0 {
				return "", fmt.Errorf("no line %q", heading)
			}
			n, _ := strconv.Atoi(more)
			to = from + 1 + n
			for !counted && to < len(lines) && lines[to] != "" {
				to++
			}
		}
		if from < next || to > len(lines) {
			return "", fmt.Errorf("%q is out of order or past the end", item)
		}
		if from > next {
			b.WriteString("...\n")
		}
		b.WriteString(strings.Join(lines[from:to], "\n") + "\n")
		next = to
	}
	if next < len(lines) {
		b.WriteString("...\n")
	}
	return b.String(), nil
}

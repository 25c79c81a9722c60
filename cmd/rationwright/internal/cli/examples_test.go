package cli

import (
	"bytes"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"rationwright/foods"
)

// TestHelpExamples: every example of every help text names a command, parses,
// and asks for foods that exist.
func TestHelpExamples(t *testing.T) {
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	examples := 0
	each(newRoot(&session{}), func(cmd *cobra.Command) {
		for line := range strings.Lines(cmd.Example) {
			line = strings.TrimSpace(line)
			name, rest, _ := strings.Cut(line, " ")
			if name != "rationwright" {
				t.Errorf("%s: example %q does not call rationwright", cmd.CommandPath(), line)
				continue
			}
			examples++
			root := newRoot(&session{stdout: &bytes.Buffer{}, stderr: &bytes.Buffer{}})
			found, args, err := root.Find(shellWords(rest))
			if err == nil {
				err = found.ParseFlags(args)
			}
			if err == nil && found.Args != nil {
				err = found.Args(found, found.Flags().Args())
			}
			if err != nil {
				t.Errorf("%s: %v", line, err)
				continue
			}
			var names []string
			if found.Flags().Lookup("without") != nil {
				names, _ = found.Flags().GetStringArray("without")
			}
			if like := found.Flags().Lookup("like"); like != nil {
				names = append(names, like.Value.String())
			} else if strings.HasPrefix(found.CommandPath(), "rationwright foods") {
				names = append(names, found.Flags().Args()...)
			}
			for _, food := range names {
				if _, err := table.Named(food); err != nil {
					t.Errorf("%s: %v", line, err)
				}
			}
		}
	})
	if examples < 10 {
		t.Errorf("only %d examples", examples)
	}
}

// TestEveryCommandIsExplained: a short text, and an example for whatever does
// something.
func TestEveryCommandIsExplained(t *testing.T) {
	each(newRoot(&session{}), func(cmd *cobra.Command) {
		if cmd.Short == "" {
			t.Errorf("%s has no short text", cmd.CommandPath())
		}
		if !cmd.HasSubCommands() && cmd.Name() != "help" && (cmd.Example == "" || cmd.Long == "") {
			t.Errorf("%s has no long text or no example", cmd.CommandPath())
		}
	})
}

// each visits cmd and everything below it.
func each(cmd *cobra.Command, do func(*cobra.Command)) {
	do(cmd)
	for _, sub := range cmd.Commands() {
		each(sub, do)
	}
}

// shellWords splits a command line at blanks outside double quotes.
func shellWords(line string) []string {
	var words []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

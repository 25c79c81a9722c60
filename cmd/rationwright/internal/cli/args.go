package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// suggestion names the command that was meant, if one is near.
func suggestion(cmd *cobra.Command, word string) string {
	cmd.SuggestionsMinimumDistance = 2
	if near := cmd.SuggestionsFor(word); len(near) > 0 {
		return "; did you mean " + strings.Join(near, " or ") + "?"
	}
	return "; \"rationwright --help\" lists the commands"
}

// noArgs refuses arguments where a command takes flags only.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes no argument such as %q; its inputs are flags", cmd.CommandPath(), args[0])
	}
	return nil
}

// changed reports whether the user set the flag called name on cmd.
func changed(cmd *cobra.Command, name string) bool {
	f := cmd.Flags().Lookup(name)
	return f != nil && f.Changed
}

// oneOf is a flag value that is one of some words.
type oneOf struct {
	value *string
	words []string
}

func (o oneOf) String() string {
	if o.value == nil {
		return ""
	}
	return *o.value
}

func (o oneOf) Type() string { return strings.Join(o.words, "|") }

func (o oneOf) Set(text string) error {
	for _, w := range o.words {
		if text == w {
			*o.value = text
			return nil
		}
	}
	return fmt.Errorf("not one of the words; write %s", strings.Join(o.words, ", "))
}

// choice adds a flag whose value is one of words.
func choice(fs *pflag.FlagSet, value *string, name, preset, usage string, words ...string) {
	*value = preset
	fs.Var(oneOf{value, words}, name, usage)
}

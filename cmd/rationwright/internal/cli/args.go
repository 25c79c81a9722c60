package cli

import (
	"fmt"
	"slices"
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

// oneArg takes exactly one argument; wrong words why not, with how many are given.
func oneArg(wrong string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return fmt.Errorf(wrong, len(args))
		}
		return nil
	}
}

// oneOf is a flag value that is one of some words.
type oneOf[T ~string] struct {
	value *T
	words []T
}

func (o oneOf[T]) String() string {
	if o.value == nil {
		return ""
	}
	return string(*o.value)
}

func (o oneOf[T]) Type() string { return o.joined("|") }

func (o oneOf[T]) Set(text string) error {
	if !slices.Contains(o.words, T(text)) {
		return fmt.Errorf("not one of the words; write %s", o.joined(", "))
	}
	*o.value = T(text)
	return nil
}

func (o oneOf[T]) joined(between string) string {
	var words []string
	for _, w := range o.words {
		words = append(words, string(w))
	}
	return strings.Join(words, between)
}

// choice adds a flag whose value is one of words.
func choice[T ~string](fs *pflag.FlagSet, value *T, name string, preset T, usage string, words ...T) {
	*value = preset
	fs.Var(oneOf[T]{value, words}, name, usage)
}

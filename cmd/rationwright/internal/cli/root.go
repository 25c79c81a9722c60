package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/solver/ration"
)

// commands are the subcommands in the order of help. A new one adds its file
// and its line here.
var commands = []func(*session) *cobra.Command{
	newNeeds,
	newFoods,
	newPlan,
	newCheck,
	newSwap,
	newMenu,
	newWhy,
	newStores,
	newRotate,
	newReport,
	newServe,
	newExport,
	newSolve,
}

const rootLong = `rationwright works out what a household must buy and keep so that everyone eats a
balanced ration for two weeks without shops, refrigeration, much water or much
fuel: whole packs, each person's own requirements, and a proof of how near the
answer is to the best possible.

Without files it plans for a demo household on the island of Ternsund, whose
ferry stops for two weeks in winter storms. Names and prices there are invented.

It plans for healthy people and for those whose needs are published. It is no
medical advice: local authorities, labels and licensed clinicians come first.`

// newRoot builds the command tree.
func newRoot(s *session) *cobra.Command {
	cobra.EnableCommandSorting = false
	root := &cobra.Command{
		Use:               "rationwright",
		Short:             "Balanced stored rations for real households",
		Long:              rootLong,
		Version:           ration.PlanVersion,
		SilenceUsage:      true,
		SilenceErrors:     true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return fmt.Errorf("there is no command %q%s", args[0], suggestion(cmd, args[0]))
		},
		RunE: s.work(func(cmd *cobra.Command, args []string) error { return cmd.Help() }),
	}
	root.SetHelpTemplate(helpTemplate)
	root.SetVersionTemplate("rationwright {{.Version}}\n")
	root.SetHelpCommand(newHelp())
	for _, make := range commands {
		cmd := make(s)
		cmd.Flags().SortFlags = false
		root.AddCommand(cmd)
	}
	return root
}

// newHelp is the command help, which refuses what is no command.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:   "help [command]",
		Short: "Help about any command",
		RunE: func(cmd *cobra.Command, args []string) error {
			of, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return fmt.Errorf("there is no command %q%s", strings.Join(args, " "), suggestion(of, args[len(args)-1]))
			}
			of.InitDefaultHelpFlag()
			return of.Help()
		},
	}
}

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

var helpTemplate = `{{with or .Long .Short}}{{. | trimTrailingWhitespaces}}

{{end}}{{if or .Runnable .HasSubCommands}}{{.UsageString}}{{end}}
` + exitHelp()

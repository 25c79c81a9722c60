package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

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
	newBatch,
	newShare,
	newRegister,
	newExport,
	newSolve,
}

// newRoot builds the command tree.
func newRoot(s *session) *cobra.Command {
	cobra.EnableCommandSorting = false
	root := &cobra.Command{
		Use:   "rationwright",
		Short: "Balanced stored rations for real households",
		Long: `rationwright works out what a household must buy and keep so that everyone eats a
balanced ration for two weeks without shops, refrigeration, much water or much
fuel: whole packs, each person's own requirements, and a proof of how near the
answer is to the best possible.

Without files it plans for a demo household on the island of Ternsund, whose
ferry stops for two weeks in winter storms. Names and prices there are invented.

It plans for healthy people and for those whose needs are published. It is no
medical advice: local authorities, labels and licensed clinicians come first.`,
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
		PersistentPreRun: func(*cobra.Command, []string) { s.started = true },
		RunE:             func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	root.SetHelpTemplate(helpTemplate)
	root.SetVersionTemplate("rationwright {{.Version}}\n")
	root.SetHelpCommand(newHelp())
	for _, make := range commands {
		cmd := make(s)
		for _, one := range append(cmd.Commands(), cmd) {
			one.Flags().SortFlags = false
		}
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
				return usagef("there is no command %q%s", strings.Join(args, " "), suggestion(of, args[len(args)-1]))
			}
			of.InitDefaultHelpFlag()
			return of.Help()
		},
	}
}

var helpTemplate = `{{with or .Long .Short}}{{. | trimTrailingWhitespaces}}

{{end}}{{if or .Runnable .HasSubCommands}}{{.UsageString}}{{end}}
` + exitHelp()

package cli

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os/exec"
	"runtime"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/cli/demo"
	"rationwright/cmd/rationwright/internal/web"
)

func newServe(s *session) *cobra.Command {
	var (
		opt  web.Options
		to   shape
		open bool
	)
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "The same in a browser, on this machine only",
		Long: `serve opens the same in a browser, on this machine only: who is fed in a form, the
plan while it is searched for, foods struck out with few changes, a stock checked,
sheets to print, files to save. It needs no network, and nobody else can reach it: it
answers on this machine's own address, to whoever has the link that it prints.

With --folder what is entered is kept there from one run to the next, in entered.json
and plan.json; without it, until the program ends. Ctrl-C ends it.`,
		Example: `  rationwright serve --open
  rationwright serve --folder ternsund --port 8080`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error {
			if opt.Port < 0 || opt.Port > 65535 {
				return usagef("--port %d: must be 1 to 65535, or left out for one that is free", opt.Port)
			}
			rows, err := csv.NewReader(bytes.NewReader(demo.Household)).ReadAll()
			if err != nil {
				return err
			}
			opt.Demo, opt.Units = rows, to.units
			opt.Today = func() string { return time.Now().Format(time.DateOnly) }
			server, err := web.New(opt)
			if err != nil {
				return badInput(err)
			}
			return badInput(server.Run(s.ctx, func(link string) {
				fmt.Fprintf(s.stdout, "Open this link in a browser on this machine:\n%s\nCtrl-C ends it.\n", link)
				if open {
					if err := openBrowser(link); err != nil {
						s.note("no browser could be started: %v; open the link by hand", err)
					}
				}
			}))
		},
	}
	fs := cmd.Flags()
	fs.IntVar(&opt.Port, "port", 0, "answer on port `N` of this machine (default: one that is free)")
	fs.StringVar(&opt.Folder, "folder", "", "keep what is entered in the folder `DIR`, which must be there (default: in memory)")
	fs.BoolVar(&open, "open", false, "start the browser as well")
	to.addUnits(fs)
	return cmd
}

// openBrowser starts the browser of the system.
func openBrowser(link string) error {
	switch runtime.GOOS {
	case "windows":
		return exec.Command("rundll32", "url.dll,FileProtocolHandler", link).Start()
	case "darwin":
		return exec.Command("open", link).Start()
	}
	return exec.Command("xdg-open", link).Start()
}

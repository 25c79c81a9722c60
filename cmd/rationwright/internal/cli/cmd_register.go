package cli

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/register"
	"rationwright/cmd/rationwright/internal/synthetic"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// mostInvented is the most households of one register.
const mostInvented = 10_000_000

func newRegister(s *session) *cobra.Command {
	var (
		seed uint64
		out  string
	)
	cmd := &cobra.Command{
		Use:   "register N",
		Short: "An invented register of N households, for trials",
		Long: `register invents a register of N households of the island of Ternsund, to try batch
and share with: sizes, ages, conditions, allergies and dislikes drawn by shares, some
published (from memory), most invented. Nobody in it lives, and it describes no place.

The same seed gives the same households, and a longer register begins with a shorter.`,
		Example: `  rationwright register 1000 --out trial.csv
  rationwright register 50 --seed 7`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("say how many households")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			var n int
			if err := (whole{&n, 1, mostInvented}).Set(args[0]); err != nil {
				return usagef("%q: %w", args[0], err)
			}
			return invent(s, n, seed, &output{out: out, stdout: s.stdout})
		},
	}
	fs := cmd.Flags()
	fs.Uint64Var(&seed, "seed", 1, "which register: any whole `NUMBER`")
	fs.StringVar(&out, "out", "", "write to `FILE` instead of standard output: CSV, or NDJSON where it is called so")
	return cmd
}

// invent writes a register household by household.
func invent(s *session, n int, seed uint64, to *output) error {
	if err := to.check(s); err != nil {
		return err
	}
	w := bufio.NewWriter(s.stdout)
	if to.out != "" && to.out != "-" {
		target, err := to.target()
		if err != nil {
			return badInput(err)
		}
		file, err := os.Create(target)
		if err != nil {
			return to.cannot(err)
		}
		defer file.Close()
		w = bufio.NewWriter(file)
	}
	objects := strings.HasSuffix(to.out, ".ndjson")
	for i := range n {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		people, err := synthetic.Household(seed, i+1)
		if err != nil {
			return fmt.Errorf("the built-in shares are broken: %w", err)
		}
		rows := nutrients.HouseholdRows(people)
		if objects {
			line, err := json.Marshal(map[string]any{"id": "H" + strconv.Itoa(i+1), register.Column: rows})
			if err != nil {
				return err
			}
			if _, err := w.Write(append(line, '\n')); err != nil {
				return to.cannot(err)
			}
			continue
		}
		header := append([]string{register.Column}, rows[0]...)
		for k := range rows[1:] {
			rows[k+1] = append([]string{"H" + strconv.Itoa(i+1)}, rows[k+1]...)
		}
		if i > 0 {
			header, rows = rows[1], rows[1:]
		}
		if err := table.Write(w, header, rows[1:]); err != nil {
			return to.cannot(err)
		}
	}
	return to.cannot(w.Flush())
}

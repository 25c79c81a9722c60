package cli

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
	"rationwright/foods/label"
	"rationwright/nutrients/table"
)

// addFlags are the cells of the row that foods add writes.
type addFlags struct {
	file, grams, price, allergens, like, label, container, kinds string
	yes                                                          bool
}

// unwritten is the name of the file of one row that is not in a file yet.
const unwritten = "foods add"

func newFoodsAdd(s *session) *cobra.Command {
	var add addFlags
	cmd := &cobra.Command{
		Use:   "add [NAME]",
		Short: "A food or a pack of your own shop, from its label",
		Long: `add writes a food of your own shop into your file of foods, which every command
then takes with --foods: its name, the grams on the pack, the price, and the
allergens on the label. --like names the food of the table that it is most like:
what group it belongs to, how it is cooked, how it keeps and how much one eats of
it are taken from there. Its nutrients are those of that food, or, with --label,
those of the nutrition label of the pack, copied into a file as printed: per 100 g,
per 100 ml or "per serving 30 g", salt or sodium, kJ or kcal. What the label does
not say stays unknown; it is never taken as none.

Without a name it is a pack of the food that --like names, in a size of your shop.

add shows what it understood. On a terminal it asks before it writes; the file is
made where there is none, gets the row whole or stays as it is.`,
		Example: `  rationwright foods add "Ternsund flatbread" --foods own.csv --grams 500 --price 3.50 --allergens wheat --like "rye crispbread" --label flatbread.txt
  rationwright foods add --foods own.csv --grams 1500 --price 4.20 --like "white rice"
  rationwright plan --foods own.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("foods add takes one NAME; %d given (put a name of several words in quotes)", len(args))
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			return add.run(s, strings.TrimSpace(strings.Join(args, "")))
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&add.file, "foods", "", "your file of foods: the row is added to this `FILE`")
	flags.StringVar(&add.grams, "grams", "", "`G` of food in a pack, as on its label")
	flags.StringVar(&add.price, "price", "", "`PRICE` of a pack (default: none; then it is not bought, only used from stock)")
	flags.StringVar(&add.allergens, "allergens", "", "allergens on the label, `LIST` as \"wheat;milk\", or none")
	flags.StringVar(&add.like, "like", "", "the `FOOD` of the table that it is most like")
	flags.StringVar(&add.label, "label", "", "nutrition label as printed, a `FILE`, - for standard input (default: the figures of --like)")
	flags.StringVar(&add.container, "container", "", "what it is packed in, a `WORD` such as can, jar, bag, box (default: as --like)")
	flags.StringVar(&add.kinds, "kinds", "", "kinds of food that it belongs to, a `LIST` as \"crackers;snacks\" (default: those of --like)")
	flags.BoolVar(&add.yes, "yes", false, "write without asking")
	return cmd
}

func (a *addFlags) run(s *session, name string) error {
	switch {
	case a.file == "" || a.file == standardInput:
		return usagef("say which file of foods is yours: --foods FILE")
	case a.grams == "" || a.like == "":
		return usagef("say at least --grams and --like: the grams on the pack, and the food of the table that it is most like")
	case name != "" && a.allergens == "":
		return usagef("say the allergens on the label: --allergens \"wheat;milk\", or --allergens none")
	case name == "" && (a.label != "" || a.allergens != "" || a.kinds != ""):
		return usagef("--label, --allergens and --kinds belong to a food of your own; give it a NAME")
	}
	have, err := s.ownFile(a.file)
	if err != nil {
		return badInput(err)
	}
	t, err := foods.Load()
	if err != nil {
		return fmt.Errorf("the built-in food table is broken: %w", err)
	}
	if len(have) > 0 {
		if _, err := t.ReadFoods(a.file, bytes.NewReader(have)); err != nil {
			return badInput(err)
		}
	}
	text, err := a.readLabel(s)
	if err != nil {
		return badInput(err)
	}
	if name != "" {
		if same := slices.IndexFunc(t.Foods, func(f *foods.Food) bool { return strings.EqualFold(f.Name, table.Composed(name)) }); same >= 0 {
			return badInput(fmt.Errorf("%q is there already (%s); for another pack of it leave the name out and give --like %q", name, t.Foods[same].NDB, name))
		}
	}
	cells := []foods.Cell{{Column: "ndb"}, {Column: "name", Text: name}, {Column: "pack"}, {Column: "grams", Text: a.grams}, {Column: "price", Text: a.price},
		{Column: "allergens", Text: a.allergens}, {Column: "like", Text: a.like}, {Column: "kinds", Text: a.kinds}, {Column: "container", Text: a.container}, {Column: "label", Text: text}}
	changes, err := t.ReadFoods(unwritten, foods.FromRows(asRows(cells)))
	if err != nil {
		return badInput(byFlag(err))
	}
	p := changes.Packs[0]
	cells[2].Text = p.Key
	if name != "" {
		cells[0].Text = p.Food.NDB
	}
	content, err := foods.AddRow(have, cells)
	if err != nil {
		return badInput(fmt.Errorf("%s: %w", a.file, err))
	}
	if fresh, err := foods.Load(); err != nil {
		return err
	} else if _, err := fresh.ReadFoods(a.file, bytes.NewReader(content)); err != nil {
		return badInput(err)
	}
	for i, line := range changes.Warnings {
		changes.Warnings[i] = strings.TrimPrefix(line, unwritten+": ")
	}
	var shown bytes.Buffer
	if err := report.OwnPack(p, changes.Notes, changes.Warnings).Text(&shown); err != nil {
		return err
	}
	if _, err := s.stdout.Write(shown.Bytes()); err != nil {
		return err
	}
	if !a.yes && a.label != standardInput && !s.agreed(a.file) {
		s.note("nothing is written")
		return nil
	}
	if now, err := s.ownFile(a.file); err != nil || !bytes.Equal(now, have) {
		return badInput(errors.Join(err, fmt.Errorf("%s has changed in the meantime; nothing is written, add it again", a.file)))
	}
	if err := (&output{out: a.file}).write(content); err != nil {
		return err
	}
	s.note("written to %s: %s", a.file, p.Key)
	return nil
}

// ownFile reads a file of foods, which may not be there yet.
func (s *session) ownFile(file string) ([]byte, error) {
	content, _, err := s.readAll(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return content, err
}

// readLabel returns the label as one cell, its lines parted by semicolons. The
// faults have their places in the file.
func (a *addFlags) readLabel(s *session) (string, error) {
	if a.label == "" {
		return "", nil
	}
	content, name, err := s.readAll(a.label)
	if err != nil {
		return "", err
	}
	if _, faults := label.Parse(string(content)); len(faults) > 0 {
		var all []error
		for _, fault := range faults {
			fault.File, fault.Field = name, "label"
			all = append(all, fault)
		}
		return "", table.Join(all...)
	}
	var lines []string
	for line := range strings.Lines(string(content)) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "; "), nil
}

// asRows are a header and one row.
func asRows(cells []foods.Cell) [][]string {
	rows := make([][]string, 2)
	for _, c := range cells {
		rows[0], rows[1] = append(rows[0], c.Column), append(rows[1], c.Text)
	}
	return rows
}

// byFlag words the faults of the row by the flags that its cells came from.
func byFlag(err error) error {
	var faults *table.Errors
	if !errors.As(err, &faults) {
		return err
	}
	var all []error
	for _, fault := range faults.List {
		where := "--" + fault.Field
		if fault.Field == "name" || fault.Field == "pack" || fault.Field == "ndb" {
			where = fault.Field
		}
		all = append(all, fmt.Errorf("%s %q: %w; %s", where, fault.Value, fault.Err, fault.Fix))
	}
	return errors.Join(all...)
}

// agreed asks on a terminal whether to write; where nobody can be asked it is agreed.
func (s *session) agreed(file string) bool {
	in, ok := s.stdin.(*os.File)
	if !ok || !term.IsTerminal(int(in.Fd())) {
		return true
	}
	fmt.Fprintf(s.stderr, "Write this to %s? [y/N] ", file)
	answer, err := bufio.NewReader(s.stdin).ReadString('\n')
	word := strings.ToLower(strings.TrimSpace(answer))
	return err == nil && (word == "y" || word == "yes")
}

package cli

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/foods"
)

func newFoods(s *session) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "foods",
		Short: "The food table: list it, look one food up, verify it, add to it",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return fmt.Errorf("say what to do: foods list, foods show FOOD, foods add or foods verify")
			}
			return fmt.Errorf("there is no command \"foods %s\"%s", args[0], suggestion(cmd, args[0]))
		},
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newFoodsList(s), newFoodsShow(s), newFoodsVerify(s), newFoodsAdd(s))
	return cmd
}

func newFoodsList(s *session) *cobra.Command {
	var (
		from sources
		to   shape
	)
	cmd := &cobra.Command{
		Use:   "list [FOOD or KIND]...",
		Short: "Every food with its packs and prices",
		Long: `list prints the food table, one row a pack. With names of foods, kinds (fish,
tinned beans), shop groups or pattern groups it prints those only.`,
		Example: `  rationwright foods list
  rationwright foods list "canned fish" --units us
  rationwright foods list --prices shop.csv --format csv --out table.csv`,
		RunE: to.work(s, func(_ *cobra.Command, args []string, out *output) error {
			t, list, err := s.chosenFoods(&from, args)
			if err != nil {
				return err
			}
			return out.answer(report.FoodsJSON(list, false), report.FoodListCSV(list), report.FoodList(list, t.Groups(), to.units))
		}),
	}
	fs := cmd.Flags()
	from.addTable(fs)
	to.addUnits(fs)
	to.add(fs, formatTable, formatCSV, formatJSON)
	return cmd
}

// chosenFoods loads the table and returns the foods that names stand for, in
// table order; all of them without names.
func (s *session) chosenFoods(from *sources, names []string) (*foods.Table, []*foods.Food, error) {
	if err := from.oneStream(); err != nil {
		return nil, nil, err
	}
	t, _, err := from.table(s)
	if err != nil {
		return nil, nil, badInput(err)
	}
	if len(names) == 0 {
		return t, t.Foods, nil
	}
	if err := s.meant(t, names...); err != nil {
		return nil, nil, badInput(err)
	}
	var chosen []*foods.Food
	for _, name := range names {
		found, err := t.Named(name)
		if err != nil {
			return nil, nil, badInput(err)
		}
		chosen = append(chosen, found...)
	}
	return t, slices.DeleteFunc(slices.Clone(t.Foods), func(f *foods.Food) bool { return !slices.Contains(chosen, f) }), nil
}

// shown is what there is to show of name: the food that has exactly this name,
// or else all that it stands for.
func (s *session) shown(t *foods.Table, name string) (*foods.Meaning, error) {
	if f, err := t.Food(name); err == nil {
		return &foods.Meaning{Name: f.Name, Foods: []*foods.Food{f}}, nil
	}
	if err := s.meant(t, name); err != nil {
		return nil, badInput(err)
	}
	return t.Resolve(name)
}

func newFoodsShow(s *session) *cobra.Command {
	var (
		from sources
		to   shape
	)
	cmd := &cobra.Command{
		Use:   "show FOOD",
		Short: "All that is known of one food, or the foods of a kind",
		Long: `show prints the composition, packs, keeping, preparation and sources of one food.
FOOD is its name, its NDB number or the key of one of its packs. A word that means
several foods (oats, fish, tinned beans) prints which, and its other words.`,
		Example: `  rationwright foods show 20044
  rationwright foods show oats
  rationwright foods show "chickpeas, dry" --format json`,
		Args: oneArg("foods show takes one FOOD; %d given (put a name of several words in quotes)"),
		RunE: to.work(s, func(_ *cobra.Command, args []string, out *output) error {
			t, _, err := from.table(s)
			if err != nil {
				return badInput(err)
			}
			m, err := s.shown(t, args[0])
			if err != nil {
				return err
			}
			if len(m.Foods) == 1 {
				return out.answer(report.FoodsJSON(m.Foods, true), nil, report.Food(m.Foods[0], to.units))
			}
			return out.answer(report.KindJSON(m, t.Kinds()), nil, report.Kind(m, t.Kinds(), to.units))
		}),
	}
	fs := cmd.Flags()
	from.addTable(fs)
	to.addUnits(fs)
	to.add(fs, formatTable, formatJSON)
	return cmd
}

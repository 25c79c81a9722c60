package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// addStorage adds the flags about where and with what it is kept and cooked, beyond limits
// on totals.
func (f *planFlags) addStorage(fs *pflag.FlagSet) {
	f.addStove(fs)
	fs.StringArrayVar(&f.ill, "ill", nil, "more water to drink is kept for `NAME`, who is ill or may be; repeat for more")
	fs.StringVar(&f.shelf, "shelves", "", "shelves for food and water, floor up: a `FILE` shelf,width_cm,depth_cm,height_cm,load_kg")
}

func (f *planFlags) addStove(fs *pflag.FlagSet) {
	f.asked.Stove = stores.UsualStove
	fs.Var((*stoveName)(&f.asked.Stove), "stove", "stove and fuel, by the names that stores lists; cooking goes no further than it serves")
}

// stoveName is the value of --stove: a fuel of package stores.
type stoveName string

func (n *stoveName) String() string { return string(*n) }

func (n *stoveName) Type() string { return "NAME" }

// Set takes the name of a fuel.
func (n *stoveName) Set(text string) error {
	if _, err := stores.StoveByName(text); err != nil {
		return err
	}
	*n = stoveName(text)
	return nil
}

// shelves reads --shelves; without it there are none.
func (f *planFlags) shelves(s *session) (list []stores.Shelf, err error) {
	err = s.read(f.shelf, func(name string, r io.Reader) (warnings []string, err error) {
		list, warnings, err = stores.ReadShelves(name, r)
		return warnings, err
	})
	return list, err
}

// sick returns the names of --ill, each of which must be in the household.
func (f *planFlags) sick(people []nutrients.Person) ([]string, error) {
	names := make([]string, len(people))
	for i, p := range people {
		names[i] = p.Name
	}
	var found []string
	for _, want := range f.ill {
		at := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(strings.TrimSpace(n), strings.TrimSpace(want)) })
		if at < 0 {
			near := table.Nearest(want, names, 3)
			if len(near) == 0 {
				near = names
			}
			return nil, badInput(fmt.Errorf("--ill %q: nobody in the household is called that; there is %s", want, strings.Join(near, ", ")))
		}
		found = append(found, names[at])
	}
	return found, nil
}

package dishes

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

const (
	ownList  = "dish,name,slots,from_months,cooking,minutes,texture,times_usual,times_max,how\n"
	ownParts = "dish,part_kind_or_food,name,role,min_g,usual_g,max_g,optional\n"
)

// TestOwnDishTakesItsPlace: a user's dish with the key of another stands in the book
// instead of it, once, and the rest stay; a new key is one dish more.
func TestOwnDishTakesItsPlace(t *testing.T) {
	b := embeddedBook(t)
	was, old := len(b.Dishes), b.Dishes[0].Key
	list := ownList + old + ",rice of the house,midday,12,boil,25,regular,3,5,Boil the rice.\nnew-one,another,midday,12,boil,25,regular,3,5,Boil the rice.\n"
	parts := ownParts + old + ",rice,rice,base,50,80,120,\nnew-one,rice,rice,base,50,80,120,\n"
	if _, err := b.Read("list", strings.NewReader(list), "parts", strings.NewReader(parts)); err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, d := range b.Dishes {
		keys = append(keys, d.Key)
	}
	if got := slices.Compact(slices.Clone(keys)); len(keys) != was+1 || len(got) != len(keys) || b.Dish(old).Name != "rice of the house" || b.Dish("new-one") == nil {
		t.Errorf("%d dishes, %d keys, want %d; %s is %q", len(keys), len(got), was+1, old, b.Dish(old).Name)
	}
}

// TestDishOfNothingThatItNeeds: of a dish at least one part is always there.
func TestDishOfNothingThatItNeeds(t *testing.T) {
	for optional, want := range map[string]error{"yes": ErrNoParts, "no": nil, "": nil} {
		b := embeddedBook(t)
		_, err := b.Read("list", strings.NewReader(ownList+"x,x,midday,12,boil,25,regular,3,5,Boil it.\n"),
			"parts", strings.NewReader(ownParts+"x,rice,rice,base,50,80,120,"+optional+"\n"))
		if !errors.Is(err, want) || want == nil && err != nil || (b.Dish("x") != nil) != (want == nil) {
			t.Errorf("its one part optional %q: %v, want %v", optional, err, want)
		}
	}
}

// TestFaultsOfEitherFile: a single fault of either file is told with its place, whatever part of a
// dish it is in, and the book stays as it was; without it the same two files are read.
func TestFaultsOfEitherFile(t *testing.T) {
	const dish, part = "x,x,midday,12,boil,25,regular,3,5,Boil it.", "x,rice,rice,base,50,80,120,,"
	header := strings.TrimSuffix(ownParts, "\n") + ",substitutes,reckoned_as,water_ml_per_100g\n"
	for _, c := range []struct {
		name       string
		list, rows string // second rows of the dishes, third of the parts
		at         string // where the fault is, "" none
		is         error  // nil: some error
	}{
		{"nothing wrong", "y,y,midday,12,boil,25,regular,3,5,Boil it.", "y,oats,oats,base,50,80,120,no,,,", "", nil},
		{"nothing wrong in what can be left out", "", "x,oats,oats,flavour,5,8,12,yes,,,", "", nil},
		{"a food that does not exist, in what can be left out", "", "x,no such food,oats,flavour,5,8,12,yes,,,", "parts:3:3", ErrUnknown},
		{"a food that does not exist", "", "x,no such food,oats,flavour,5,8,12,no,,,", "parts:3:3", ErrUnknown},
		{"no such dish", "", "z,oats,oats,flavour,5,8,12,yes,,,", "parts:3:1", ErrNoDish},
		{"the least is more than is usual", "", "x,oats,oats,flavour,9,8,12,yes,,,", "parts:3:", ErrAmounts},
		{"the most is less than is usual", "", "x,oats,oats,flavour,5,8,7,yes,,,", "parts:3:", ErrAmounts},
		{"no number", "", "x,oats,oats,flavour,five,8,12,yes,,,", "parts:3:21", nil},
		{"no such role", "", "x,oats,oats,spice,5,8,12,yes,,,", "parts:3:13", nil},
		{"a substitute without its factor", "", "x,oats,oats,flavour,5,8,12,yes,rice,,", "parts:3:", nil},
		{"a substitute that does not exist", "", "x,oats,oats,flavour,5,8,12,yes,no such food*2,,", "parts:3:", ErrUnknown},
		{"reckoned as a food that is none of it", "", "x,oats,oats,flavour,5,8,12,yes,,20044,", "parts:3:", ErrUnknown},
		{"water below nothing", "", "x,oats,oats,flavour,5,8,12,yes,,,-1", "parts:3:", nil},
		{"a dish twice", dish, "", "list:3:1", ErrTwice},
		{"a dish without parts", "y,y,midday,12,boil,25,regular,3,5,Boil it.", "", "list:3:1", ErrNoParts},
		{"no such slot", "y,y,lunch,12,boil,25,regular,3,5,Boil it.", "y,oats,oats,base,50,80,120,no,,,", "list:3:5", nil},
		{"more often usual than at most", "y,y,midday,12,boil,25,regular,6,5,Boil it.", "y,oats,oats,base,50,80,120,no,,,", "list:3:", nil},
	} {
		b := embeddedBook(t)
		before := slices.Clone(b.Dishes)
		_, err := b.Read("list", strings.NewReader(ownList+dish+"\n"+c.list+"\n"), "parts", strings.NewReader(header+part+",,\n"+c.rows+"\n"))
		switch {
		case c.at == "" && (err != nil || b.Dish("x") == nil):
			t.Errorf("%s: %v", c.name, err)
		case c.at == "":
		case err == nil:
			t.Errorf("%s: no fault", c.name)
		case !strings.HasPrefix(err.Error(), c.at) || strings.Contains(err.Error(), "\n") || c.is != nil && !errors.Is(err, c.is):
			t.Errorf("%s: %v, want one fault at %s, %v", c.name, err, c.at, c.is)
		case !slices.Equal(b.Dishes, before):
			t.Errorf("%s: the book has changed", c.name)
		}
	}
	// A fault in each file is told as both.
	b := embeddedBook(t)
	_, err := b.Read("list", strings.NewReader(ownList+dish+"\n"+dish+"\n"), "parts", strings.NewReader(header+part+",,\nx,no such food,oats,flavour,5,8,12,yes,,,\n"))
	if !errors.Is(err, ErrTwice) || !errors.Is(err, ErrUnknown) {
		t.Errorf("a fault in each file: %v", err)
	}
}

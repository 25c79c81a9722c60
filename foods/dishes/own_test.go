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

// TestEveryCellOfADish: each cell of the two files stands where it belongs, and what is left out is
// none; the bounds of amounts, 0.05 to 2000 g and a factor to 1000, are taken and what lies beyond is
// not.
func TestEveryCellOfADish(t *testing.T) {
	const list = "dish,name,core,slots,from_months,under_months,cooking,simmer_min,stand_min,soak_hours,minutes,pots,cold_only,texture,times_usual,times_max,how\n" +
		"x,porridge,yes,breakfast; snack,12,48,simmer,7,8,0.5,20,2,no,soft,3,5,Boil it.\ny,plain,,midday,12,,none,,,,5,,yes,regular,1,1,Eat it.\n"
	const parts = "dish,part_kind_or_food,name,role,min_g,usual_g,max_g,optional,substitutes,eaten_as,water_ml_per_100g,reckoned_as,note\n" +
		"x,08120,oats,base,40,60,80,no,20044*0.5,soaked,300,20044,a note\ny,\"white rice, long grain, enriched\",rice,base,0.05,0.05,2000,,,,,,\n"
	b := embeddedBook(t)
	if _, err := b.Read("list", strings.NewReader(list), "parts", strings.NewReader(parts)); err != nil {
		t.Fatal(err)
	}
	d := *b.Dish("x")
	p := *d.Parts[0]
	if d.Parts = nil; d.Key != "x" || d.Name != "porridge" || !d.Core || !slices.Equal(d.Slots, []Slot{Breakfast, Snack}) || d.FromMonths != 12 || d.UnderMonths != 48 || d.Cooking != "simmer" ||
		d.SimmerMin != 7 || d.StandMin != 8 || d.SoakHours != 0.5 || d.Minutes != 20 || d.Pots != 2 || d.ColdOnly || d.Texture != "soft" || d.TimesUsual != 3 || d.TimesMax != 5 || d.How != "Boil it." || !d.Own {
		t.Errorf("%+v", d)
	}
	oats, rice := b.byNDB["08120"], b.byNDB["20044"]
	if p.Ref != "08120" || p.Name != "oats" || p.Role != "base" || p.MinG != 40 || p.UsualG != 60 || p.MaxG != 80 || p.Optional || p.EatenAs != "soaked" || p.WaterML == nil || *p.WaterML != 300 || p.Note != "a note" || p.ReckonedAs != rice {
		t.Errorf("%+v", p)
	}
	if !slices.Equal(p.Options, []Option{{oats, 1, false}, {rice, 0.5, true}}) {
		t.Errorf("%+v, want oats, or half as much rice", p.Options)
	}
	if factor, ok := p.Makes(b.byNDB["01090"]); ok || factor != 0 {
		t.Errorf("milk makes the part with %g", factor)
	}
	d = *b.Dish("y")
	if p = *d.Parts[0]; d.Core || !d.ColdOnly || d.UnderMonths != 0 || d.SimmerMin != 0 || d.StandMin != 0 || d.SoakHours != 0 || d.Pots != 0 || p.Optional || p.WaterML != nil || p.ReckonedAs != p.Options[0].Food || p.Options[0].Food.Name != "white rice, long grain, enriched" || p.Options[0].Factor != 1 {
		t.Errorf("%+v with %+v", d, p)
	}
	for months, want := range map[int]bool{11: false, 12: true, 47: true, 48: false, 49: false} {
		if got := b.Dish("x").ServedTo(months); got != want {
			t.Errorf("served at %d months: %v, want %v", months, got, want)
		}
	}
	if !b.Dish("y").ServedTo(1000) || b.Dish("y").ServedTo(11) {
		t.Error("a dish without an upper end is not for everybody from its first month on")
	}

	const header = "dish,part_kind_or_food,name,role,min_g,usual_g,max_g,substitutes\n"
	for row, ok := range map[string]bool{
		"0.05,0.05,0.05,": true, "0.04,0.05,0.05,": false, "0.05,0.04,0.05,": false, "0.05,0.05,0.04,": false, "2000,2000,2000,": true, "2000,2000,2001,": false,
		"50,60,70,20044*1000": true, "50,60,70,20044*1001": false, "50,60,70,20044*0": false, "50,60,70,20044*-1": false, "50,60,70,20044*x": false, "50,60,70,20044*0.001": true,
	} {
		_, err := b.Read("list", strings.NewReader(ownList+"x,x,midday,12,boil,25,regular,3,5,Boil it.\n"), "parts", strings.NewReader(header+"x,08120,oats,base,"+row+"\n"))
		if (err == nil) != ok {
			t.Errorf("amounts of %s: %v, want taken %v", row, err, ok)
		}
	}
	for column, ends := range map[string][2]string{"from_months": {"1440", "1441"}, "under_months": {"1440", "1441"}, "pots": {"4", "5"}, "simmer_min": {"1440", "1441"}, "stand_min": {"1440", "1441"}, "soak_hours": {"1440", "1441"}, "times_max": {"140", "141"}, "minutes": {"1440", "1441"}} {
		for i, value := range ends {
			cells := map[string]string{"dish": "x", "name": "x", "slots": "midday", "from_months": "12", "cooking": "boil", "minutes": "25", "texture": "regular", "times_usual": "3", "times_max": "5", "how": "Boil it."}
			cells[column] = value
			var names, row []string
			for name, cell := range cells {
				names, row = append(names, name), append(row, cell)
			}
			_, err := b.Read("list", strings.NewReader(strings.Join(names, ",")+"\n"+strings.Join(row, ",")+"\n"), "parts", strings.NewReader(header+"x,08120,oats,base,50,60,70,\n"))
			if (err == nil) != (i == 0) {
				t.Errorf("%s of %s: %v", column, value, err)
			}
		}
	}
}

// TestFilesThatAreNone: what is no table at all is told of either file, and the book stays.
func TestFilesThatAreNone(t *testing.T) {
	const list, parts = ownList + "x,x,midday,12,boil,25,regular,3,5,Boil it.\n", ownParts + "x,rice,rice,base,50,80,120,\n"
	b := embeddedBook(t)
	for _, c := range []struct{ list, parts, want string }{{"", parts, "list:1:1: "}, {list, "", "parts:1:1: "}, {"\xff\xfe", parts, "list: "}, {list, "PK\x03\x04", "parts: "}} {
		was := len(b.Dishes)
		if _, err := b.Read("list", strings.NewReader(c.list), "parts", strings.NewReader(c.parts)); err == nil || !strings.HasPrefix(err.Error(), c.want) || len(b.Dishes) != was {
			t.Errorf("%q and %q: %v, %d dishes", c.list, c.parts, err, len(b.Dishes))
		}
	}
	// What is not known is told of both files.
	warnings, err := b.Read("list", strings.NewReader(strings.Replace(list, "how\n", "how,colour\n", 1)[:len(list)+len(",colour")-1]+",red\n"),
		"parts", strings.NewReader(strings.Replace(parts, "optional\n", "optional,shade\n", 1)[:len(parts)+len(",shade")-1]+",dark\n"))
	if err != nil || len(warnings) != 2 || !strings.Contains(warnings[0], "colour") || !strings.Contains(warnings[1], "shade") {
		t.Errorf("%q, %v; want a warning of each file", warnings, err)
	}
}

package foods

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

func TestFoodByName(t *testing.T) {
	tab := load(t)
	rice := food(t, tab, "20044")
	for _, name := range []string{rice.Name, strings.ToUpper(rice.Name), " " + rice.Name + " ", "20044", rice.Packs[0].Key, strings.ToUpper(rice.Packs[0].Key)} {
		if f, err := tab.Food(name); err != nil || f != rice {
			t.Errorf("Food(%q) = %v, %v, want %s", name, f, err, rice.Name)
		}
	}
	if _, err := tab.Food("rice"); !errors.Is(err, ErrAmbiguous) {
		t.Errorf("Food(rice): %v, want ErrAmbiguous: it is several foods", err)
	}
	// A part of a name that is no word of its own names nothing: it would mean
	// another food one day.
	for _, name := range []string{"", "rice, long", "long grain", "2004", "99999"} {
		_, err := tab.Food(name)
		if !errors.Is(err, ErrUnknown) {
			t.Errorf("Food(%q): %v, want ErrUnknown", name, err)
		}
	}
}

// TestKeysInAnySpelling: a food is found by its number and by the key of each of its packs, in
// capitals, with blanks around it and in either way of writing an accent, and so is the pack;
// a key with a letter more or less names none.
func TestKeysInAnySpelling(t *testing.T) {
	tab := load(t)
	const composed, parted = "cr\u00e8me-riz-700g", "cre\u0300me-riz-700g" // one letter, and a letter with its accent behind it
	if _, err := tab.ReadFoods("own.csv", strings.NewReader("ndb,pack,net_g,tare_g,volume_l,price\n20044,"+composed+",700,9,1,2\n20044,Island-Rice-700g,700,9,1,2\n")); err != nil {
		t.Fatal(err)
	}
	spellings := func(key string) []string {
		up := strings.ToUpper(key)
		return []string{key, up, strings.ToLower(key), " " + key + " ", "\t" + up, up + "  "}
	}
	find := func(what, name string, f *Food) {
		if got, err := tab.Food(name); err != nil || got != f {
			t.Errorf("%s: Food(%q) = %v, %v, want %s", what, name, got, err, f.Name)
		}
		if got, err := tab.Named(name); err != nil || !slices.Equal(got, []*Food{f}) {
			t.Errorf("%s: Named(%q) = %v, %v, want %s alone", what, name, got, err, f.Name)
		}
	}
	for _, f := range tab.Foods {
		for _, name := range spellings(f.NDB) {
			find("number", name, f)
		}
	}
	for _, p := range tab.Packs {
		names := spellings(p.Key)
		if p.Key == composed {
			names = append(names, spellings(parted)...)
		}
		for _, name := range names {
			find("key", name, p.Food)
			if got, err := tab.Pack(name); err != nil || got != p {
				t.Errorf("Pack(%q) = %v, %v, want %s", name, got, err, p.Key)
			}
		}
		// In files as well.
		for _, name := range names {
			if p.Key != composed {
				break
			}
			if got, err := tab.ReadStock("stock.csv", strings.NewReader("pack,count\n\""+name+"\",3\n")); err != nil || len(got.Lines) != 1 || got.Lines[0].Pack != p {
				t.Errorf("stock of %q: %+v, %v, want %s", name, got, err, p.Key)
			}
			priced := tab.Clone()
			if got, err := priced.ReadPrices("prices.csv", strings.NewReader("pack,price\n\""+name+"\",3\n")); err != nil || got.Priced != 1 {
				t.Errorf("price of %q: %+v, %v, want that of %s", name, got, err, p.Key)
			}
		}
		for _, name := range []string{p.Key + "x", "x" + p.Key, p.Key[1:]} {
			if got, err := tab.Pack(name); !errors.Is(err, ErrUnknown) {
				t.Errorf("Pack(%q) = %v, %v, want none", name, got, err)
			}
			if got := tab.byKey(name); got != nil {
				t.Errorf("%q is taken for a key of %s", name, got.Name)
			}
		}
	}
}

func TestNearest(t *testing.T) {
	tab := load(t)
	for _, test := range []struct{ name, want string }{
		{"rolled oat", "rolled oats"},
		{"roled oats", "rolled oats"},
		{"oats rolled", "rolled oats"},
		{"HONNEY", "honey"},
		{"canned vegetable", "canned vegetables"},
		{"fruit", "fruit"},
	} {
		near := tab.Nearest(test.name)
		if len(near) > 3 || !slices.Contains(near, test.want) {
			t.Errorf("Nearest(%q) = %q, want %q among at most three", test.name, near, test.want)
		}
	}
	if near := tab.Nearest("qqqqqqqqqqq"); len(near) > 0 {
		t.Errorf("Nearest of nonsense = %q", near)
	}
	// A food of one's own that is called like a shop group is what the name of the group means too.
	if _, err := tab.ReadFoods("foods.csv", strings.NewReader(userHeader+"U001,Sweets and Spreads,canned and boxed meals,canned_low_acid_vegetable,wheat,none,soft,100,4,2,16.5,77,0.5,U001-400g,400,can_300,1.80,grains:0.9\n")); err != nil {
		t.Fatal(err)
	}
	near := tab.Nearest("sweets and spread")
	if slices.Contains(near, "Sweets and Spreads") == slices.Contains(near, "sweets and spreads") {
		t.Errorf("Nearest(%q) = %q, want the food or the group that means it, one of the two", "sweets and spread", near)
	}
}

func TestNamed(t *testing.T) {
	tab := load(t)
	for _, test := range []struct {
		name string
		is   func(*Food) bool
	}{
		{"honey", func(f *Food) bool { return f.Name == "honey" }},
		{"canned fish", func(f *Food) bool { return f.Group == "canned fish" && !slices.Contains(f.Allergens, "shellfish") }},
		{"Sardine", func(f *Food) bool { return strings.HasPrefix(f.Name, "sardines") }},
		{"tin of sardines", func(f *Food) bool { return strings.HasPrefix(f.Name, "sardines") }},
		{"Bread and Crackers", func(f *Food) bool { return f.Group == "bread and crackers" }},
		{"whole-grains", func(f *Food) bool { return f.PerGram("whole-grains") > 0 }},
	} {
		found, err := tab.Named(test.name)
		if err != nil {
			t.Errorf("Named(%q): %v", test.name, err)
		}
		for _, f := range tab.Foods {
			if slices.Contains(found, f) != test.is(f) {
				t.Errorf("Named(%q): %s in %v", test.name, f.Name, slices.Contains(found, f))
			}
		}
	}
}

func TestGroupsAreUsed(t *testing.T) {
	tab := load(t)
	groups := tab.Groups()
	for _, g := range groups {
		if !slices.ContainsFunc(tab.Foods, func(f *Food) bool { return f.Group == g }) {
			t.Errorf("no food stands in the shop group %q", g)
		}
	}
	groups[0] = "changed"
	if tab.Groups()[0] == "changed" {
		t.Error("Groups gives away the table's own slice")
	}
}

// Words are alike that differ by one slip of the pen: a letter more, less or wrong, or two
// the wrong way round; in words of three letters a slip makes another word.
func TestAlike(t *testing.T) {
	for _, test := range []struct {
		x, y string
		want bool
	}{
		{"beans", "beans", true}, {"ham", "ham", true}, {"", "", true},
		{"beans", "beens", true}, {"beans", "xeans", true}, {"beans", "beanx", true},
		{"beans", "eans", true}, {"beans", "bean", true}, {"beans", "beas", true},
		{"beans", "beasn", true}, {"beans", "ebans", true}, {"beans", "baens", true},
		{"beans", "bxxns", false}, {"beans", "bea", false}, {"beans", "beaxy", false}, {"beans", "nbeas", false}, {"beans", "bsaen", false},
		{"bean", "beansx", false}, {"oats", "otas", true}, {"oats", "taos", false},
		{"ham", "jam", false}, {"ham", "hams", false}, {"hams", "ham", false}, {"hams", "hamx", true}, {"abcd", "abdcx", false},
	} {
		if alike(test.x, test.y) != test.want || alike(test.y, test.x) != test.want {
			t.Errorf("%q and %q: %v and %v, want %v", test.x, test.y, alike(test.x, test.y), alike(test.y, test.x), test.want)
		}
	}
}

// Of several words the shortest names that hold all of them come first, then those a few
// letters away, then those that share most of the words; never a name twice.
func TestNearestOfNames(t *testing.T) {
	names := []string{"kidney beans, canned, low sodium", "beans, kidney, canned", "kidney bean", "white beans", "peas", "kidney pie"}
	for _, test := range []struct {
		s    string
		most int
		want []string
	}{
		{"kidney beans", 3, []string{"kidney bean", "beans, kidney, canned", "kidney beans, canned, low sodium"}},
		{"kidney beans", 2, []string{"kidney bean", "beans, kidney, canned"}},
		{"kidney beans", 6, []string{"kidney bean", "beans, kidney, canned", "kidney beans, canned, low sodium", "white beans", "kidney pie"}},
		{"kideny beans", 1, []string{"kidney bean"}},
		{"canned white pie", 3, []string{"kidney beans, canned, low sodium", "beans, kidney, canned", "white beans"}},
		{"pea", 3, []string{"peas"}},
		{"of in", 3, nil},
	} {
		if got := nearest(test.s, names, test.most); !slices.Equal(got, test.want) {
			t.Errorf("nearest %q, %d: %q, want %q", test.s, test.most, got, test.want)
		}
	}
	for _, test := range []struct {
		a, b string
		want int
	}{{"kidney beans", "bean kidney", 2}, {"a of beans", "a of bean", 1}, {"pea", "peas", 1}, {"rye rye", "rye", 2}, {"rye", "rice", 0}} {
		if got := sharedWords(strings.Fields(test.a), strings.Fields(test.b)); got != test.want {
			t.Errorf("%q shares %d words with %q, want %d", test.a, got, test.b, test.want)
		}
	}
}

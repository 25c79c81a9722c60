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

package report

import (
	"testing"

	"rationwright/solver/ration"
)

// What got worse is not sold as something that people would rather eat.
func TestWhatGotWorseIsSaidAsSuch(t *testing.T) {
	for _, c := range []struct {
		now  ration.Eatable
		was  ration.First
		want string
	}{
		{ration.Eatable{Products: 29, MostSizes: 1, Crumbs: 2}, ration.First{Products: 31, MostSizes: 2, Crumbs: 18}, "29 foods instead of 31, at most 1 pack size instead of 2 of any one, 2 amounts instead of 18 under a portion"},
		{ration.Eatable{Products: 31, MostSizes: 2, Crumbs: 14}, ration.First{Products: 31, MostSizes: 2, Crumbs: 11}, "31 foods, at most 2 pack sizes of any one; but 14 amounts instead of 11 under a portion"},
		{ration.Eatable{Products: 1, MostSizes: 3, Crumbs: 1}, ration.First{Products: 2, MostSizes: 2, Crumbs: 0}, "1 food instead of 2; but at most 3 pack sizes instead of 2 of any one, 1 amount instead of 0 under a portion"},
		{ration.Eatable{Products: 4, MostSizes: 1, Crumbs: 1}, ration.First{Products: 4, MostSizes: 1, Crumbs: 1}, "4 foods, at most 1 pack size of any one, 1 amount under a portion"},
	} {
		if got := changes(&c.now, &c.was); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

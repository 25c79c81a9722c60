package sheet

import (
	"strings"
	"testing"
)

func TestNumbers(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Decimals(1234567.891, 2), "1,234,567.89"},
		{Decimals(-1234.5, 0), "-1,234"}, // half to even, as strconv rounds
		{Decimals(-0.001, 2), "0.00"},
		{Decimals(999.995, 2), "1,000.00"},
		{Amount(99.96), "100"},
		{Amount(9.996), "10.0"},
		{Amount(0.004), "0.0040"},
		{Amount(0), "0"},
		{Figure(1300), "1,300"},
		{Figure(8), "8"},
		{Figure(0.89), "0.89"},
		{Nutrient("vitamin_a_iu"), "vitamin A IU"},
		{Percent(0.99999), "99"},
		{Percent(1 - 1e-9), "100"},
		{GapPercent(0.00801), "0.81 %"}, // rounded up: never better than it is
		{GapPercent(0.12), "12 %"},
		{GapPercent(0), "0.00 %"},
		{Nutrient("vitamin_b6"), "vitamin B6"},
		{Nutrient("added_sugars"), "added sugars"},
		{Nutrient("vitamin e at least"), "vitamin E at least"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func FuzzWrap(f *testing.F) {
	f.Add("a b", 1)
	f.Add("長い名前 långt\x00\x1b[1m", 3)
	f.Add("👩‍👩‍👧 e\u0301", 1)
	f.Fuzz(func(t *testing.T, s string, n int) {
		n = 2 + (n%60+60)%60 // a wide character takes two columns
		for _, line := range wrap(s, n) {
			if width(line) > n {
				t.Errorf("wrap(%q, %d) has a line of %d columns: %q", s, n, width(line), line)
			}
		}
	})
}

// The key of a pack is broken behind a hyphen; only a word without one is cut.
func TestWrapBreaksKeysBehindHyphens(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
		want string
	}{
		{"whole-wheat-hot-cereal-680g-canister", 14, "whole-wheat-|hot-cereal-|680g-canister"},
		{"2 salt-737g-canister", 8, "2|salt-|737g-|canister"},
		{"cinnamonandsugar", 10, "cinnamonan|dsugar"},
		{"rye-crisp", 9, "rye-crisp"},
		{"-1234567", 4, "-123|4567"},
	} {
		if got := strings.Join(wrap(c.text, c.n), "|"); got != c.want {
			t.Errorf("wrap(%q, %d) = %q, want %q", c.text, c.n, got, c.want)
		}
	}
}

// US units, exact by definition: a gallon is 3.785411784 L, a pound 0.45359237 kg, an
// ounce 28.349523125 g, a fluid ounce 29.5735295625 mL, a cubic foot 28.316846592 L.
func TestUnitsOfTheUS(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{US.Water(3.785411784), "1.0 gal"}, {US.Water(40), "10.6 gal"}, {Metric.Water(40), "40.0 L"},
		{US.Weight(0.45359237), "1.0 lb"}, {US.Net(100), "3.5 oz"}, {US.Net(908), "2.00 lb"},
		{US.Drink(0.0295735295625), "1 fl oz"}, {US.Space(28.316846592), "1.0 cu ft"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

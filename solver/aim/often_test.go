package aim

import (
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// TestSittingsTooMany, by hand: of sittings of 50 g, seven of which are not too often, 400 g are
// one too many, 425 g one and a half, 350 g none.
func TestSittingsTooMany(t *testing.T) {
	o := often{col: 1, mostG: 350, sittingG: 50}
	for grams, want := range map[float64]float64{0: 0, 349: 0, 350: 0, 351: 0.02, 375: 0.5, 400: 1, 425: 1.5, 700: 7} {
		if got := o.beyond([]float64{9999, grams}); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g g: %g sittings too many, want %g", grams, got, want)
		}
	}
}

// TestOftenWeighsByKind: the largest weight of the kinds that a food is of, of those about
// what is eaten often alone.
func TestOftenWeighsByKind(t *testing.T) {
	weights := ration.Weights{
		{Part: ration.AimOften, Kinds: []string{"canned meat", "canned fish"}, Value: 2},
		{Part: ration.AimOften, Kinds: []string{"canned fish"}, Value: 5},
		{Part: ration.AimOften, Kinds: []string{"crackers"}, Value: 3},
		{Part: ration.AimVariety, Kinds: []string{"grain"}, Value: 9},
	}
	for _, c := range []struct {
		kinds []string
		want  float64
	}{
		{[]string{"canned meat"}, 2}, {[]string{"canned fish"}, 5}, {[]string{"grain"}, 0}, {[]string{"grain", "crackers"}, 3}, {[]string{"canned meat", "crackers"}, 3}, {nil, 0},
	} {
		if got := oftenWeight(weights, &foods.Food{Kinds: c.kinds}); got != c.want {
			t.Errorf("%v: %g, want %g", c.kinds, got, c.want)
		}
		if any := slices.ContainsFunc(c.kinds, func(k string) bool { return oftenKind(weights, k) }); any != (c.want > 0) {
			t.Errorf("%v: some kind may be too often: %v", c.kinds, any)
		}
	}
}

// TestEverySecondDay: whoever may have more of a food than a sitting every second day has a
// column for the sittings beyond, and a row that asks for them, in any number of days; whoever
// may not has none. What was made rarer may be no more than that, or than it is.
func TestEverySecondDay(t *testing.T) {
	for _, days := range []int{4, 14} {
		p := aimed(t, days, 200, 0.03)
		seen := 0
		for ei, e := range p.model.Eaters {
			for _, y := range e.Eats {
				f := p.model.Larder[y.Food].Food
				sitting, _, _ := foods.Cap(&e.Person, f)
				most := float64(days) / 2 * sitting
				weight := oftenWeight(p.weights, f)
				at := slices.IndexFunc(p.oftens, func(o often) bool { return o.eater == ei && o.food == y.Food })
				if should := weight > 0 && most > 0 && y.CapG > most; should != (at >= 0) {
					t.Errorf("%d days, %s: counted %v, want %v", days, f.Name, at >= 0, should)
				}
				if at < 0 {
					continue
				}
				seen++
				o := p.oftens[at]
				if o.col != y.Col || math.Abs(o.mostG-most) > 1e-9 || o.sittingG != sitting || math.Abs(o.weight-e.Count*weight) > 1e-12 || math.Abs(p.Cols[o.over].Cost-o.weight) > 1e-12 {
					t.Errorf("%d days, %s: %+v at %g, want %g g of %g", days, f.Name, o, p.Cols[o.over].Cost, most, sitting)
				}
				// One sitting more than is not too often takes one in the column, and no less will do.
				row := slices.IndexFunc(p.Rows, func(r linear.Row) bool { return r.Name == "often["+e.Person.Name+","+f.Name+"]" })
				left := 0.0
				for _, term := range p.Cols[y.Col].Entries {
					if term.Row == row {
						left += term.Value * (most + sitting)
					}
				}
				for _, term := range p.Cols[o.over].Entries {
					if term.Row == row {
						left += term.Value
					}
				}
				if row < 0 || math.Abs(left-p.Rows[row].Upper) > 1e-9*most {
					t.Errorf("%d days, %s: a sitting more comes to %g, at most %g", days, f.Name, left, p.Rows[row].Upper)
				}
			}
		}
		if seen == 0 {
			t.Fatalf("%d days: nothing can be too often", days)
		}
		o, other := p.oftens[0], p.oftens[len(p.oftens)-1]
		x := make([]float64, len(p.Cols))
		x[o.col], x[other.col] = 3*o.mostG, 3*other.mostG
		if most := p.mostOf(x); len(most) != 0 {
			t.Errorf("nothing was made rarer: %v", most)
		}
		p.rare[o.food] = true
		if most := p.mostOf(x)[o.col]; most < x[o.col] || most > x[o.col]*1.001 {
			t.Errorf("of %g g there may be %g", x[o.col], most)
		}
		x[o.col] = o.mostG / 2
		if most := p.mostOf(x)[o.col]; most != o.mostG {
			t.Errorf("of %g g there may be %g, want %g", x[o.col], most, o.mostG)
		}
		if _, ok := p.mostOf(x)[other.col]; ok && other.food != o.food {
			t.Error("another food is held too")
		}
	}
}

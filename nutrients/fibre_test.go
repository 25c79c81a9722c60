package nutrients

import (
	"math"
	"testing"
)

// The AI of fibre is derived from 14 g per 1,000 kcal (IOM 2002/2005): a child of one to
// three years is held to it at its own energy, never over the printed 19 g; a child of
// four to the printed 25 g whatever it eats.
func TestFibreOfSmallChildren(t *testing.T) {
	of := func(months int, a Activity) (floor, target, eer float64) {
		needs, err := For(Person{Name: "Runa", AgeMonths: months, Sex: Female, Activity: a}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range needs.List {
			if n.Nutrient == Fibre {
				return n.Floor.Amount, n.Target.Amount, needs.EER.Amount
			}
		}
		t.Fatal("no fibre")
		return
	}
	tried := 0
	for months := 12; months < 48; months++ {
		for _, a := range []Activity{Inactive, LowActive, Active, VeryActive} {
			floor, target, eer := of(months, a)
			want := math.Min(19, 14*eer/1000)
			if math.Abs(floor-want) > 1e-9 || target != 19 {
				t.Errorf("%d months, %s, %.0f kcal: at least %.2f g, target %g; want %.2f and 19", months, a, eer, floor, target, want)
			}
			if floor < 19 {
				tried++
			}
		}
	}
	if tried == 0 {
		t.Error("no child under the printed AI")
	}
	large := mustFor(t, Person{AgeMonths: 47, Sex: Female, HeightCm: 115, WeightKg: 25, Activity: VeryActive}, Options{})
	if got := floorOf(&large, Fibre); large.EER.Amount < 1400 || got != 19 {
		t.Errorf("a large child of %.0f kcal: at least %g g, want the printed 19", large.EER.Amount, got)
	}
	if floor, _, eer := of(48, Inactive); floor != 25 {
		t.Errorf("four years, %.0f kcal: at least %g g, want the printed 25", eer, floor)
	}
}

package cli

import (
	"errors"
	"math"
	"strings"
	"testing"

	"rationwright/foods/stores"
)

// TestDosesOfAllAgents: of every strength of every agent there is a dose for a kind of water, or
// it is said that there is none; who asks for one strength alone, or for an agent that has but
// one, is refused where there is none. Water that nothing makes safe is refused.
func TestDosesOfAllAgents(t *testing.T) {
	known := math.NaN() // the altitude is not
	for _, water := range []stores.Water{stores.ClearWater, stores.CloudyWater, "cold"} {
		all, err := treatment(5, water, "", "", known)
		if err != nil {
			t.Fatal(err)
		}
		doses, strengths := map[string]int{}, 0
		for _, d := range all.Doses {
			doses[d.Agent+"|"+d.Strength]++
			if d.Water != water || d.VolumeL != 5 {
				t.Errorf("%s: %+v", water, d)
			}
		}
		for _, a := range stores.Agents() {
			strengths += len(a.Strengths)
			with := 0
			for _, word := range a.Strengths {
				one, err := treatment(5, water, a.Key, word, known)
				has := doses[a.Key+"|"+word] == 1
				if has {
					with++
				}
				if (err == nil) != has || err != nil && !errors.Is(err, stores.ErrNoDose) || err == nil && (len(one.Doses) != 1 || one.Doses[0].Strength != word || len(one.None) != 0) {
					t.Errorf("%s, %s of %s: %v, %+v, among all there is one: %v", water, word, a.Key, err, one, has)
				}
			}
			of, err := treatment(5, water, a.Key, "", known)
			if len(a.Strengths) == 1 && with == 0 {
				if !errors.Is(err, stores.ErrNoDose) {
					t.Errorf("%s, %s has no dose: %v", water, a.Key, err)
				}
			} else if err != nil || len(of.Doses) != with || len(of.None) != len(a.Strengths)-with {
				t.Errorf("%s, %s: %v, %+v, want %d of %d strengths", water, a.Key, err, of, with, len(a.Strengths))
			}
		}
		if len(all.Doses)+len(all.None) != strengths || len(doses) != len(all.Doses) || water == stores.ClearWater && len(all.None) >= strengths/2 {
			t.Errorf("%s: %d doses and %d without of %d strengths", water, len(all.Doses), len(all.None), strengths)
		}
	}
	for _, agent := range []string{"", "bleach"} {
		if got, err := treatment(5, "chemical", agent, "", known); got != nil || err == nil || !strings.Contains(err.Error(), "do NOT make it safe") {
			t.Errorf("%q: %+v, %v", agent, got, err)
		}
	}
}

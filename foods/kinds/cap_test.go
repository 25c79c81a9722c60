package kinds

import (
	"slices"
	"strings"
	"testing"
)

func loadCaps(t testing.TB) *Caps {
	t.Helper()
	c, err := LoadCaps()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// find returns the one cap of the list, nil when there is none.
func find(caps []Cap, kind string, m Measure, safety bool) *Cap {
	i := slices.IndexFunc(caps, func(c Cap) bool { return c.Kind == kind && c.Measure == m && c.Safety == safety })
	if i < 0 {
		return nil
	}
	return &caps[i]
}

// TestSafetyCaps compares with the publications that the rows name.
func TestSafetyCaps(t *testing.T) {
	c := loadCaps(t)
	for _, want := range []struct {
		kind    string
		measure Measure
		eater   Eater
		value   float64
		source  string
	}{
		{"caffeine foods", Day, Eater{AgeMonths: 400, Is: []string{"pregnant"}}, 200, "EFSA 2015: 200 mg a day in pregnancy"},
		{"caffeine foods", Sitting, Eater{AgeMonths: 400}, 200, "EFSA 2015: 200 mg at once"},
		{"liver pate", Week, Eater{AgeMonths: 400, Is: []string{"pregnant"}}, 0, "NHS: no liver in pregnancy"},
		{"rice drink", Day, Eater{AgeMonths: 50}, 0, "UK FSA: no rice drink under four and a half years"},
	} {
		got := find(c.For(want.eater), want.kind, want.measure, true)
		if got == nil || got.Value != want.value {
			t.Errorf("%s %s of %+v = %+v, want %g (%s)", want.kind, want.measure, want.eater, got, want.value, want.source)
		}
	}
	if got := find(c.For(Eater{AgeMonths: 54}), "rice drink", Day, true); got != nil {
		t.Errorf("rice drink at four and a half = %+v, want no safety row", got)
	}
}

// Rows about a condition bind whoever has it, and nobody else: no salt is added where
// sodium is to be low.
func TestCapsOfAConditionAreTheirs(t *testing.T) {
	c := loadCaps(t)
	for _, who := range []string{"low-sodium", "heart-failure", "kidney-disease"} {
		if got := find(c.For(Eater{AgeMonths: 600, Is: []string{who}}), "table salt", Day, false); got == nil || got.Value != 0 {
			t.Errorf("table salt of somebody with %s = %+v, want none", who, got)
		}
	}
	if got := find(c.For(Eater{AgeMonths: 600, Is: []string{"coeliac"}}), "table salt", Day, false); got == nil || got.Value == 0 {
		t.Errorf("table salt of somebody else = %+v, want some", got)
	}
}

// TestCapsFitTogether checks at every age that more time allows no less, that a
// kind allows no less than one inside it has to itself, and that every row says
// why and where from.
func TestCapsFitTogether(t *testing.T) {
	c, all := loadCaps(t), load(t)
	for _, age := range []int{12, 24, 36, 48, 60, 84, 108, 132, 168, 216, 400, 779, 780, 1100} {
		for _, e := range []Eater{{AgeMonths: age}, {AgeMonths: age, Is: []string{"pregnant"}}, {AgeMonths: age, Is: []string{"lactating"}}} {
			caps := c.For(e)
			for _, cap := range caps {
				for _, longer := range []Measure{Day, Week} {
					more := find(caps, cap.Kind, longer, false)
					if more == nil || more.Unit != cap.Unit || cap.Safety || cap.Measure == longer || cap.Measure != Sitting && cap.Measure != Day {
						continue
					}
					if more.Value < cap.Value-1e-9 {
						t.Errorf("%+v: %s %s %g, but %s %g", e, cap.Kind, cap.Measure, cap.Value, longer, more.Value)
					}
				}
				if all.Kind(cap.Kind) == nil && cap.Kind != AnyFood && cap.Kind != AnyKind {
					t.Errorf("cap of %q, which is no kind", cap.Kind)
				}
			}
		}
	}
	for _, r := range c.Rows {
		if r.Reason == "" || r.Source == "" || r.Verified == "" || r.None {
			t.Errorf("%s %s from %d months says no value, reason or source", r.Kind, r.Measure, r.FromMonths)
		}
		if r.Safety && (strings.Contains(r.Verified, "own planning rule") && !strings.Contains(r.Source, "20") && !strings.Contains(r.Source, "NHS")) {
			t.Errorf("%s %s is safety without a publication: %s", r.Kind, r.Measure, r.Source)
		}
	}
	if len(c.For(Eater{AgeMonths: 3})) > 3 {
		t.Errorf("caps at three months = %v, want safety rows only", c.For(Eater{AgeMonths: 3}))
	}
}

// The rule says that of one food at most 15 % of the energy comes, of one kind at
// most 25 %.
func TestShares(t *testing.T) {
	caps := loadCaps(t).For(Eater{AgeMonths: 400})
	for kind, want := range map[string]float64{AnyFood: 15, AnyKind: 25} {
		if got := find(caps, kind, Share, false); got == nil || got.Value != want {
			t.Errorf("share of %s = %+v, want %g %%", kind, got, want)
		}
	}
}

func TestHouseholdCaps(t *testing.T) {
	c := loadCaps(t)
	for people, want := range map[int]float64{1: 1, 3: 1, 4: 2, 9: 2} {
		if got := find(c.Household(people), AnyFood, SizesMost, false); got == nil || got.Value != want {
			t.Errorf("sizes of one food for %d people = %+v, want %g", people, got, want)
		}
	}
	if got := find(c.Household(2), "peanut butter", FoodsMost, false); got == nil || got.Value != 1 {
		t.Errorf("peanut butters in one household = %+v, want 1", got)
	}
}

func TestEditCaps(t *testing.T) {
	c := loadCaps(t)
	edited, _, err := c.Edit("own.csv", strings.NewReader("kind,measure,value\noats,day,250\npeanut butter,foods-most,\nflax seeds,day,90\nany food,share,40\n"))
	if err != nil {
		t.Fatal(err)
	}
	man := Eater{AgeMonths: 400}
	if got := find(edited.For(man), "oats", Day, false); got == nil || got.Value != 250 {
		t.Errorf("oats a day = %+v, want the user's 250 g", got)
	}
	if got := find(edited.Household(5), "peanut butter", FoodsMost, false); got != nil {
		t.Errorf("peanut butters = %+v, want no limit", got)
	}
	if before, after := find(c.For(man), "flaxseed", Day, true), find(edited.For(man), "flaxseed", Day, true); after == nil || *after != *before {
		t.Errorf("the safety row for flaxseed = %+v, want %+v as before", after, before)
	}
	_, _, err = c.Edit("own.csv", strings.NewReader("kind,measure,value,unit,under_months\noat,dya,250,,\nxyzzy,day,-1,g,0\noats,share,3,g,\n"))
	for _, want := range []string{`own.csv:2:5: measure "dya"`, `own.csv:3:1: kind "xyzzy"`, `own.csv:3:11: value "-1"`, `own.csv:3:16: under_months`, `own.csv:4:14: unit "g": not a unit of share; write % of energy`} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("faults = %v, want %s", err, want)
		}
	}
}

// A row of the user's stands in place of the planning rules for its own kind and measure, at
// every age, and an empty one lifts these; all other rows stay as they are, of the kind, of the
// measure, and whatever is for safety.
func TestEditLeavesTheRest(t *testing.T) {
	c := loadCaps(t)
	type rule struct {
		kind    string
		measure Measure
	}
	tried := map[rule]bool{}
	measures := map[string][]Measure{} // of the planning rules of a kind
	for _, r := range c.Rows {
		of := rule{r.Kind, r.Measure}
		if r.Safety || tried[of] {
			continue
		}
		tried[of] = true
		measures[r.Kind] = append(measures[r.Kind], r.Measure)
		for _, value := range []string{"1", ""} {
			edited, _, err := c.Edit("own.csv", strings.NewReader("kind,measure,value\n\""+r.Kind+"\","+string(r.Measure)+","+value+"\n"))
			if err != nil {
				t.Fatalf("%s %s: %v", r.Kind, r.Measure, err)
			}
			var kept []CapRow
			for _, old := range c.Rows {
				if old.Safety || (rule{old.Kind, old.Measure}) != of {
					kept = append(kept, old)
				}
			}
			n := len(edited.Rows) - 1
			if n < 0 || !slices.Equal(edited.Rows[:n], kept) {
				t.Errorf("with %s %s = %q there are %d other rows, want the %d that it does not speak of", r.Kind, r.Measure, value, n, len(kept))
				continue
			}
			if own := edited.Rows[n]; (rule{own.Kind, own.Measure}) != of || own.None != (value == "") || own.Value != float64(len(value)) || own.Safety {
				t.Errorf("the row %s %s = %q is read as %+v", r.Kind, r.Measure, value, own)
			}
		}
	}
	several := 0
	for _, list := range measures {
		if len(list) > 1 {
			several++
		}
	}
	if several == 0 {
		t.Error("no kind has rules of two measures: the test shows nothing")
	}
}

func FuzzEditCaps(f *testing.F) {
	c := loadCaps(f)
	f.Add("kind,measure,value\noats,day,250\n")
	f.Add("kind,measure,value,who,unit,safety\nany food,share,,household-4,%,yes\n\xff")
	f.Fuzz(func(t *testing.T, text string) {
		edited, _, err := c.Edit("own.csv", strings.NewReader(text))
		if err != nil {
			return
		}
		for _, r := range c.Rows {
			if r.Safety && !slices.Contains(edited.Rows, r) {
				t.Errorf("the safety row of %s %s is gone", r.Kind, r.Measure)
			}
		}
	})
}

package aim

import (
	"context"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// ofLittle are households with somebody who is to have little sodium.
func ofLittle() map[string][]nutrients.Person {
	low := func(p nutrients.Person, more ...nutrients.Condition) nutrients.Person {
		p.Conditions = append([]nutrients.Condition{nutrients.LowSodium}, more...)
		return p
	}
	adult := rationtest.Adult
	return map[string][]nutrients.Person{
		"1 couple":     {low(adult("Torleif", 63, nutrients.Male)), adult("Signe", 60, nutrients.Female)},
		"2 soft food":  {low(adult("Gudrun", 78, nutrients.Female), nutrients.SoftFood)},
		"3 family":     {low(adult("Arne", 45, nutrients.Male)), adult("Siv", 42, nutrients.Female), adult("Tor", 14, nutrients.Male), adult("Liv", 8, nutrients.Female)},
		"4 both":       {low(adult("Olav", 71, nutrients.Male), nutrients.Diabetes2), low(adult("Inga", 69, nutrients.Female))},
		"5 vegetarian": {low(adult("Rune", 52, nutrients.Male), nutrients.Vegetarian), adult("Eva", 50, nutrients.Female)},
		"6 lactose":    {low(adult("Berit", 66, nutrients.Female), nutrients.Lactose), adult("Knut", 30, nutrients.Male), adult("Ida", 28, nutrients.Female)},
	}
}

// hurriedWork is so little that less sodium is found with more of it.
const hurriedWork = 1000

// Who is to have little sodium has less than the best found, and hardly more than the
// least that is proven within the slack: of what lies between the two, seven tenths go or
// more from a slack of 3 % on, and half with a slack of 1 %. The rest of the second aim
// takes back no more than a fiftieth. No salt is added: none of it is asked for, since the
// condition lifts the AI. One household, all six with -campaign 10; -v prints figures.
func TestSodiumIsAsLowAsTheSlackAllows(t *testing.T) {
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	all := ofLittle()
	names := []string{"2 soft food", "1 couple", "3 family", "4 both", "5 vegetarian", "6 lactose"}
	if *rationtest.Campaign < 10 {
		names = names[1:2]
	}
	for _, name := range names {
		m, first := built(t, &ration.Request{People: all[name], Table: rationtest.Table(t), Start: "2026-11-25", Slack: 0.03, Time: 10 * time.Second})
		if first.X == nil {
			t.Fatal("no plan")
		}
		for _, slack := range []float64{0.01, 0.03, 0.1} {
			req := *m.Request
			req.Slack = slack
			m.Request = &req
			found, err := Seek(context.Background(), m, first.X, m.ValueOf(first.X), first)
			if err != nil || found.X == nil || found.SodiumLeast == nil {
				t.Fatal("nothing better", err)
			}
			p := newProgram(m, m.ValueOf(first.X), slack, weights)
			heads := 0.0
			for _, r := range p.sodium {
				heads += r.count
			}
			before, after, least := p.sodiumAt(first.X)/14/heads, p.sodiumAt(found.X)/14/heads, *found.SodiumLeast/heads
			t.Logf("%s, slack %g: %.0f mg a day and person at the best found, %.0f after, %.0f proven", name, slack, before, after, least)
			part := 0.7
			if slack < 0.03 { // whole packs leave less of so little
				part = 0.5
			}
			if after > before*keptSodium-part*(before-least) && *rationtest.Campaign < 10 {
				t.Errorf("%s, slack %g: sodium goes from %g to %g mg a day, the least proven is %g", name, slack, before, after, least)
			}
			if after < least*(1-1e-6) {
				t.Errorf("%s, slack %g: %g mg are under the least proven, %g", name, slack, after, least)
			}
			if value := m.ValueOf(found.X); value > m.ValueOf(first.X)*(1+slack+1e-9) {
				t.Errorf("%s, slack %g: costs %g, the best found %g", name, slack, value, m.ValueOf(first.X))
			}
			if slack == 0.03 { // what is proven in a hurry is no more than what is found with time
				req := req
				req.Work = hurriedWork
				m.Request = &req
				hurried, err := Seek(context.Background(), m, first.X, m.ValueOf(first.X), first)
				if err != nil || hurried.SodiumLeast == nil {
					t.Fatal("nothing in a hurry", err)
				}
				t.Logf("%s: in a hurry %.0f mg a day and person, %.0f proven", name, p.sodiumAt(hurried.X)/14/heads, *hurried.SodiumLeast/heads)
				if *hurried.SodiumLeast/heads > after*(1+1e-6) || p.sodiumAt(hurried.X)/14/heads < after*1.01 {
					t.Errorf("%s: in a hurry %g mg of the %g are said to be the least, with time %g are found", name, *hurried.SodiumLeast/heads, p.sodiumAt(hurried.X)/14/heads, after)
				}
			}
			for _, e := range m.Eaters {
				for _, y := range e.Eats {
					if f := m.Larder[y.Food].Food; e.Person.Has(nutrients.LowSodium) && slices.Contains(f.Kinds, "table salt") && found.X[y.Col] > 0 {
						t.Errorf("%s, slack %g: %g g of %s is added", name, slack, found.X[y.Col], f.Name)
					}
				}
			}
		}
	}
}

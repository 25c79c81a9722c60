package menu

import (
	"encoding/json"
	"fmt"
	"strings"

	"rationwright/foods/dishes"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
)

// Hold holds a menu against the plan p of req by the check that shares nothing with what
// made it. A menu that breaks a rule of safety is none: the error is [ration.ErrUnverified]
// with the first of what it breaks. Other rules that are not kept are put to its misfits,
// and the worst of all in its notice.
func Hold(m *Menu, p *ration.Plan, req *ration.Request, book *dishes.Book) error {
	found, err := safe(m, p, req, book)
	if err != nil {
		return err
	}
	m.Misfits = append(misfitsOf(found), m.Misfits...)
	m.Notice = notice(m, found)
	return nil
}

// safe returns what a menu breaks; the error is of a rule of safety.
func safe(m *Menu, p *ration.Plan, req *ration.Request, book *dishes.Book) ([]menucheck.Finding, error) {
	text, err := json.Marshal(m)
	if err != nil {
		return nil, err
	}
	found, err := menucheck.Check(text, p, req, book)
	if err != nil {
		return nil, err
	}
	for _, f := range found {
		if f.Rule.Safety() {
			return nil, fmt.Errorf("%w: no menu is shown; %s", ration.ErrUnverified, f)
		}
	}
	return found, nil
}

// unkept is what is said of each rule of a menu that is not kept, before where it is.
var unkept = map[menucheck.Rule]string{
	menucheck.Sums:         "not as much is served as the plan gives",
	menucheck.Packs:        "not the packs of the plan are opened",
	menucheck.Energy:       "energy is further from the mean than a tenth",
	menucheck.Protein:      "protein is further from the mean than a fifth",
	menucheck.Carbohydrate: "carbohydrate of a main meal is not near the mean or in the band",
	menucheck.Steady:       "what a medicine asks to keep alike is not; exchange a dish of these days with another day's and tell the prescriber",
	menucheck.Often:        "a dish is served too often",
	menucheck.Running:      "a dish stands on two days running",
	menucheck.Cold:         "something is heated on a cold day",
	menucheck.Heat:         "the heat is not that of the plan",
	menucheck.Water:        "the dishes take more water than the plan stores for food; drink that much less, it is in the dishes",
	menucheck.NoDish:       "there is no dish, and what there is is eaten by itself",
	menucheck.Dated:        "something is opened past its best before",
	menucheck.Stove:        fmt.Sprintf("all that is heated takes more than %d minutes at one stove", menucheck.StoveRoomMin),
	menucheck.Bare:         "a dish lacks much of what makes it",
	menucheck.Daily:        "more than is advised for a day; leave what is over to others, or leave it out",
}

// mostNamed is how many places of one rule are named.
const mostNamed = 6

// misfitsOf says what is not kept, a line for each person and rule, in the order in which
// it was found.
func misfitsOf(found []menucheck.Finding) []Misfit {
	type line struct {
		rule   menucheck.Rule
		person string
	}
	var order []line
	places := map[line][]string{}
	for _, f := range found {
		l := line{f.Rule, f.Person}
		if places[l] == nil {
			order = append(order, l)
		}
		places[l] = append(places[l], f.Text)
	}
	var list []Misfit
	for _, l := range order {
		at := places[l]
		if more := len(at) - mostNamed; more > 0 {
			at = append(at[:mostNamed:mostNamed], fmt.Sprintf("and %d more", more))
		}
		list = append(list, Misfit{Person: l.person, Text: fmt.Sprintf("%s: %s", unkept[l.rule], strings.Join(at, "; "))})
	}
	return list
}

// leastWetter is the water in L a person and day from which it is the first thing said of a
// menu that its dishes take more than is stored for food. Own planning rule, no source.
const leastWetter = 0.01

// notice is the worst of a menu in one line: first who has not from day to day what their
// medicine asks to keep alike, with the worst day, then water that is not stored.
func notice(m *Menu, found []menucheck.Finding) string {
	none, off := map[string]bool{}, 0
	var uneven, wetter menucheck.Finding
	for _, f := range found {
		switch {
		case f.Rule == menucheck.NoDish:
			none[f.Text] = true
		case f.Rule == menucheck.Energy || f.Rule == menucheck.Protein:
			off++
		case f.Rule == menucheck.Steady && f.Amount > uneven.Amount:
			uneven = f
		case f.Rule == menucheck.Water:
			wetter = f
		}
	}
	beside := 100 * (1 - m.InDishes)
	text := "Every main meal has a dish, and the dishes take the whole plan."
	switch {
	case len(none) > 0:
		text = fmt.Sprintf("At %d of %d main meals somebody has no dish, and %.0f %% of the energy is eaten beside the dishes: this plan was made without dishes in mind.", len(none), len(mainMeals)*len(m.Days), beside)
	case off > 0:
		text = fmt.Sprintf("On %d of a person's days energy or protein is further from the mean than it should be; %.0f %% of the energy is eaten beside the dishes.", off, beside)
	case beside >= 1:
		text = fmt.Sprintf("Every main meal has a dish; %.0f %% of the energy fits none and is eaten beside them, as said below.", beside)
	}
	if wetter.Amount >= leastWetter {
		text = fmt.Sprintf("THE DISHES TAKE MORE WATER THAN IS STORED FOR FOOD: %s; drink that much less, it is in the dishes. %s", wetter.Text, text)
	}
	if uneven.Amount > 0 {
		return fmt.Sprintf("NOT ALIKE FROM DAY TO DAY, as a medicine asks: %s, %s. %s", uneven.Person, uneven.Text, text)
	}
	return text
}

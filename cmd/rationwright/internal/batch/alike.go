package batch

import (
	"bytes"
	"cmp"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// alike is a household apart from its names: people in one order, those of the same
// rows under one count. Households whose alikes have the same key are fed the same.
//
// Its people bear marks for names, which stand in no other text; named puts the names
// back.
type alike struct {
	people []nutrients.Person
	names  [][]string // of each row of people
	key    string
}

// alikeOf makes the alike of a household.
func alikeOf(people []nutrients.Person) *alike {
	type row struct {
		person nutrients.Person
		name   string
		key    string
	}
	rows := make([]row, len(people))
	for i, p := range people {
		rows[i] = row{person: p, name: p.Name}
		if p.Count > 1 {
			rows[i].name += " × " + strconv.Itoa(p.Count)
		}
		p.Name, p.Count = "", 1
		rows[i].key = strings.Join(nutrients.HouseholdRows([]nutrients.Person{p})[1], "\x1f")
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(a.key, b.key) })
	a := &alike{}
	var key strings.Builder
	for i, r := range rows {
		if i > 0 && r.key == rows[i-1].key {
			last := len(a.people) - 1
			a.people[last].Count += max(1, r.person.Count)
			a.names[last] = append(a.names[last], r.name)
			continue
		}
		p := r.person
		p.Name, p.Count = mark(len(a.people)), max(1, p.Count)
		a.people = append(a.people, p)
		a.names = append(a.names, []string{r.name})
	}
	for i := range a.people {
		key.WriteString(strings.Join(nutrients.HouseholdRows(a.people[i : i+1])[1], "\x1f"))
		key.WriteByte('\x1e')
	}
	a.key = key.String()
	return a
}

// mark stands for the name of row i.
func mark(i int) string { return "⟦" + strconv.Itoa(i) + "⟧" }

// named puts the names back into a text in JSON.
func (a *alike) named(text []byte) ([]byte, error) {
	if !bytes.Contains(text, []byte("⟦")) {
		return text, nil
	}
	var pairs []string
	for i, names := range a.names {
		name, err := ration.Marshal(strings.Join(names, ", "))
		if err != nil {
			return nil, err
		}
		pairs = append(pairs, mark(i), string(name[1:len(name)-2])) // without quotes and line end
	}
	return []byte(strings.NewReplacer(pairs...).Replace(string(text))), nil
}

// namedPlan is a plan of the alike as one of the household itself.
func (a *alike) namedPlan(p *ration.Plan) (*ration.Plan, error) {
	text, err := ration.Marshal(p)
	if err != nil {
		return nil, err
	}
	if text, err = a.named(text); err != nil {
		return nil, err
	}
	own := &ration.Plan{}
	return own, json.Unmarshal(text, own)
}

// namedPeople are the people of the alike by their names.
func (a *alike) namedPeople() []nutrients.Person {
	list := slices.Clone(a.people)
	for i := range list {
		list[i].Name = strings.Join(a.names[i], ", ")
	}
	return list
}

package register

import (
	"bytes"
	"errors"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
)

// Words checks every name of food in a household.csv, which errors call name, with
// the food table: the reader of the file knows no foods. The error points at each
// name that means nothing or could mean several things; told is called with the
// person and what a word is taken to mean that has other meanings.
func Words(name string, content []byte, t *foods.Table, told func(person, said string)) error {
	cells, err := table.Read(name, bytes.NewReader(content), []table.Column{{Name: "name"}, {Name: "dislikes"}, {Name: "rules"}})
	if err != nil {
		return err
	}
	for _, row := range cells.Rows {
		check := func(field, written, food string) {
			meaning, err := t.Resolve(food)
			if what, fix, ok := foods.NameFault(err); ok {
				row.FailValue(field, written, errors.New(what), fix)
			} else if said := meaning.Said(); said != "" {
				told(row.Text("name"), said)
			}
		}
		for _, name := range row.List("dislikes") {
			check("dislikes", name, name)
		}
		for _, text := range row.List("rules") {
			if rule, _, err := nutrients.ParseRule(text); err == nil && rule.Food != "" {
				check("rules", text, rule.Food)
			}
		}
	}
	return cells.Err()
}

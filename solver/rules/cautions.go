package rules

import (
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// CautionsOf lists the cautions of a situation as a plan carries them.
func CautionsOf(s stores.Situation) []ration.Caution {
	var list []ration.Caution
	for _, c := range s.Cautions() {
		list = append(list, ration.Caution{
			ID: c.ID, Severity: c.Severity, Text: c.Text + " " + c.Action,
			Source: ration.SourceOf(c.Source, c.Verified), People: c.People,
		})
	}
	return list
}

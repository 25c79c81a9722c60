package report

import (
	"fmt"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// assumed says on what the plan rests.
func assumed(p *ration.Plan) sheet.Section {
	sec := sheet.Section{Title: "What is assumed"}
	add := func(text string) { sec.Lead = append(sec.Lead, "- "+sheet.Sentence(text)) }
	for _, line := range asked(p) {
		add(line)
	}
	for _, n := range p.Notes {
		add(n)
	}
	if len(p.NotChecked) > 0 {
		words := make([]string, len(p.NotChecked))
		for i, n := range p.NotChecked {
			words[i] = sheet.Nutrient(n)
		}
		add("Not checked, because the food table has no column for it: " + sheet.Names(words))
	}
	add("Made by rationwright, plan version " + p.Version + ". Local authorities, labels and licensed clinicians come before this plan")
	return sec
}

var standardWords = map[string]string{
	string(nutrients.StandardRDA):   "Standard rda: every need at its RDA, or its AI where there is no RDA",
	string(nutrients.StandardEAR):   "Standard ear: every need at its EAR, or its AI where there is no EAR; meant for groups",
	string(nutrients.StandardBasic): "Standard basic: energy, protein and water only. This is no balanced ration",
}

var energyWords = map[string]string{
	string(nutrients.Energy2023):       "Energy by the equations of the Dietary Reference Intakes of 2023",
	string(nutrients.Energy2005):       "Energy by the equations of the Dietary Reference Intakes of 2005",
	string(nutrients.EnergyGuidelines): "Energy by the table of the Dietary Guidelines",
}

var cookWords = map[string]string{
	string(ration.CookNone):   "Nothing is heated",
	string(ration.CookWarm):   "Food is heated through at most",
	string(ration.CookBoil):   "Cooking goes up to boiling, under 20 minutes' simmering",
	string(ration.CookSimmer): "Cooking includes long simmering and baking",
}

// asked says what was asked for and what was taken where nothing was said.
func asked(p *ration.Plan) []string {
	var lines []string
	add := func(text string) {
		if text != "" {
			lines = append(lines, text)
		}
	}
	r := p.Request
	if r == nil {
		add(standardWords[p.Standard])
		return lines
	}
	if r.Demo.Household {
		add("The household is the demo household of Ternsund: these people are invented. Give yours with --household")
	}
	if r.Demo.Prices {
		add("Every price is invented for the demo, and so is its currency. Give yours with --prices")
	} else {
		add("Prices are those of the price file; packs, water and fuel that it does not name have invented prices")
	}
	add(standardWords[p.Standard])
	add(energyWords[r.Options["energy"]])
	if r.Options["lean_energy"] == "true" {
		add("Energy may be 3 % below the requirement for adults of 19 to 64 who are neither pregnant nor breast-feeding")
	}
	add(cookWords[r.Options["cook"]])
	if r.Options["hot"] == "true" {
		add("The climate is hot: everyone drinks twice as much")
	}
	if r.Options["easy_open"] == "true" {
		add("Every pack can be opened and lifted by weak hands")
	}
	if n := r.Options["pets"]; n != "" && n != "0" {
		add("Water is stored for " + map[bool]string{true: "1 pet", false: n + " pets"}[n == "1"])
	}
	if r.Options["boil_water"] == "true" {
		add("Drinking water has to be boiled")
	}
	if len(r.Ill) > 0 {
		add("More water to drink is kept for " + sheet.Names(r.Ill) + ", ill or likely to be")
	}
	if stove, err := stores.StoveByName(r.Options["stove"]); err == nil && r.Options["cook"] != string(ration.CookNone) {
		add(fmt.Sprintf("Fuel is counted as %s, %s, at poor efficiency (from memory)", stove.Fuel, stove.Pack))
	}
	if c := stores.PlanContainer(r.Shelves); c != nil {
		add(fmt.Sprintf("Stored water is counted in containers of %s L with %s kg of their own (from memory)", sheet.Figure(c.NetML/1000), sheet.Figure(c.TareG/1000)))
	}
	if n := len(r.Shelves); n > 0 {
		add(fmt.Sprintf("Food and water stand on %s; what stands where is said above", sheet.Count(n, "shelf", "shelves")))
	}
	if r.Options["water_allowance"] == "true" {
		add("At least the older allowance of water, 7 US gallons a head, is stored")
	}
	if len(r.Without) > 0 {
		add("Nobody gets " + sheet.Names(r.Without))
	}
	if r.Start != "" {
		add(fmt.Sprintf("Day one is %s", r.Start))
	}
	return lines
}

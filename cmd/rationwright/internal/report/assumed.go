package report

import (
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"slices"
)

// assumed says on what the plan rests.
func assumed(p *ration.Plan) sheet.Section {
	sec := sheet.Section{Title: "What is assumed"}
	add := func(text string) { sec.Lead = append(sec.Lead, "- "+sheet.Sentence(text)) }
	for _, line := range slices.Concat(asked(p), p.Notes) {
		add(line)
	}
	if len(p.NotChecked) > 0 {
		var words []string
		for _, n := range p.NotChecked {
			words = append(words, sheet.Nutrient(n))
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
	var lines sheet.Lines
	r := p.Request
	if r == nil {
		lines.If(standardWords[p.Standard] != "", "%s", standardWords[p.Standard])
		return lines
	}
	on := func(option string) bool { return r.Options[option] == "true" }
	lines.If(r.Demo.Household, "The household is the demo household of Ternsund: these people are invented. Give yours with --household")
	lines.If(r.Demo.Prices, "Every price is invented for the demo, and so is its currency. Give yours with --prices")
	lines.If(!r.Demo.Prices, "Prices are those of the price file; packs, water and fuel that it does not name have invented prices")
	lines.If(standardWords[p.Standard] != "", "%s", standardWords[p.Standard])
	lines.If(energyWords[r.Options["energy"]] != "", "%s", energyWords[r.Options["energy"]])
	lines.If(on("lean_energy"), "Energy may be 3 %% below the requirement for adults of 19 to 64 who are neither pregnant nor breast-feeding")
	lines.If(cookWords[r.Options["cook"]] != "", "%s", cookWords[r.Options["cook"]])
	lines.If(on("hot"), "The climate is hot: everyone drinks twice as much")
	lines.If(on("easy_open"), "Every pack can be opened and lifted by weak hands")
	n := r.Options["pets"]
	lines.If(n == "1", "Water is stored for 1 pet")
	lines.If(n != "" && n != "0" && n != "1", "Water is stored for %s pets", n)
	lines.If(on("boil_water"), "Drinking water has to be boiled")
	lines.If(len(r.Ill) > 0, "More water to drink is kept for %s, ill or likely to be", sheet.Names(r.Ill))
	if stove, err := stores.StoveByName(r.Options["stove"]); err == nil && r.Options["cook"] != string(ration.CookNone) {
		lines.Say("Fuel is counted as %s, %s, at poor efficiency (from memory)", stove.Fuel, stove.Pack)
	}
	c := stores.PlanContainer(r.Shelves)
	lines.Say("Stored water is counted in containers of %s L with %s kg of their own (from memory)", sheet.Figure(c.NetML/1000), sheet.Figure(c.TareG/1000))
	lines.If(len(r.Shelves) > 0, "Food and water stand on %s; what stands where is said above", sheet.Count(len(r.Shelves), "shelf", "shelves"))
	lines.If(on("water_allowance"), "At least the older allowance of water, 7 US gallons a head, is stored")
	lines.If(len(r.Without) > 0, "Nobody gets %s", sheet.Names(r.Without))
	lines.If(r.Start != "", "Day one is %s", r.Start)
	return lines
}

package report

import (
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/stockpile"
)

// Treatment is how to make a volume of doubtful water safe: by boiling, and by
// the agents that have a dose for it.
type Treatment struct {
	Boil  stores.Boiling `json:"boil"`
	Doses []stores.Dose  `json:"doses"`
	// None lists agents and strengths without a dose for this water, in words.
	None     []string         `json:"none,omitempty"`
	Cautions []stores.Caution `json:"cautions"`
}

// Treat lays out t.
func Treat(t *Treatment, volumeL float64, water stores.Water, u sheet.Units) *sheet.Sheet {
	s := &sheet.Sheet{}
	s.Add(sheet.Section{Lead: []string{fmt.Sprintf("To make %s of %s water safe to drink. Boiling is surest; the doses are for when it cannot be boiled.", u.Water(volumeL), water)}})
	boil := sheet.Section{Title: "Boil it", Lead: boiling(&t.Boil, u)}
	boil.Lead = append(boil.Lead, fmt.Sprintf("- Useful heat for all of it: %s, before stove losses.", u.Heat2(t.Boil.HeatMJ)))
	for _, step := range t.Boil.Steps {
		boil.Lead = append(boil.Lead, "- "+cited(step))
	}
	s.Add(boil)
	for i := range t.Doses {
		s.Add(dose(&t.Doses[i], u))
	}
	none := sheet.Section{Title: "No published dose"}
	for _, n := range t.None {
		none.Lead = append(none.Lead, "- "+sheet.Sentence(n))
	}
	s.Add(none)
	s.Add(neverDrink(stockpile.NeverRules()))
	care := sheet.Section{Title: "Take care"}
	for _, c := range t.Cautions {
		text := sheet.Sentence(c.Text + " " + c.Action)
		if c.Who != "everyone" {
			text = sheet.Sentence(c.Who) + " " + text
		}
		if c.Severity == "stop" {
			text = "STOP. " + text
		}
		care.Lead = append(care.Lead, "- "+sheet.Sourced(text, c.Source))
	}
	s.Add(care)
	return s
}

// dose is one agent's dose with what it was taken from and what else to do.
func dose(d *stores.Dose, u sheet.Units) sheet.Section {
	sec := sheet.Section{Title: d.Name + ", " + d.Strength}
	line := fmt.Sprintf("%s; then wait %s before drinking.", sheet.Capital(d.Text), minutes(d.WaitMin))
	if d.WaitParasites > 0 {
		line = strings.TrimSuffix(line, ".") + fmt.Sprintf(", %s against parasites.", minutes(d.WaitParasites))
	}
	sec.Lead = append(sec.Lead, line)
	sec.Lead.If(d.TreatL > d.VolumeL+1e-9, "Treat %s: a drop or a tablet cannot be split.", u.Water(d.TreatL))
	sec.Lead.If(d.Water != stores.ClearWater, "This is the dose for cloudy or very cold water already: do not double it again.")
	sec.Lead = append(sec.Lead, "- Rounding: "+d.Rounding+".")
	for _, r := range d.Rows {
		sec.Lead = append(sec.Lead, fmt.Sprintf("- From: %s for %s, %s water (%s).", r.Dose, r.Volume, r.Condition, ref(r.Ref)))
	}
	for _, r := range d.Rules {
		sec.Lead = append(sec.Lead, "- "+cited(r))
	}
	for _, r := range d.DoNot {
		sec.Lead = append(sec.Lead, "- Do not rely on it: "+cited(r))
	}
	return sec
}

// cited writes a rule of the disinfection table with its source.
func cited(d stores.Disinfection) string {
	return sheet.Sourced(d.Dose+sheet.Around("; ", d.Note, ""), ref(d.Ref))
}

// TreatCSV writes one row a dose: boiling first.
func TreatCSV(t *Treatment) *facts.Table {
	out := facts.New("agent strength water volume_l treat_l drops ml teaspoons tablets stock_ml bottles wait_min wait_parasites_min boil_min heat_mj text source")
	out.Add("boil", facts.Row{"volume_l": t.Boil.VolumeL, "treat_l": t.Boil.VolumeL, "boil_min": t.Boil.Minutes, "heat_mj": t.Boil.HeatMJ, "text": "rolling boil", "source": ref(t.Boil.Rules[0].Ref)})
	for _, d := range t.Doses {
		row := facts.Row{"strength": d.Strength, "water": d.Water, "volume_l": d.VolumeL, "treat_l": d.TreatL, "teaspoons": d.Teaspoons, "wait_min": d.WaitMin, "text": d.Text, "source": ref(d.Rows[0].Ref)}
		for name, v := range map[string]float64{"drops": float64(d.Drops), "ml": d.ML, "tablets": float64(d.Tablets), "stock_ml": d.StockML, "bottles": float64(d.Bottles), "wait_parasites_min": float64(d.WaitParasites)} {
			if v > 0 { // absent where it is no dose of this kind
				row[name] = v
			}
		}
		out.Add(d.Agent, row)
	}
	return out
}

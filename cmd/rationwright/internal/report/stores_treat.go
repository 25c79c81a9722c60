package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"rationwright/foods/stores"
	"rationwright/solver"
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
func Treat(t *Treatment, volumeL float64, water stores.Water, u Units) *Sheet {
	s := &Sheet{}
	s.Add(Section{Lead: []string{fmt.Sprintf("To make %s of %s water safe to drink. Boiling is surest; the doses are for when it cannot be boiled.", u.Water(volumeL), water)}})
	boil := Section{Title: "Boil it", Lead: boiling(&t.Boil, u)}
	boil.Lead = append(boil.Lead, fmt.Sprintf("- Useful heat for all of it: %s, before stove losses.", u.Heat2(t.Boil.HeatMJ)))
	for _, step := range t.Boil.Steps {
		boil.Lead = append(boil.Lead, "- "+cited(step))
	}
	s.Add(boil)
	for i := range t.Doses {
		s.Add(dose(&t.Doses[i], u))
	}
	if len(t.None) > 0 {
		sec := Section{Title: "No published dose"}
		for _, n := range t.None {
			sec.Lead = append(sec.Lead, "- "+sentence(n))
		}
		s.Add(sec)
	}
	s.Add(neverDrink(solver.NeverRules()))
	care := Section{Title: "Take care"}
	for _, c := range t.Cautions {
		text := sentence(c.Text + " " + c.Action)
		if c.Who != "everyone" {
			text = sentence(c.Who) + " " + text
		}
		if c.Severity == "stop" {
			text = "STOP. " + text
		}
		care.Lead = append(care.Lead, "- "+sourced(text, c.Source))
	}
	s.Add(care)
	return s
}

// dose is one agent's dose with what it was taken from and what else to do.
func dose(d *stores.Dose, u Units) Section {
	sec := Section{Title: d.Name + ", " + d.Strength}
	line := fmt.Sprintf("%s; then wait %s before drinking.", sentenceStart(d.Text), minutes(d.WaitMin))
	if d.WaitParasites > 0 {
		line = strings.TrimSuffix(line, ".") + fmt.Sprintf(", %s against parasites.", minutes(d.WaitParasites))
	}
	sec.Lead = append(sec.Lead, line)
	if d.TreatL > d.VolumeL+1e-9 {
		sec.Lead = append(sec.Lead, fmt.Sprintf("Treat %s: a drop or a tablet cannot be split.", u.Water(d.TreatL)))
	}
	if d.Water != stores.ClearWater {
		sec.Lead = append(sec.Lead, "This is the dose for cloudy or very cold water already: do not double it again.")
	}
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
	text := d.Dose
	if d.Note != "" {
		text += "; " + d.Note
	}
	return strings.TrimSuffix(sentence(text), ".") + " (" + ref(d.Ref) + ")."
}

// TreatCSV writes one row a dose: boiling first.
func TreatCSV(w io.Writer, t *Treatment) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"agent", "strength", "water", "volume_l", "treat_l", "drops", "ml", "teaspoons", "tablets", "stock_ml", "bottles", "wait_min", "wait_parasites_min", "boil_min", "heat_mj", "text", "source"}}
	rows = append(rows, []string{"boil", "", "", num(t.Boil.VolumeL), num(t.Boil.VolumeL), "", "", "", "", "", "", "", "", strconv.Itoa(t.Boil.Minutes), num(t.Boil.HeatMJ), "rolling boil", ref(t.Boil.Rules[0].Ref)})
	for _, d := range t.Doses {
		rows = append(rows, []string{d.Agent, d.Strength, string(d.Water), num(d.VolumeL), num(d.TreatL), whole(d.Drops), some(d.ML), d.Teaspoons,
			whole(d.Tablets), some(d.StockML), whole(d.Bottles), strconv.Itoa(d.WaitMin), whole(d.WaitParasites), "", "", d.Text, ref(d.Rows[0].Ref)})
	}
	if err := out.WriteAll(rows); err != nil {
		return err
	}
	return out.Error()
}

// whole and some write a figure, or nothing where there is none.
func whole(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func some(v float64) string {
	if v == 0 { // exactly: the figure is absent
		return ""
	}
	return num(v)
}

package stores

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// Dose is how to disinfect a volume of doubtful water with one agent.
type Dose struct {
	Agent    string  `json:"agent"`
	Name     string  `json:"name"`
	Strength string  `json:"strength"`
	Water    Water   `json:"water"`
	VolumeL  float64 `json:"volume_l"` // asked
	TreatL   float64 `json:"treat_l"`  // treat this much: more than asked where a dose cannot be split

	Drops     int     `json:"drops,omitempty"`     // the drop count is the dose
	ML        float64 `json:"ml,omitempty"`        // the same dose by syringe or spoon
	Teaspoons string  `json:"teaspoons,omitempty"` // "1/8", "2 1/2"; "" under an eighth
	Tablets   int     `json:"tablets,omitempty"`
	StockML   float64 `json:"stock_ml,omitempty"` // of a stock solution made first
	Bottles   int     `json:"bottles,omitempty"`  // for sunlight
	Text      string  `json:"text"`               // the dose in words

	WaitMin        int     `json:"wait_min"`
	WaitParasites  int     `json:"wait_parasites_min,omitempty"` // where the agent reaches Cryptosporidium at all
	ChlorineMgPerL float64 `json:"chlorine_mg_per_l,omitempty"`

	Rounding string         `json:"rounding"`
	Rules    []Disinfection `json:"rules"`  // what else to do
	DoNot    []Disinfection `json:"do_not"` // what must not be done
	Rows     []Disinfection `json:"rows"`   // rows the dose was taken from
}

// Volumes of water that the calculator doses: half a cup to a village tank.
const (
	LeastTreatedL = 0.1
	MostTreatedL  = 1e6
)

// rowSlackL is half the last digit of a volume in the table, so that an exact
// gallon counts as the row's 3.785 L.
const rowSlackL = 0.0005

// Disinfect returns the dose of an agent for any volume of doubtful water. At
// a row's own volume the dose is the row's. In between it is the next smaller
// row's dose in proportion, rounded up to whole drops, tenths of a mL, eighths
// of a teaspoon or whole tablets, and never more than the next larger row's;
// volumes under the smallest row are treated as that row's volume, as a drop
// cannot be split. Less water than one tablet is for gets no dose. Household
// bleach between the strengths of the table is dosed by its chlorine.
//
// Cloudy and very cold water has one rule: settle it, filter it until it is
// clear, and take twice the dose for clear water.
//
// Errors wrap [ErrAgent], [ErrStrength] (with the nearest), [ErrWaterWord],
// [ErrUntreated] (with the rule), [ErrNoDose] and [ErrTreatLimit].
func Disinfect(agent, strength string, volumeL float64, water Water) (Dose, error) {
	if !(volumeL >= LeastTreatedL && volumeL <= MostTreatedL) {
		return Dose{}, fmt.Errorf("%w: %g L; give %g to %g", ErrTreatLimit, volumeL, LeastTreatedL, float64(MostTreatedL))
	}
	if err := treatable(water); err != nil {
		return Dose{}, err
	}
	agents := Agents()
	i := slices.IndexFunc(agents, func(a Agent) bool { return a.Key == agent })
	if i < 0 {
		keys := table.Words(agents, func(a Agent) string { return a.Key })
		return Dose{}, fmt.Errorf("%w: %q; the table has %s", ErrAgent, agent, strings.Join(keys, ", "))
	}
	strength, percent, err := agents[i].strengthOf(strength)
	if err != nil {
		return Dose{}, err
	}
	d := Dose{
		Agent: agent, Name: agents[i].Name, Strength: strength, Water: water, VolumeL: volumeL,
		Rules: rulesFor(agent, "rule"), DoNot: rulesFor(agent, "do_not"),
	}
	if agent == "chlorine-tablets" || agent == "bleach" || agent == "calcium-hypochlorite" {
		// That rule stands under iodine and names chlorine.
		for _, r := range rulesFor("iodine", "do_not") {
			if strings.Contains(r.Dose, "chlorine") {
				d.DoNot = append(d.DoNot, r)
			}
		}
	}
	rows, double, err := doseRows(agents[i], strength, percent, water)
	if err != nil {
		return Dose{}, err
	}
	d.Rows = rows
	switch {
	case agent == "calcium-hypochlorite":
		d.stock(rows[0], double)
	case agent == "sunlight":
		d.sun(rows[0])
	case rows[0].Units > 0:
		if err := d.tablets(rows[0], double); err != nil {
			return Dose{}, err
		}
	default:
		d.liquid(rows, double)
	}
	if double {
		d.Text += "; first settle and filter the water until it is clear"
		d.Rounding += "; twice the dose for clear water"
	}
	d.WaitMin = rows[0].WaitMin
	for _, r := range d.Rules {
		if agent == "chlorine-dioxide" {
			d.WaitParasites = max(d.WaitParasites, r.WaitMin)
		}
	}
	return d, nil
}

// treatable returns the error of a kind of water that must not be treated.
func treatable(water Water) error {
	for _, u := range untreatable {
		if u.water != water {
			continue
		}
		for _, r := range NeverDrink() {
			if r.Condition == u.condition {
				return fmt.Errorf("%w: %s: %s (%s)", ErrUntreated, r.Condition, r.Dose, r.Source)
			}
		}
		return fmt.Errorf("%w: %s", ErrUntreated, u.condition)
	}
	if !slices.Contains(Waters(), water) {
		return fmt.Errorf("%w: %q; say one of %v", ErrWaterWord, water, Waters())
	}
	return nil
}

// doseRows returns the dose rows of an agent and strength for clear water, by
// volume; double is true where the water takes twice that dose. percent is the
// strength of a bleach that the table has no row for.
func doseRows(a Agent, strength string, percent float64, water Water) (table []Disinfection, double bool, err error) {
	doubles := false // the table gives twice the dose for cloudy water, as a row or as a rule
	for _, d := range disinfections() {
		switch {
		case d.Agent != a.Key:
		case d.Kind == "rule":
			doubles = doubles || strings.Contains(d.Dose, "double the dose") || strings.Contains(d.Dose, "twice the clear dose")
		case d.Kind == "dose" && strings.HasPrefix(d.Condition, "cloudy"):
			doubles = true
		case d.Kind == "dose" && d.Strength == strength && strings.HasPrefix(d.Condition, "clear"):
			table = append(table, d)
		}
	}
	if percent > 0 {
		table = bleachRows(percent)
	}
	slices.SortStableFunc(table, func(x, y Disinfection) int { return cmp.Compare(x.upToL, y.upToL) })
	if water == ClearWater {
		return table, false, nil
	}
	if !doubles || strings.Contains(table[0].Note, "NTU only") {
		return nil, false, fmt.Errorf("%w: %s, %s, %s water; settle and filter it until it is clear, let very cold water warm up, or boil it",
			ErrNoDose, a.Name, strength, water)
	}
	return table, true, nil
}

// Household bleach by computation.
const (
	bleachFrom, bleachTo = 1, 9 // percent; weaker is spent, stronger is no household bleach

	mgPerMLUnits = 10 // mg of chlorine in a mL of 1 percent
)

// dropChlorine returns the free chlorine that drops of a bleach give, mg/L.
func dropChlorine(drops int, percent, litres float64) float64 {
	return float64(drops) * MLPerDrop * percent * mgPerMLUnits / litres
}

// bleachRows returns the doses of a bleach of a strength between those of the
// table, for the volumes of its rows: they give the chlorine of the published
// doses for the next weaker and the next stronger bleach, on the straight line
// between them, and beyond the strongest the same as that.
func bleachRows(percent float64) []Disinfection {
	type end struct{ percent, mgPerL float64 }
	var ends []end
	var volumes []Disinfection
	for _, d := range disinfections() {
		if d.Agent != "bleach" || d.Kind != "dose" || d.Strength == superseded || d.Drops == 0 || !strings.HasPrefix(d.Condition, "clear") {
			continue
		}
		for _, p := range []float64{d.lowPercent, d.highPercent} {
			mgPerL := dropChlorine(d.Drops, p, d.WaterL)
			if i := slices.IndexFunc(ends, func(e end) bool { return e.percent == p }); i >= 0 { // the row least rounded up
				ends[i].mgPerL = min(ends[i].mgPerL, mgPerL)
			} else {
				ends = append(ends, end{p, mgPerL})
			}
		}
		if d.lowPercent < d.highPercent { // the strength with a row for each usual volume
			volumes = append(volumes, d)
		}
	}
	slices.SortFunc(ends, func(x, y end) int { return cmp.Compare(x.percent, y.percent) })
	target := ends[len(ends)-1].mgPerL
	for i := range ends[:len(ends)-1] {
		if low, high := ends[i], ends[i+1]; percent >= low.percent && percent < high.percent {
			target = low.mgPerL + (percent-low.percent)/(high.percent-low.percent)*(high.mgPerL-low.mgPerL)
		}
	}
	for i := range volumes {
		d := &volumes[i]
		d.Drops = int(math.Ceil(target/dropChlorine(1, percent, d.WaterL) - roundingSlack))
		d.ML = math.Ceil(float64(d.Drops)*MLPerDrop/stepML-roundingSlack) / math.Round(1/stepML)
		d.Strength, d.Chlorine = fmt.Sprintf("%g percent", percent), dropChlorine(d.Drops, percent, d.WaterL)
		d.Dose = fmt.Sprintf("%d drops, computed for %.1f mg/L of chlorine", d.Drops, target)
		d.Ref = Ref{"planning rule: the chlorine of the doses of EPA and CDC for 1, 5 to 6 and 8.25 percent", "common practice, no source"}
	}
	return volumes
}

// liquid doses by drops and mL.
func (d *Dose) liquid(table []Disinfection, double bool) {
	d.TreatL = max(d.VolumeL, table[0].WaterL)
	times := 1.0
	if double {
		times = 2
	}
	drops := scaled(table, d.TreatL, 1, func(r Disinfection) float64 { return float64(r.Drops) })
	d.Drops = int(times * drops)
	d.ML = times * scaled(table, d.TreatL, stepML, func(r Disinfection) float64 { return r.ML })
	d.Teaspoons = eighths(d.ML / MLPerLabelTsp)
	d.Text = plural(d.Drops, "drop")
	if d.Teaspoons != "" {
		d.Text += fmt.Sprintf(", or %s teaspoon (%.4g mL)", d.Teaspoons, d.ML)
	} else {
		d.Text += fmt.Sprintf(" (%.4g mL)", d.ML)
	}
	if first := table[0]; first.Chlorine > 0 {
		// mg/L of the row, in proportion to the drops per litre given here.
		d.ChlorineMgPerL = first.Chlorine * (float64(d.Drops) / d.TreatL) / (float64(first.Drops) / first.WaterL)
	}
	d.Rounding = "drops rounded up to whole ones, mL up to a tenth, teaspoons of 5 mL up to an eighth"
	if d.TreatL > d.VolumeL {
		d.Rounding += "; a drop cannot be split, so treat at least " + table[0].Volume
	}
}

// stepML is the step to which a dose in mL is rounded up away from the rows.
const stepML = 0.1

// scaled returns the dose for volumeL in one measure, by the rule of
// [Disinfect]; rows without the measure do not count.
func scaled(table []Disinfection, volumeL, step float64, amount func(Disinfection) float64) float64 {
	have := where(table, func(r *Disinfection) bool { return amount(*r) > 0 })
	if len(have) == 0 {
		return 0
	}
	at := 0
	for i, r := range have {
		if r.upToL <= volumeL+rowSlackL {
			at = i
		}
	}
	low := have[at]
	if volumeL <= low.upToL+rowSlackL {
		return amount(low)
	}
	steps := math.Ceil(volumeL*amount(low)/low.WaterL/step - roundingSlack)
	dose := steps / math.Round(1/step) // a division keeps tenths exact to print
	if at+1 < len(have) {
		dose = min(dose, amount(have[at+1]))
	}
	return dose
}

// tablets doses by whole tablets, each for a volume. Less water than one is for
// would get more of the agent than is safe to drink.
func (d *Dose) tablets(r Disinfection, double bool) error {
	if d.VolumeL < r.WaterL-rowSlackL {
		much := ""
		if r.Chlorine > 0 {
			much = fmt.Sprintf(": it would give %.0f instead of %g mg/L of chlorine", r.Chlorine*r.WaterL/d.VolumeL, r.Chlorine)
		}
		return fmt.Errorf("%w: one tablet of %s, %s, is made for %s, never for %g L%s; treat at least %g L",
			ErrNoDose, d.Name, r.Strength, r.Volume, d.VolumeL, much, r.WaterL)
	}
	times := math.Ceil((d.VolumeL - rowSlackL) / r.upToL)
	if r.upToL > r.WaterL && times > 1 {
		times = math.Ceil((d.VolumeL - rowSlackL) / r.WaterL) // "1 quart or 1 L": the stricter for more
	}
	d.Tablets = int(times) * r.Units
	d.TreatL = max(times*r.WaterL, d.VolumeL)
	d.ChlorineMgPerL = r.Chlorine
	d.Rounding = "whole tablets; fill up to the volume they are made for, as a tablet cannot be split"
	if double {
		d.Tablets *= 2
		d.ChlorineMgPerL *= 2
	}
	d.Text = plural(d.Tablets, "tablet")
	return nil
}

// stockParts is the dilution of the stock solution: 1 part to 100 parts of
// water, in the words of the row's dose.
const stockParts = 100

// stock doses a stock solution that is made first.
func (d *Dose) stock(r Disinfection, double bool) {
	d.TreatL = d.VolumeL
	d.StockML = math.Ceil(d.VolumeL*mlPerL/stockParts - roundingSlack)
	d.ChlorineMgPerL = r.Chlorine
	if double {
		d.StockML *= 2
		d.ChlorineMgPerL *= 2
	}
	batches := int(math.Ceil(d.StockML/(r.WaterL*mlPerL) - roundingSlack))
	d.Text = fmt.Sprintf("%.4g mL of stock solution; %s of stock: %s", d.StockML, plural(batches, "batch"), r.Dose)
	d.Rounding = "stock rounded up to a whole mL"
}

// sun doses by bottles laid in the sun.
func (d *Dose) sun(r Disinfection) {
	d.Bottles = int(math.Ceil(d.VolumeL/r.WaterL - roundingSlack))
	d.TreatL = d.VolumeL
	d.Text = fmt.Sprintf("%s of at most %g L: %s", plural(d.Bottles, "bottle"), r.WaterL, r.Dose)
	d.Rounding = "whole bottles"
}

// eighths writes a number of teaspoons, rounded up to an eighth, as a cook
// reads it; "" when it is under half an eighth, too little for a spoon.
func eighths(teaspoons float64) string {
	n := int(math.Ceil(teaspoons*8 - roundingSlack))
	if teaspoons*8 < 0.5 {
		return ""
	}
	whole, part := n/8, n%8
	fraction := []string{"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"}[part]
	switch {
	case whole == 0:
		return fraction
	case part == 0:
		return fmt.Sprint(whole)
	}
	return fmt.Sprintf("%d %s", whole, fraction)
}

// plural writes a count with its noun.
func plural(n int, noun string) string {
	switch {
	case n == 1:
		return "1 " + noun
	case strings.HasSuffix(noun, "ch"):
		return fmt.Sprintf("%d %ses", n, noun)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

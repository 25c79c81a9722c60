package stores

import (
	"fmt"
	"math"
	"slices"
	"strings"
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

// MostTreatedL is the largest volume the calculator doses, a village tank.
const MostTreatedL = 1e6

// rowSlackL is half the last digit of a volume in the table, so that an exact
// gallon counts as the row's 3.785 L.
const rowSlackL = 0.0005

// Disinfect returns the dose of an agent for any volume of doubtful water. At
// a row's own volume the dose is the row's. In between it is the next smaller
// row's dose in proportion, rounded up to whole drops, tenths of a mL, eighths
// of a teaspoon or whole tablets, and never more than the next larger row's;
// volumes under the smallest row are treated as that row's volume, as a drop
// or tablet cannot be split.
//
// Errors wrap [ErrAgent], [ErrStrength] (with the nearest), [ErrWaterWord],
// [ErrUntreated] (with the rule), [ErrNoDose] and [ErrTreatLimit].
func Disinfect(agent, strength string, volumeL float64, water Water) (Dose, error) {
	if !(volumeL > 0) || volumeL > MostTreatedL {
		return Dose{}, fmt.Errorf("%w: %g L; give more than 0 and at most %g", ErrTreatLimit, volumeL, float64(MostTreatedL))
	}
	if err := treatable(water); err != nil {
		return Dose{}, err
	}
	agents := Agents()
	i := slices.IndexFunc(agents, func(a Agent) bool { return a.Key == agent })
	if i < 0 {
		var keys []string
		for _, a := range agents {
			keys = append(keys, a.Key)
		}
		return Dose{}, fmt.Errorf("%w: %q; the table has %s", ErrAgent, agent, strings.Join(keys, ", "))
	}
	strength, err := agents[i].strengthOf(strength)
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
	table, double, err := doseRows(agents[i], strength, water)
	if err != nil {
		return Dose{}, err
	}
	d.Rows = table
	switch {
	case agent == "calcium-hypochlorite":
		d.stock(table[0])
	case agent == "sunlight":
		d.sun(table[0])
	case table[0].Units > 0:
		d.tablets(table[0], double)
	default:
		d.liquid(table, double)
	}
	d.WaitMin = table[0].WaitMin
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

// doseRows returns the dose rows of an agent and strength for the water, by
// volume. Where the table has only the dose for clear water and a rule that
// doubles it, double is true.
func doseRows(a Agent, strength string, water Water) (table []Disinfection, double bool, err error) {
	pick := func(fits func(condition string) bool) []Disinfection {
		var found []Disinfection
		for _, d := range disinfections() {
			if d.Agent == a.Key && d.Kind == "dose" && d.Strength == strength && fits(d.Condition) {
				found = append(found, d)
			}
		}
		slices.SortStableFunc(found, func(x, y Disinfection) int { return int(math.Copysign(1, x.upToL-y.upToL)) })
		return found
	}
	plain := pick(func(c string) bool { return strings.HasPrefix(c, "clear") })
	if water == ClearWater {
		return plain, false, nil
	}
	if strong := pick(func(c string) bool { return strings.HasPrefix(c, "cloudy") }); len(strong) > 0 {
		return strong, false, nil
	}
	for _, r := range rulesFor(a.Key, "rule") {
		doubles := strings.Contains(r.Dose, "double the dose") || strings.Contains(r.Dose, "twice the clear dose")
		if doubles && len(plain) > 0 && !strings.Contains(plain[0].Note, "NTU only") {
			return plain, true, nil
		}
	}
	return nil, false, fmt.Errorf("%w: %s, %s, %s water; settle and filter it until it is clear, let very cold water warm up, or boil it",
		ErrNoDose, a.Key, strength, water)
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
	if double {
		d.Rounding += "; twice the dose for clear water"
	}
}

// stepML is the step to which a dose in mL is rounded up away from the rows.
const stepML = 0.1

// scaled returns the dose for volumeL in one measure, by the rule of
// [Disinfect]; rows without the measure do not count.
func scaled(table []Disinfection, volumeL, step float64, amount func(Disinfection) float64) float64 {
	var have []Disinfection
	for _, r := range table {
		if amount(r) > 0 {
			have = append(have, r)
		}
	}
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
	dose = max(dose, amount(low))
	if at+1 < len(have) {
		dose = min(dose, amount(have[at+1]))
	}
	return dose
}

// tablets doses by whole tablets, each for a volume.
func (d *Dose) tablets(r Disinfection, double bool) {
	times := math.Ceil((d.VolumeL - rowSlackL) / r.upToL)
	times = max(times, 1)
	if r.upToL > r.WaterL && times > 1 {
		times = math.Ceil((d.VolumeL - rowSlackL) / r.WaterL) // "1 quart or 1 L": the stricter for more
	}
	d.Tablets = int(times) * r.Units
	d.TreatL = max(times*r.WaterL, d.VolumeL)
	d.ChlorineMgPerL = r.Chlorine
	if double {
		d.Tablets *= 2
		d.ChlorineMgPerL *= 2
	}
	d.Text = plural(d.Tablets, "tablet")
	d.Rounding = "whole tablets; fill up to the volume they are made for, as a tablet cannot be split"
	if double {
		d.Rounding += "; twice the dose for clear water"
	}
}

// stockParts is the dilution of the stock solution: 1 part to 100 parts of
// water, in the words of the row's dose.
const stockParts = 100

// stock doses a stock solution that is made first.
func (d *Dose) stock(r Disinfection) {
	d.TreatL = d.VolumeL
	d.StockML = math.Ceil(d.VolumeL*mlPerL/stockParts - roundingSlack)
	d.ChlorineMgPerL = r.Chlorine
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

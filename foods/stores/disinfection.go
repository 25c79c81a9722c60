package stores

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Faults of the disinfection calculator.
var (
	ErrAgent      = errors.New("no such agent in the table")
	ErrStrength   = errors.New("strength not in the table")
	ErrNoDose     = errors.New("the table has no dose for this water")
	ErrUntreated  = errors.New("no household treatment makes this water safe")
	ErrWaterWord  = errors.New("no such kind of water")
	ErrTreatLimit = errors.New("not a volume of water that can be treated")
)

// Water is what doubtful water is like.
type Water string

// Kinds of water. The last five cannot be made safe at home.
const (
	ClearWater  Water = "clear"
	CloudyWater Water = "cloudy" // cloudy or coloured
	ColdWater   Water = "cold"   // very cold
	Chemical    Water = "chemical"
	Algae       Water = "algae"
	Radioactive Water = "radioactive"
	Salts       Water = "salts" // heavy metals, salt, nitrate
	FloodWater  Water = "flood"
)

// untreatable maps kinds of water to the water_condition of their do_not row.
var untreatable = []struct {
	water     Water
	condition string
}{
	{Chemical, "fuel, solvent, pesticide or other chemical"},
	{Algae, "toxins from blue-green algae (scum)"},
	{Radioactive, "radioactive"},
	{Salts, "heavy metals, salt, nitrate"},
	{FloodWater, "flood water"},
}

// Waters returns every kind of water, the treatable first.
func Waters() []Water {
	all := []Water{ClearWater, CloudyWater, ColdWater}
	for _, u := range untreatable {
		all = append(all, u.water)
	}
	return all
}

// Disinfection is one row of disinfection.csv.
type Disinfection struct {
	Agent     string  `json:"agent"` // key: bleach, iodine, chlorine-tablets …
	Name      string  `json:"name"`  // substance in words
	Strength  string  `json:"strength"`
	Condition string  `json:"water_condition"`
	Volume    string  `json:"water_volume"`    // in the source's words
	WaterL    float64 `json:"water_l"`         // volume the dose is for; 0 when none is given
	Dose      string  `json:"dose"`            // in the source's words
	Drops     int     `json:"drops,omitempty"` // 0 when none is given
	ML        float64 `json:"ml,omitempty"`    // 0 when none is given
	Units     int     `json:"units,omitempty"` // tablets
	WaitMin   int     `json:"wait_min,omitempty"`
	Chlorine  float64 `json:"chlorine_mg_per_l,omitempty"`
	Kind      string  `json:"rule_type"` // dose, rule or do_not
	Note      string  `json:"note,omitempty"`
	Ref

	lowPercent, highPercent float64 // strength of a liquid, 0 when not given as one
	upToL                   float64 // the largest volume that the row's words give the dose to
}

var disinfections = tableOf("disinfection", func(r row) Disinfection {
	or0 := func(field string) float64 { v, _ := r.number(field); return v }
	d := Disinfection{
		Agent: r.Text("agent_key"), Name: r.Text("agent"), Strength: r.Text("strength"),
		Condition: r.Text("water_condition"), Volume: r.Text("water_volume"), Dose: r.Text("dose"),
		Kind: r.Text("rule_type"), Note: r.Text("note"), Ref: r.ref(),
		Drops: int(or0("dose_drops")), Units: int(or0("dose_units")), WaitMin: int(or0("wait_min")),
		WaterL: or0("water_l"), ML: or0("dose_ml"), Chlorine: or0("chlorine_mg_per_l"),
		lowPercent: or0("strength_low_percent"), highPercent: or0("strength_high_percent"), upToL: or0("up_to_l"),
	}
	if strings.HasPrefix(d.Name, "tablets") || strings.HasPrefix(d.Name, "granules") {
		d.Name = r.Text("method") + " " + d.Name // the chemical by its name
	}
	return d
})

// NeverDrink returns the rules about water and agents that must not be used.
func NeverDrink() []Disinfection {
	return where(disinfections(), func(d *Disinfection) bool { return d.Kind == "do_not" })
}

// rulesFor returns the rows of the given kind about the agent, in order.
func rulesFor(agent, kind string) []Disinfection {
	return where(disinfections(), func(d *Disinfection) bool { return d.Agent == agent && d.Kind == kind })
}

// Agent is a means of disinfection that doses water, with its strengths.
type Agent struct {
	Key       string   `json:"key"`
	Name      string   `json:"name"`
	Strengths []string `json:"strengths"` // as in the table
}

// superseded is the strength of an older table, 1 drop a quart for 7-10 percent:
// EPA's present page gives 2 drops for 8.25 percent.
const superseded = "7-10 percent"

// Agents returns the agents that have doses, in the order of the table;
// boiling is apart, see [Boil].
func Agents() []Agent {
	var all []Agent
	for _, d := range disinfections() {
		if d.Kind != "dose" || d.Agent == "boil" || d.Strength == superseded {
			continue
		}
		i := slices.IndexFunc(all, func(a Agent) bool { return a.Key == d.Agent })
		if i < 0 {
			i = len(all)
			all = append(all, Agent{Key: d.Agent, Name: d.Name})
		}
		if !slices.Contains(all[i].Strengths, d.Strength) {
			all[i].Strengths = append(all[i].Strengths, d.Strength)
		}
	}
	return all
}

// StrengthError says that the table has no dose for a strength, and which
// strength is nearest. It wraps [ErrStrength].
type StrengthError struct {
	Agent   string
	Asked   string
	Nearest string
	Why     string // why no dose is computed for it, "" where nothing is to say
	Have    []string
}

func (e *StrengthError) Error() string {
	text := fmt.Sprintf("%s %q: %v", e.Agent, e.Asked, ErrStrength)
	if e.Why != "" {
		text += ": " + e.Why
	}
	return text + fmt.Sprintf("; the nearest is %q, the table has %s", e.Nearest, strings.Join(e.Have, ", "))
}

func (e *StrengthError) Unwrap() error { return ErrStrength }

// strengthOf resolves what the user wrote to a strength of the agent's rows: the
// row's own words, or a number: percent of a liquid (a row for exactly that
// percent before a range that holds it), mg of a tablet. An empty word will do
// where the agent has one strength. For a household bleach between the rows it
// returns the percent as well.
func (a *Agent) strengthOf(asked string) (strength string, percent float64, err error) {
	word := strings.ToLower(strings.TrimSpace(asked))
	for _, s := range a.Strengths {
		if strings.ToLower(s) == word {
			return s, 0, nil
		}
	}
	if len(a.Strengths) == 1 && word == "" {
		return a.Strengths[0], 0, nil
	}
	fail := &StrengthError{Agent: a.Key, Asked: asked, Nearest: a.Strengths[0], Have: a.Strengths}
	number := strings.TrimSpace(strings.TrimRight(strings.TrimSuffix(strings.TrimSuffix(word, "percent"), "mg"), "% "))
	value, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
		return "", 0, fail
	}
	best, bestSpan, bestDistance := "", math.Inf(1), math.Inf(1)
	for _, s := range a.Strengths {
		low, high := a.span(s)
		switch distance := max(low-value, value-high, 0); {
		case distance < bestDistance:
			best, bestSpan, bestDistance = s, high-low, distance
		case distance == bestDistance && high-low < bestSpan:
			best, bestSpan = s, high-low
		}
	}
	switch {
	case bestDistance == 0:
		return best, 0, nil
	case a.Key == "bleach" && value >= bleachFrom && value <= bleachTo:
		return fmt.Sprintf("%g percent", value), value, nil
	case a.Key == "bleach" && value > bleachTo:
		fail.Why = fmt.Sprintf("over %d percent it is no household bleach but pool or industrial chlorine, of which a slip of a drop is dangerous and no drinking dose is published", bleachTo)
	case a.Key == "bleach":
		fail.Why = fmt.Sprintf("under %d percent it is spent or diluted and no dose can be relied on", bleachFrom)
	}
	fail.Nearest = best
	return "", 0, fail
}

// span returns the numbers that a strength covers: percent, or mg of a tablet.
func (a *Agent) span(strength string) (low, high float64) {
	for _, d := range disinfections() {
		if d.Agent == a.Key && d.Strength == strength && d.highPercent > 0 {
			return d.lowPercent, d.highPercent
		}
	}
	mg, _, _ := strings.Cut(strength, " mg tablet")
	if v, err := strconv.ParseFloat(mg, 64); err == nil {
		return v, v
	}
	return math.Inf(1), math.Inf(1)
}

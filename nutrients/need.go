package nutrients

import "errors"

// Limit is one published or user-set figure with its origin.
type Limit struct {
	Amount   float64
	Kind     string // RDA AI EAR UL CDRR AMDR EER, DGA (Guidelines energy table), feed, guideline, "expert group", planning, "common practice", rule: the household's own, or [KindOrder]
	Source   string // publication, table
	Verified string // as in the data: "yes: …", "from memory", "common practice, no source"
	Note     string // what was adjusted and why, "" if nothing
}

// with returns a copy of the limit with another amount, and why it is another.
func (l Limit) with(amount float64, note string) *Limit {
	l.Amount, l.Note = amount, note
	return &l
}

// Need is what one person requires of one nutrient, per day, in
// [Nutrient.Unit]. A nil limit means none is set, never zero.
type Need struct {
	Nutrient Nutrient
	Floor    *Limit // enforced at least
	Ceiling  *Limit // enforced at most
	Target   *Limit // the RDA or AI, shown beside the amount; may equal Floor
	Upper    *Limit // of infants: the upper level of the tables, never enforced
	Shown    bool   // true: printed, never enforced (infants' DRI figures)
}

// lower makes l the ceiling unless a lower one stands.
func (n *Need) lower(l Limit) {
	if n.Ceiling == nil || n.Ceiling.Amount > l.Amount {
		n.Ceiling = &l
	}
}

// raise makes l the floor unless a higher one stands.
func (n *Need) raise(l Limit) {
	if n.Floor == nil || n.Floor.Amount < l.Amount {
		n.Floor = &l
	}
}

// Share limits the energy from one nutrient to a share of planned energy, in
// per cent. KcalPerG is the general Atwater factor of the nutrient.
type Share struct {
	Nutrient Nutrient
	KcalPerG float64
	Min, Max *Limit // per cent of energy
}

// WaterNeed is a person's water per day, in litres. Infants have none here:
// their water is the feed's, see [Feed].
type WaterNeed struct {
	Total  *Limit // total water AI: drinks, and water in food
	Drinks *Limit // at least this much as drink; by a clinician's order as fluid, see [WaterNeed.ByFluid]
	Most   *Limit // at most this much fluid, by a clinician's order; nil: no limit
}

// ByFluid reports whether what is drunk is counted together with the food that
// is liquid, as clinicians order it: milk, juice, soup.
func (w *WaterNeed) ByFluid() bool { return w.Most != nil || w.Drinks.Ordered() }

// Feed is the milk feed of an infant, per day.
type Feed struct {
	Only            bool   // under 6 months: nothing else is eaten or drunk
	FormulaML       *Limit // ready feed from formula; nil when fully breast-fed
	HumanMilkML     *Limit // nil when fully formula-fed
	PowderGPer100ML float64

	FeedsLow, FeedsHigh float64 // feeds a day, published range

	Soy         bool    // soy-based formula is planned, where it can be had
	SpareFactor float64 // bought = need × this (discarded feeds)
	PureeG      *Limit  // g a day of fruit or vegetable infant food beside the milk, nil under 6 months
	MeatG       *Limit  // g a day of plain infant meat beside the milk, nil under 6 months and without meat
	IronFoods   *Limit  // servings of iron-rich food a day beside the milk, nil under 6 months
}

// MealBand is the carbohydrate of each main meal, in g, for a person with
// diabetes. Enforced is true only where the user or a clinician set it. The
// day is Meals in the band and Snacks of SnackG each.
type MealBand struct {
	Low, High  *Limit
	Enforced   bool
	Meals      int
	Snacks     int
	SnackG     float64
	SnackHighG float64 // most of a snack, where the meals are at the top of the band
}

// Split returns the carbohydrate of one meal and of one snack, in g, where a day
// holds perDayG: snacks of SnackG, larger ones only where the meals would pass
// the band.
func (m *MealBand) Split(perDayG float64) (mealG, snackG float64) {
	over := perDayG - float64(m.Meals)*m.High.Amount
	snackG = min(max(m.SnackG, over/float64(m.Snacks)), m.SnackHighG)
	return (perDayG - float64(m.Snacks)*snackG) / float64(m.Meals), snackG
}

// LowReserve is quick sugar set aside against a low blood sugar: Doses of DoseG
// each for Days days. It is never ration.
type LowReserve struct {
	Doses, Days      int
	DoseG            float64
	Why              string // how the diabetes is treated
	Source, Verified string
}

// For is how many doses are kept for some days, to whole doses.
func (r *LowReserve) For(days int) int {
	if r == nil {
		return 0
	}
	return (r.Doses*days + r.Days - 1) / r.Days
}

// Refusal says why a clinician must plan for a person.
type Refusal struct {
	Reason, Source, Verified string
}

// Note is one line of a person's rule set, in plain words, with its source.
type Note struct {
	Text, Source, Verified string
}

// Tablet is a supplement that somebody is asked about: its name in data/supplements.csv,
// as the household file takes it, and the nutrient that it holds.
type Tablet struct {
	Name     string `json:"name"`
	Nutrient string `json:"nutrient"` // as in the requirement tables
}

// Needs is everything one person requires per day.
type Needs struct {
	Person      Person
	Stage       string  // life stage of the requirement tables
	HeightCm    float64 // used, given or reference
	WeightKg    float64
	EER         Limit // estimated energy requirement, kcal/day
	List        []Need
	Shares      []Share
	Water       WaterNeed
	Feed        *Feed
	Meals       *MealBand
	Lows        *LowReserve // nil for those who need none
	Refused     *Refusal
	Supplements []Supplement // what the household opted into; Needs themselves are those of food
	AskAbout    []Tablet     // of what the diet leaves scarce; never counted unasked
	Steady      []Nutrient   // to be kept alike from day to day, for a medicine

	NotChecked []string // requirements without a column in the food table
	Notes      []Note
}

// say adds a line to the person's rule set.
func (n *Needs) say(text, source, verified string) {
	n.Notes = append(n.Notes, Note{text, source, verified})
}

// Standard is how strict the ration is.
type Standard string

// EnergySet is the set of energy equations; sets are never mixed.
type EnergySet string

// The words of --standard and --energy.
const (
	StandardRDA   Standard = "rda"   // RDA, or AI where there is none
	StandardEAR   Standard = "ear"   // EAR where one exists, else AI; for groups
	StandardBasic Standard = "basic" // energy, protein and water only

	Energy2023       EnergySet = "2023"       // NASEM 2023 equations
	Energy2005       EnergySet = "2005"       // IOM 2005 equations
	EnergyGuidelines EnergySet = "guidelines" // Dietary Guidelines table
)

// Options select the standard and the equations for [For].
type Options struct {
	Standard   Standard  // "" means rda
	EnergySet  EnergySet // "" means 2023
	Start      string    // ISO date of the first day, for the age of orders; "" does not ask
	LeanEnergy bool      // energy floor at 0.97 × EER for adults 19–64, not pregnant or lactating
}

// Supplement is a generic tablet or drops that a household has opted into by
// name, as it suits a person's age and state.
type Supplement struct {
	Name    string // as in data/supplements.csv
	Doses   []Dose // what one day's holds
	Taken   string // how often: "1 a day"
	Who     string // whom it is for
	MustNot string // who must not take it without a clinician
	Why     string

	Source, Verified string
}

// Dose is one nutrient of a supplement, a day.
type Dose struct {
	Of     string   // name of the nutrient; iodine and folic acid have no need in the food table
	Column Nutrient // the column of the food table in whose unit Amount is; Count where it has none
	Amount float64  // in Unit
	Unit   string
	UL     *Limit // published upper level of the US tables, nil where there is none
	Note   string
}

// KindOrder is the kind of a limit that a clinician ordered. Nothing relaxes
// such a limit: no standard, rule, budget, stored vitamin or closest ration.
const KindOrder = "order"

// Ordered reports whether a clinician ordered the limit.
func (l *Limit) Ordered() bool { return l != nil && l.Kind == KindOrder }

// kindRule is the kind of a limit that the household set.
const kindRule = "rule"

// Errors of [For].
var (
	ErrStage  = errors.New("nutrients: no life stage in the requirement tables")
	ErrOption = errors.New("nutrients: unknown standard or energy set")
)

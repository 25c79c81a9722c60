package nutrients

import (
	"slices"
	"strconv"
)

// Person is one row of a household: who is fed, and by which rules.
type Person struct {
	Name      string
	AgeMonths int     // full months; 12 × years where only years were given
	YearsOnly bool    // true when the household gave no month
	Sex       Sex     // Female or Male
	HeightCm  float64 // 0: reference body
	WeightKg  float64 // 0: reference body
	Activity  Activity
	State     State
	Feeding   Feeding // infants under 12 months; "" elsewhere

	Conditions  []Condition
	Allergies   []Allergy
	Dislikes    []string // food names or groups, resolved by the caller
	Rules       []Rule
	Orders      Orders
	Supplements []string // generic names of data/supplements.csv
	Count       int      // alike people this row stands for, at least 1

	// Unplanned says why a plan leaves the person out although no rule of the tables
	// does: the orders cannot all be kept. No file holds it; nil for everybody else.
	Unplanned *Refusal
}

// Sex is the sex whose requirement tables apply.
type Sex string

// Activity is the activity class of the energy equations.
type Activity string

// State is pregnancy or lactation, by trimester or half-year.
type State string

// Feeding is how an infant is fed.
type Feeding string

// Condition is a state of health or a diet that changes the needs.
type Condition string

// The words of household.csv.
const (
	Female Sex = "f"
	Male   Sex = "m"

	Inactive   Activity = "inactive"
	LowActive  Activity = "low-active" // the default
	Active     Activity = "active"
	VeryActive Activity = "very-active"

	NoState    State = ""
	Pregnant1  State = "pregnant-1"
	Pregnant2  State = "pregnant-2"
	Pregnant3  State = "pregnant-3"
	Lactating1 State = "lactating-1"
	Lactating2 State = "lactating-2"

	BreastFed  Feeding = "breast"
	FormulaFed Feeding = "formula"
	MixedFed   Feeding = "mixed"

	Diabetes1         Condition = "diabetes-1"
	Diabetes2         Condition = "diabetes-2"
	Diabetes2Diet     Condition = "diabetes-2-diet"
	DiabetesPregnancy Condition = "diabetes-pregnancy"
	LowSodium         Condition = "low-sodium"
	SoftFood          Condition = "soft-food"
	Coeliac           Condition = "coeliac"
	Lactose           Condition = "lactose"
	Vegetarian        Condition = "vegetarian"
	Vegan             Condition = "vegan"
	Warfarin          Condition = "warfarin" // medicines that meet food: see data/medicines.csv
	PotassiumSparing  Condition = "potassium-sparing"
	Metformin         Condition = "metformin"
	Lithium           Condition = "lithium"
	KidneyDisease     Condition = "kidney-disease" // refused without orders
	HeartFailure      Condition = "heart-failure"  // refused without orders
	Dysphagia         Condition = "dysphagia"      // refused
	InbornError       Condition = "inborn-error"   // refused
	TubeFeeding       Condition = "tube-feeding"   // refused
)

// RuleKind says what a [Rule] does.
type RuleKind string

// The words of the rules column.
const (
	RuleNo           RuleKind = "no"           // no FOOD
	RuleMost         RuleKind = "most"         // most FOOD 50 g/day
	RuleLeast        RuleKind = "least"        // least FOOD 50 g/day
	RuleFloor        RuleKind = "floor"        // floor NUTRIENT 30 mg
	RuleCeiling      RuleKind = "ceiling"      // ceiling NUTRIENT 2000 mg
	RuleCarbohydrate RuleKind = "carbohydrate" // carbohydrate 45-60 g/meal
)

// Rule is a user's or clinician's own limit. It is printed beside the standard
// value and lifts no safety rule.
type Rule struct {
	Kind     RuleKind
	Food     string   // name as written, for no, most, least; resolved by the caller
	Nutrient Nutrient // for floor and ceiling
	Low      float64  // the amount per day; for carbohydrate the low end per meal
	High     float64  // for carbohydrate the high end per meal
	Text     string   // as written, "" when the rule was not read from a file
}

// String returns the rule as written, or in the words of the rules column.
func (r Rule) String() string {
	if r.Text != "" {
		return r.Text
	}
	amount := strconv.FormatFloat(r.Low, 'f', -1, 64)
	switch r.Kind {
	case RuleNo:
		return string(r.Kind) + " " + r.Food
	case RuleMost, RuleLeast:
		return string(r.Kind) + " " + r.Food + " " + amount + " g/day"
	case RuleCarbohydrate:
		return string(r.Kind) + " " + amount + "-" + strconv.FormatFloat(r.High, 'f', -1, 64) + " g/meal"
	default:
		return string(r.Kind) + " " + r.Nutrient.Name() + " " + amount + " " + r.Nutrient.Unit()
	}
}

// Has reports whether p has condition c; a texture that is ordered counts as
// the condition of soft food.
func (p *Person) Has(c Condition) bool {
	if _, ordered := p.Orders.Get(OrderTexture); ordered && c == SoftFood {
		return true
	}
	return slices.Contains(p.Conditions, c)
}

// Pregnant reports whether p is in any trimester.
func (p *Person) Pregnant() bool {
	return p.State == Pregnant1 || p.State == Pregnant2 || p.State == Pregnant3
}

// Lactating reports whether p is breast-feeding.
func (p *Person) Lactating() bool { return p.State == Lactating1 || p.State == Lactating2 }

// maxNameLength catches slips of the pen, and keeps a name in its line.
const maxNameLength = 100

// The words of household.csv, in the order in which messages list them.
var (
	sexes      = []string{string(Female), string(Male)}
	activities = []string{string(Inactive), string(LowActive), string(Active), string(VeryActive)}
	states     = []string{string(Pregnant1), string(Pregnant2), string(Pregnant3), string(Lactating1), string(Lactating2)}
	feedings   = []string{string(BreastFed), string(FormulaFed), string(MixedFed)}
	conditions = []string{
		string(Diabetes1), string(Diabetes2), string(Diabetes2Diet), string(DiabetesPregnancy),
		string(LowSodium), string(SoftFood), string(Coeliac), string(Lactose), string(Vegetarian), string(Vegan),
		string(Warfarin), string(PotassiumSparing), string(Metformin), string(Lithium),
		string(KidneyDisease), string(HeartFailure), string(Dysphagia), string(InbornError), string(TubeFeeding),
	}
)

package stores

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/nutrients"
)

// KitItem is one row of kit.csv: a supply other than food, water and fuel.
type KitItem struct {
	ID        string  `json:"id"`
	Category  string  `json:"category"`
	Item      string  `json:"item"`
	Basis     string  `json:"basis"`      // household, person, infant …: what it is counted by
	Fixed     float64 `json:"fixed"`      // for each of the basis
	PerDay    float64 `json:"per_day"`    // more for each of the basis and day
	Unit      string  `json:"unit"`       //
	When      string  `json:"when"`       // in which case it is needed
	Medicine  bool    `json:"medicine"`   // to be discussed with the clinician: no quantity is given
	Note      string  `json:"note"`       //
	QtySource string  `json:"qty_source"` // where the quantity comes from; "as source" is Source
	Ref
}

var kitItems = tableOf("kit", func(r row) KitItem {
	return KitItem{
		ID: r.Text("id"), Category: r.Text("category"), Item: r.Text("item"), Basis: r.Text("basis"),
		Fixed: r.must("qty_fixed"), PerDay: r.must("qty_per_day"), Unit: r.Text("unit"), When: r.Text("when"),
		Medicine: r.Text("medicine") == "yes", Note: r.Text("note"), QtySource: r.Text("qty_source"), Ref: r.ref(),
	}
})

// KitFuel is the supply whose quantity the plan decides.
const KitFuel = "K05"

// KitInput is the household that a kit is for.
type KitInput struct {
	People []nutrients.Person
	Days   int
	Pets   int
	Cold   bool // nothing is heated: what serves only cooking is left out
	// DeviceUsers depend on oxygen or another device that needs power; the
	// household file does not tell.
	DeviceUsers int
}

// KitLine is one supply with its quantity for a household.
type KitLine struct {
	KitItem
	Count    int    `json:"count"`              // how many of the basis there are
	Quantity int    `json:"quantity,omitempty"` // in Unit; 0 where none is given: see Rule
	Rule     string `json:"rule"`
	If       string `json:"if,omitempty"` // needed only then; "" always
}

// Kit returns the supplies that apply to the household, in the order of the
// table, each with
//
//	quantity = ⌈(fixed + per day × days) × count of the basis⌉
//
// Medicines have no quantity: they are a list to discuss with the clinician.
func Kit(in KitInput) []KitLine {
	var kit []KitLine
	for _, item := range kitItems() {
		n := in.count(item)
		if n == 0 || in.Cold && forCooking(item.When) {
			continue
		}
		line := KitLine{KitItem: item, Count: n, If: condition(item.When)}
		amount := (item.Fixed + item.PerDay*float64(in.Days)) * float64(n)
		switch {
		case item.Medicine:
			line.Rule = "discuss with the clinician or pharmacist; no amount is given here"
		case amount == 0:
			line.Rule = "computed from the plan: " + item.Unit
		default:
			line.Quantity = int(math.Ceil(amount - roundingSlack))
			line.Rule = item.rule(in.Days, n)
		}
		kit = append(kit, line)
	}
	return kit
}

// rule writes the arithmetic of a quantity.
func (k *KitItem) rule(days, n int) string {
	each := fmt.Sprintf("%g", k.Fixed)
	switch {
	case k.PerDay > 0 && k.Fixed > 0:
		each = fmt.Sprintf("(%g + %g a day × %d days)", k.Fixed, k.PerDay, days)
	case k.PerDay > 0:
		each = fmt.Sprintf("%g a day × %d days", k.PerDay, days)
	}
	if k.Basis == "household" {
		return each + " a household"
	}
	return fmt.Sprintf("%s for each %s, × %d", each, k.Basis, n)
}

// forCooking reports whether a case of kit.csv arises only where something is
// heated.
func forCooking(when string) bool {
	return when == "any food that needs heat" || when == "any heat" || when == "any flame" || when == "frying foods"
}

// condition words the case in which a supply is needed, "" when the household
// shows that it is.
func condition(when string) string {
	switch when {
	case "always", "infant", "infant, breastfed too", "formula", "child", "pet", "6 months and over":
		return ""
	}
	if forCooking(when) && when != "frying foods" {
		return ""
	}
	return when
}

// count returns how many of the item's basis the household has.
func (in *KitInput) count(item KitItem) int {
	switch item.Basis {
	case "household":
		return 1
	case "pet":
		return in.Pets
	case "device user":
		return in.DeviceUsers
	}
	n := 0
	for i := range in.People {
		if p := &in.People[i]; basisHas(item, PersonTags(p)) {
			n += max(1, p.Count)
		}
	}
	return n
}

// basisHas reports whether a person with these tags counts towards the item's basis.
func basisHas(item KitItem, tags []Tag) bool {
	has := func(t Tag) bool { return slices.Contains(tags, t) }
	switch item.Basis {
	case "person":
		return true
	case "infant":
		return has(Infant) && (item.When != "6 months and over" || !has(InfantUnder6))
	case "formula-fed infant":
		return has(FormulaFed)
	case "menstruating person":
		return has(Menstruating)
	case "diabetic on insulin":
		return has(LowSugarDrug)
	case "allergic person":
		return has(AllergyTag)
	case "child":
		return has(Child) && !has(Infant)
	}
	// "older person", "older or disabled person"
	return strings.HasPrefix(item.Basis, "older") && has(Older)
}

// Medicines returns the lines of a kit that are to be discussed with the
// clinician, and the rest.
func Medicines(kit []KitLine) (discuss, rest []KitLine) {
	for _, l := range kit {
		if l.Medicine {
			discuss = append(discuss, l)
		} else {
			rest = append(rest, l)
		}
	}
	return discuss, rest
}

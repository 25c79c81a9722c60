package stores

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"rationwright/nutrients/table"
)

// ErrUnknownStove is wrapped by [StoveByName] for a name that fuel.csv lacks.
var ErrUnknownStove = errors.New("no such stove or fuel")

// Stove is one fuel in the pack it is sold in, with the stove that burns it:
// a row of fuel.csv.
type Stove struct {
	Name   string  `json:"name"` // the word of --stove
	Fuel   string  `json:"fuel"`
	Pack   string  `json:"pack"` // one can, canister, bottle, tablet …
	NetG   float64 `json:"net_g"`
	GrossG float64 `json:"gross_g"`

	EnergyMJ  float64 `json:"energy_mj"` // heat in one pack, on HeatBasis
	HeatBasis string  `json:"heat_basis"`
	EffLow    float64 `json:"efficiency_low"` // share of it that reaches the pot
	EffTyp    float64 `json:"efficiency_typical"`
	EffHigh   float64 `json:"efficiency_high"`
	BurnHours float64 `json:"burn_hours,omitempty"` // of one pack; 0 not given
	PowerW    float64 `json:"power_w,omitempty"`    // 0 not given

	LengthMM float64 `json:"length_mm"` // outer size of one pack, from memory
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm"`

	BoilsL float64 `json:"boils_l,omitempty"` // litres at 15 °C that one pack brings to the boil, typical; 0: does not boil
	Suited string  `json:"suited_for"`
	Where  string  `json:"where_allowed"`
	Keep   string  `json:"storage"`
	Note   string  `json:"note,omitempty"`
	Tags   []Tag   `json:"-"` // for cautions
	Ref
}

var stoves = sync.OnceValue(func() []Stove {
	sizes := map[string]row{}
	for _, r := range rows("fuel_sizes") {
		sizes[r.Text("name")] = r
	}
	var all []Stove
	for _, r := range rows("fuel") {
		s := Stove{
			Name: r.Text("name"), Fuel: r.Text("fuel"), Pack: r.Text("pack"),
			NetG: r.must("net_g"), GrossG: r.must("pack_gross_g"),
			EnergyMJ: r.must("energy_mj"), HeatBasis: r.Text("basis"),
			EffLow: r.must("eff_low"), EffTyp: r.must("eff_typ"), EffHigh: r.must("eff_high"),
			Suited: r.Text("suited_for"), Where: r.Text("where_allowed"), Keep: r.Text("storage"),
			Note: r.Text("note"), Tags: r.tags("tags"), Ref: r.ref(),
		}
		size, ok := sizes[s.Name]
		if !ok {
			panic("stores: data/fuel_sizes.csv: no row " + s.Name)
		}
		s.LengthMM, s.WidthMM, s.HeightMM = size.must("length_mm"), size.must("width_mm"), size.must("height_mm")
		s.BurnHours, _ = r.number("burn_hours")
		s.PowerW, _ = r.number("power_w")
		s.BoilsL, _ = r.number("litres_15c_to_boil")
		all = append(all, s)
	}
	return all
})

// Stoves returns every stove and fuel of the table, in its order.
func Stoves() []Stove { return slices.Clone(stoves()) }

// StoveNames returns the words that --stove takes, in the order of the table.
func StoveNames() []string {
	return table.Words(stoves(), func(s Stove) string { return s.Name })
}

// StoveByName returns the stove called name. The error wraps
// [ErrUnknownStove] and lists the names.
func StoveByName(name string) (*Stove, error) {
	all := stoves()
	for i := range all {
		if all[i].Name == name {
			return &all[i], nil
		}
	}
	return nil, fmt.Errorf("%w %q; the stoves are %s", ErrUnknownStove, name, strings.Join(StoveNames(), ", "))
}

// OutdoorsOnly reports whether the fuel must never burn in a room.
func (s *Stove) OutdoorsOnly() bool { return strings.HasPrefix(s.Where, "outdoors only") }

// MostCooking is the most demanding preparation the stove serves, a word of
// --cook: "warm" where it boils no water, "boil" where it is not suited to
// simmering, else "simmer".
func (s *Stove) MostCooking() string {
	switch {
	case s.BoilsL == 0:
		return "warm"
	case strings.Contains(s.Suited, "simmer"):
		return "simmer"
	}
	return "boil"
}

// UsefulMJ is the heat one pack puts into the pot: low, typical and high.
func (s *Stove) UsefulMJ() (low, typical, high float64) {
	return s.EnergyMJ * s.EffLow, s.EnergyMJ * s.EffTyp, s.EnergyMJ * s.EffHigh
}

// BoxL is litres of the upright box around one pack.
func (s *Stove) BoxL() float64 { return s.LengthMM * s.WidthMM * s.HeightMM / mm3PerLitre }

// UsualStove is the stove that a plan counts with when none is named.
const UsualStove = "butane-cartridge"

// FuelNeed is the fuel of one kind for a given useful heat.
type FuelNeed struct {
	Stove    *Stove  `json:"stove"`
	UsefulMJ float64 `json:"useful_mj"` // into the pot, over the horizon
	Reserve  float64 `json:"reserve"`   // fuel_reserve of fuel_rules.csv

	// Whole packs without a reserve at good, typical and poor efficiency.
	PacksGood    int `json:"packs_good"`
	PacksTypical int `json:"packs_typical"`
	PacksPoor    int `json:"packs_poor"`

	// Packs is what to keep: the typical need with the reserve, and never less
	// than the need at poor efficiency.
	Packs    int     `json:"packs"`
	WeightKg float64 `json:"weight_kg"` // of Packs, full
	BoxL     float64 `json:"box_l"`     // of Packs, upright boxes; sizes from memory
	BoilsL   float64 `json:"boils_l"`   // litres of water that Packs bring to the boil at typical efficiency

	// TooWeak says why the stove does not serve the cooking asked, "" if it does.
	TooWeak string `json:"too_weak,omitempty"`
}

// FuelFor returns the whole packs of s for usefulMJ of heat into the pot when
// the household cooks up to the class cook, a word of --cook ("" asks for
// none). A heat that is not a number or below zero counts as 0.
//
//	packs = ⌈heat ÷ (energy of one pack × efficiency)⌉
//
// Source of energy, efficiencies and reserve: fuel.csv and fuel_rules.csv.
func FuelFor(s *Stove, usefulMJ float64, cook string) FuelNeed {
	if !(usefulMJ > 0) || math.IsInf(usefulMJ, 0) {
		usefulMJ = 0
	}
	low, typical, high := s.UsefulMJ()
	n := FuelNeed{
		Stove: s, UsefulMJ: usefulMJ, Reserve: fuelRule("fuel_reserve").Value,
		PacksGood: wholeUnits(usefulMJ, high), PacksTypical: wholeUnits(usefulMJ, typical),
		PacksPoor: wholeUnits(usefulMJ, low),
	}
	n.Packs = max(wholeUnits(usefulMJ*n.Reserve, typical), n.PacksPoor)
	n.WeightKg = float64(n.Packs) * s.GrossG / 1000
	n.BoxL = float64(n.Packs) * s.BoxL()
	n.BoilsL = float64(n.Packs) * s.BoilsL
	order := []string{"", "none", "warm", "boil", "simmer"}
	if slices.Index(order, cook) > slices.Index(order, s.MostCooking()) {
		n.TooWeak = fmt.Sprintf("%s serves to %s only: %s", s.Fuel, s.MostCooking(), s.Suited)
	}
	return n
}

// FuelDays returns for how many days packs of s give perDayMJ of useful heat,
// at poor, typical and good efficiency, without reserve. Without any need the
// days are +Inf.
func FuelDays(s *Stove, packs int, perDayMJ float64) (poor, typical, good float64) {
	low, typ, high := s.UsefulMJ()
	n := float64(packs)
	return n * low / perDayMJ, n * typ / perDayMJ, n * high / perDayMJ
}

// roundingSlack keeps an exact whole number of units from being rounded up by
// floating-point noise; it is far below what any figure here is known to.
const roundingSlack = 1e-9

// wholeUnits returns the least whole number of units of size each that hold
// amount.
func wholeUnits(amount, each float64) int {
	if amount <= 0 {
		return 0
	}
	return int(math.Ceil(amount/each - roundingSlack))
}

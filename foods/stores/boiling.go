package stores

import (
	"math"
	"slices"
)

// BoilRule is one agency's rule for boiling doubtful water: a row of
// boiling.csv.
type BoilRule struct {
	Agency       string  `json:"agency"`
	UpToM        float64 `json:"up_to_m"` // above the sea
	Minutes      int     `json:"minutes"` // of rolling boil at or below it
	MinutesAbove int     `json:"minutes_above"`
	Note         string  `json:"note"`
	Ref
}

var boilRules = tableOf("boiling", func(r row) BoilRule {
	return BoilRule{
		Agency: r.Text("agency"), UpToM: r.must("up_to_m"), Minutes: int(r.must("minutes")),
		MinutesAbove: int(r.must("minutes_above")), Note: r.Text("note"), Ref: r.ref(),
	}
})

// Boiling is how to make doubtful water safe by heat.
type Boiling struct {
	Minutes  int            `json:"minutes"`  // of rolling boil
	Rules    []BoilRule     `json:"rules"`    // the agencies' rules
	Steps    []Disinfection `json:"steps"`    // what else to do
	HeatMJ   float64        `json:"heat_mj"`  // useful heat for the volume from 15 °C, boil held
	VolumeL  float64        `json:"volume_l"` //
	Known    bool           `json:"-"`        // the altitude was given
	Altitude float64        `json:"altitude_m,omitempty"`
}

// coldTapC is the temperature from which heat for boiling is counted.
// Source: fuel_rules.csv, energy_to_boil_1_l_from_15c.
const coldTapC = 15

// Boil returns how long a rolling boil must last at an altitude in metres
// above the sea, the strictest of the agencies' rules, and what heat volumeL
// litres take. An altitude that is not a number is not known: then the
// strictest time of all is given. Errors wrap [ErrUntreated], [ErrWaterWord]
// and [ErrTreatLimit].
func Boil(volumeL, altitudeM float64, water Water) (Boiling, error) {
	if !(volumeL >= LeastTreatedL && volumeL <= MostTreatedL) {
		return Boiling{}, ErrTreatLimit
	}
	if err := treatable(water); err != nil {
		return Boiling{}, err
	}
	b := Boiling{Rules: slices.Clone(boilRules()), VolumeL: volumeL, Known: !math.IsNaN(altitudeM)}
	for _, r := range b.Rules {
		if b.Known && altitudeM <= r.UpToM {
			b.Minutes = max(b.Minutes, r.Minutes)
		} else {
			b.Minutes = max(b.Minutes, r.MinutesAbove)
		}
	}
	if b.Known {
		b.Altitude = altitudeM
	}
	if water == CloudyWater {
		b.Steps = rulesFor("boil", "rule")
	}
	b.HeatMJ = BoilMJ(volumeL, coldTapC, float64(b.Minutes))
	return b, nil
}

// Bleaching is a use of bleach other than disinfecting doubtful water.
type Bleaching struct {
	VolumeL float64 `json:"volume_l"`
	ML      float64 `json:"ml,omitempty"`
	Drops   int     `json:"drops,omitempty"`
	Bleach  string  `json:"bleach"` // strength it is for
	How     string  `json:"how"`
	Ref
}

// SanitiseContainer returns the bleach solution that cleans the inside of a
// water container: volumeL litres of water with 5.2 mL of bleach in each.
func SanitiseContainer(volumeL float64) Bleaching {
	w := waterRule("CDC", "household", "container_sanitise")
	return Bleaching{VolumeL: volumeL, ML: w.Value * volumeL, Bleach: w.Condition, How: w.Note, Ref: w.Ref}
}

// PretreatForStorage returns the bleach for water that is clean but not
// chlorinated (a private well) before it is stored, in whole drops rounded up.
func PretreatForStorage(volumeL float64) Bleaching {
	w := waterRule("Extension", "household", "pretreat_unchlorinated")
	return Bleaching{
		VolumeL: volumeL, Drops: int(math.Ceil(w.Value*volumeL/LPerGallon - roundingSlack)),
		Bleach: w.Condition, How: w.Note, Ref: w.Ref,
	}
}

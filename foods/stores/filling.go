package stores

import (
	"errors"
	"fmt"
	"math"
)

// ErrVolume is the fault of [Container.Fill].
var ErrVolume = errors.New("not a volume of water that can be stored")

// LiftKg is the weight of a full container that one adult is planned to lift:
// common practice, no source.
const LiftKg = 25.0

// MostFillingL is the largest volume that [Container.Fill] plans, a village's worth.
const MostFillingL = 2e5

// FilledContainer is whole containers of one kind that hold a volume of water.
type FilledContainer struct {
	Container *Container `json:"container"`
	Count     int        `json:"count"`
	Litres    float64    `json:"litres"`
	WeightKg  float64    `json:"weight_kg"` // full
	ShelfL    float64    `json:"shelf_l"`   // of the upright boxes
	Renewal   string     `json:"renewal"`
}

// WaterContainers returns the containers of the table that are for water, in
// its order.
func WaterContainers() []*Container {
	all := containers()
	var found []*Container
	for i := range all {
		if all[i].Holds == "water" {
			found = append(found, &all[i])
		}
	}
	return found
}

// Sealed reports whether c is bought full and sealed, so that its printed date
// rules; the others are filled at home.
func (c *Container) Sealed() bool { return c.Key == "bottle_water_05" || c.Key == "case_water_24" }

// Fill returns the fewest whole containers that hold at least needL litres, none for
// nothing. The table's capacities are rounded to a mL, so that each counts half a mL
// more: a jug of 3,785 mL is a gallon of 3,785.4 and seven jugs are seven gallons. The
// error wraps [ErrVolume].
func (c *Container) Fill(needL float64) (FilledContainer, error) {
	if math.IsNaN(needL) || needL > MostFillingL {
		return FilledContainer{}, fmt.Errorf("%w: %g L; the most that is planned is %g L", ErrVolume, needL, float64(MostFillingL))
	}
	halves, holds := int(math.Ceil(2*needL*mlPerL-roundingSlack)), 2*int(c.NetML)+1 // in half mL
	f := FilledContainer{Container: c, Count: max(0, halves+holds-1) / holds, Renewal: renewalOf(c)}
	n := float64(f.Count)
	f.Litres, f.WeightKg, f.ShelfL = n*c.NetML/mlPerL, n*c.GrossG()/1000, n*c.BoxL
	return f, nil
}

// sameFigure is the difference in kg or litres under which two figures count as
// equal; the table's step by a gram or a millilitre.
const sameFigure = 1e-7

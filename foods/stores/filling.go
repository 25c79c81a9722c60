package stores

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// Faults of [Fill].
var (
	ErrNoContainer = errors.New("no water container can be used")
	ErrVolume      = errors.New("not a volume of water that can be stored")
)

// Aim is what a filling of containers minimises.
type Aim string

// The aims. Ties are broken by fewer containers, then less weight, then less
// shelf, then the order of the table.
const (
	Fewest   Aim = "fewest"
	Lightest Aim = "lightest" // least weight when full
	Smallest Aim = "smallest" // least shelf litres
	Cheapest Aim = "cheapest" // needs prices; containers without one are left out
)

// LiftKg is the weight of a full container that one adult is planned to lift:
// common practice, no source.
const LiftKg = 25.0

// MostFillingL is the largest volume that [Fill] plans, a village's worth.
const MostFillingL = 2e5

// FillOptions limit the containers of a filling.
type FillOptions struct {
	Aim       Aim                // "" means fewest
	MaxFullKg float64            // no container heavier than this when full; 0 means no limit
	Keys      []string           // only these keys of packages.csv; none means every water container
	Prices    map[string]float64 // price of one container by key, for cheapest and for the cost shown
}

// FilledContainer is one line of a filling.
type FilledContainer struct {
	Container *Container `json:"container"`
	Count     int        `json:"count"`
	Litres    float64    `json:"litres"`
	WeightKg  float64    `json:"weight_kg"` // full
	ShelfL    float64    `json:"shelf_l"`   // of the upright boxes
	Renewal   string     `json:"renewal"`
}

// Filling is whole containers that hold a volume of water.
type Filling struct {
	NeedL    float64           `json:"need_l"`
	Lines    []FilledContainer `json:"lines"`
	Count    int               `json:"count"`
	Litres   float64           `json:"litres"`
	WeightKg float64           `json:"weight_kg"` // full: water, container
	ShelfL   float64           `json:"shelf_l"`
	Cost     float64           `json:"cost,omitempty"`
	Priced   bool              `json:"-"` // every line has a price
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

// Fill returns the best whole containers, of at most two kinds, that hold at
// least needL litres. A store of more than two kinds is not looked for: it is
// harder to keep and to renew. Among those it is exact: every pair of kinds is
// tried, and for each pair every count of the larger that can matter with the
// fewest of the smaller that completes it, as any filling with more containers
// than that is the same filling with a container to spare.
func Fill(needL float64, opt FillOptions) (Filling, error) {
	if math.IsNaN(needL) || needL > MostFillingL {
		return Filling{}, fmt.Errorf("%w: %g L; the most that is planned is %g L", ErrVolume, needL, float64(MostFillingL))
	}
	if needL <= 0 {
		return Filling{Priced: true}, nil
	}
	kinds, err := opt.kinds()
	if err != nil {
		return Filling{}, err
	}
	halves := int(math.Ceil(2*needL*mlPerL - roundingSlack))
	var best *Filling
	for i := range kinds {
		for j := i; j < len(kinds); j++ {
			opt.pair(needL, halves, kinds[i], kinds[j], &best)
		}
	}
	return *best, nil
}

// kinds returns the containers that may be used, in the order of the table.
func (o *FillOptions) kinds() ([]*Container, error) {
	var found []*Container
	for _, c := range WaterContainers() {
		_, priced := o.Prices[c.Key]
		switch {
		case len(o.Keys) > 0 && !slices.Contains(o.Keys, c.Key):
		case o.MaxFullKg > 0 && c.GrossG() > o.MaxFullKg*1000:
		case o.Aim == Cheapest && !priced:
		default:
			found = append(found, c)
		}
	}
	if len(found) == 0 {
		names := table.Words(WaterContainers(), func(c *Container) string { return c.Key })
		return nil, fmt.Errorf("%w under the limits; the table has %s", ErrNoContainer, strings.Join(names, ", "))
	}
	return found, nil
}

// halfML is what one container counts towards a need, in half mL: the table's
// capacities are rounded to a mL, so that a jug of 3,785 mL is a gallon of
// 3,785.4 and seven jugs are seven gallons.
func (c *Container) halfML() int { return 2*int(c.NetML) + 1 }

// pair offers every filling with a and b that can be best for a need in half
// mL.
func (o *FillOptions) pair(needL float64, need int, a, b *Container, best **Filling) {
	if b.NetML > a.NetML {
		a, b = b, a // few steps over the larger
	}
	aHolds, bHolds := a.halfML(), b.halfML()
	for n := 0; ; n++ {
		left := need - n*aHolds
		m := 0
		if left > 0 {
			m = (left + bHolds - 1) / bHolds
		}
		if a != b || m == 0 {
			f := o.filling(needL, a, n, b, m)
			if *best == nil || o.better(&f, *best) {
				*best = &f
			}
		}
		if left <= 0 {
			return
		}
	}
}

func (o *FillOptions) filling(needL float64, a *Container, n int, b *Container, m int) Filling {
	f := Filling{NeedL: needL, Priced: true}
	for _, part := range []struct {
		c     *Container
		count int
	}{{a, n}, {b, m}} {
		if part.count == 0 {
			continue
		}
		k := float64(part.count)
		line := FilledContainer{
			Container: part.c, Count: part.count, Litres: k * part.c.NetML / mlPerL,
			WeightKg: k * part.c.GrossG() / 1000, ShelfL: k * part.c.BoxL, Renewal: renewalOf(part.c),
		}
		f.Lines = append(f.Lines, line)
		f.Count += line.Count
		f.Litres += line.Litres
		f.WeightKg += line.WeightKg
		f.ShelfL += line.ShelfL
		price, ok := o.Prices[part.c.Key]
		f.Cost += k * price
		f.Priced = f.Priced && ok
	}
	if !f.Priced {
		f.Cost = 0
	}
	return f
}

// better reports whether f is strictly better than g for the aim.
func (o *FillOptions) better(f, g *Filling) bool {
	var keys [][2]float64
	switch o.Aim {
	case Lightest:
		keys = append(keys, [2]float64{f.WeightKg, g.WeightKg})
	case Smallest:
		keys = append(keys, [2]float64{f.ShelfL, g.ShelfL})
	case Cheapest:
		keys = append(keys, [2]float64{f.Cost, g.Cost})
	}
	keys = append(keys, [2]float64{float64(f.Count), float64(g.Count)},
		[2]float64{f.WeightKg, g.WeightKg}, [2]float64{f.ShelfL, g.ShelfL})
	for _, k := range keys {
		if d := k[0] - k[1]; math.Abs(d) > sameFigure {
			return d < 0
		}
	}
	return false
}

// sameFigure is the difference in kg, litres or currency under which two
// fillings count as equal; the table's figures step by a gram or a millilitre.
const sameFigure = 1e-7

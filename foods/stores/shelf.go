package stores

import (
	"errors"
	"io"
	"math"

	"rationwright/nutrients/table"
)

// Shelf is one board on which packs stand. Boards are listed from the floor
// up.
type Shelf struct {
	Name     string  `json:"shelf"`
	WidthCm  float64 `json:"width_cm"`
	DepthCm  float64 `json:"depth_cm"`
	HeightCm float64 `json:"height_cm"` // clear height above the board
	LoadKg   float64 `json:"load_kg"`   // most that the board bears
	// AboveFloorCm is the height of the board's top above the floor. Without
	// it the board is taken to lie on the clear heights of those below.
	AboveFloorCm float64 `json:"above_floor_cm"`
}

// VolumeL is the clear space over the board in litres.
func (s *Shelf) VolumeL() float64 { return s.WidthCm * s.DepthCm * s.HeightCm / cm3PerLitre }

// cm3PerLitre and mmPerCm are exact.
const (
	cm3PerLitre = 1000
	mmPerCm     = 10
)

// Largest shelf that is believed: a wall of a warehouse in cm, tonnes in kg.
const (
	maxShelfCm = 10_000
	maxShelfKg = 100_000
)

// shelfColumns are the columns of shelves.csv.
var shelfColumns = table.Format{
	Row:     "shelf",
	Columns: append(table.Filled.Columns("shelf width_cm depth_cm height_cm load_kg"), table.Optional.Columns("above_floor_cm")...),
}

// Faults of shelves.csv, for [errors.Is].
var (
	ErrShelfTwice = errors.New("written twice")
	ErrShelfOrder = errors.New("lower than the shelf before it")
)

// ReadShelves reads shelves.csv: shelf, width_cm, depth_cm, height_cm, load_kg
// and optionally above_floor_cm, one line a shelf from the floor up. Errors
// are located as [table.Errors] are; warnings name unknown columns.
func ReadShelves(name string, r io.Reader) (shelves []Shelf, warnings []string, err error) {
	t, err := shelfColumns.Read(name, r)
	if t == nil {
		return nil, nil, err
	}
	seen := map[string]bool{}
	top := 0.0 // of the space over the last board
	board := 0.0
	for _, line := range t.Rows {
		size := func(field string, high float64) float64 {
			v, ok := line.Float(field, 0, high)
			if ok && v <= 0 {
				line.Fail(field, table.ErrRange, "write a number above 0")
			}
			return v
		}
		s := Shelf{
			Name: line.Text("shelf"), WidthCm: size("width_cm", maxShelfCm), DepthCm: size("depth_cm", maxShelfCm),
			HeightCm: size("height_cm", maxShelfCm), LoadKg: size("load_kg", maxShelfKg), AboveFloorCm: top,
		}
		if v, ok := line.Float("above_floor_cm", 0, maxShelfCm); ok {
			s.AboveFloorCm = v
			if v < board {
				line.Fail("above_floor_cm", ErrShelfOrder, "list the shelves from the floor up")
			}
		}
		if seen[s.Name] {
			line.Fail("shelf", ErrShelfTwice, "give every shelf its own name")
		}
		seen[s.Name] = true
		board, top = s.AboveFloorCm, s.AboveFloorCm+s.HeightCm
		shelves = append(shelves, s)
	}
	if err := t.Err(); err != nil {
		return nil, t.Warnings, err
	}
	return shelves, t.Warnings, nil
}

// PackingFactor is one row of packing.csv.
type PackingFactor struct {
	Key   string  `json:"key"`
	Value float64 `json:"value"`
	Note  string  `json:"note"`
	Ref
}

var packingFactors = tableOf("packing", func(r row) PackingFactor {
	return PackingFactor{r.Text("key"), r.must("value"), r.Text("note"), r.ref()}
})

// packingFactor returns the row with the key, see [withKey].
func packingFactor(key string) PackingFactor {
	return withKey(packingFactors(), "packing", key, func(f *PackingFactor) string { return f.Key })
}

// UsableShare is the share of a shelf's volume that boxes fill in practice,
// after gaps, hand room and uneven rows. Common practice, no source.
func UsableShare() PackingFactor { return packingFactor("shelf_use_factor") }

// ShelfSpaceL returns the litres of shelf that boxL litres of upright boxes
// need, and their share is [UsableShare].
func ShelfSpaceL(boxL float64) float64 { return boxL / UsableShare().Value }

// floorMM rounds a length in cm down to whole mm: a box that fits by less than
// a millimetre does not fit.
func floorMM(cm float64) int { return int(math.Floor(cm*mmPerCm + roundingSlack)) }

// Sound reports whether the shelf's sizes and load are such as [ReadShelves]
// takes.
func (s *Shelf) Sound() bool {
	for _, cm := range []float64{s.WidthCm, s.DepthCm, s.HeightCm} {
		if !(cm > 0 && cm <= maxShelfCm) {
			return false
		}
	}
	return s.LoadKg > 0 && s.LoadKg <= maxShelfKg && s.AboveFloorCm >= 0
}

package ration

import (
	"embed"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"rationwright/foods/kinds"
	"rationwright/nutrients/table"
)

// AimPart is one thing that the second aim counts.
type AimPart string

// The parts of the second aim, as in data/weights.csv, which says what each counts.
const (
	AimProduct AimPart = "product"
	AimSize    AimPart = "size"
	AimCrumb   AimPart = "crumb"
	AimRemnant AimPart = "remnant"
	AimTwin    AimPart = "twin"
	AimVariety AimPart = "variety"
	AimMain    AimPart = "main"
	AimTreat   AimPart = "treat"
	AimOften   AimPart = "often"
	AimBare    AimPart = "bare"
	AimSodium  AimPart = "sodium"
	AimPrice   AimPart = "price"
)

// aimParts are all of them. Those of ofKinds are about the kinds of their row; of
// AimVariety a row may be about one, and then stands in place of that for all.
var (
	aimParts = []string{string(AimProduct), string(AimSize), string(AimCrumb), string(AimRemnant), string(AimTwin),
		string(AimVariety), string(AimMain), string(AimTreat), string(AimOften), string(AimBare), string(AimSodium), string(AimPrice)}
	ofKinds = []AimPart{AimTreat, AimOften, AimBare}
)

// Weight is what one of a part of the second aim counts. They are this program's
// own planning rules, no source; a user's file changes them.
type Weight struct {
	Part  AimPart
	Kinds []string // names of kinds of food; only of AimTreat, AimOften, AimBare and AimVariety
	Value float64  // 0 and more
}

// Weights are the weights of the second aim.
type Weights []Weight

// Of returns the weight of a part that is about no kind, 0 where there is none.
func (w Weights) Of(part AimPart) float64 {
	for _, one := range w {
		if one.Part == part && len(one.Kinds) == 0 {
			return one.Value
		}
	}
	return 0
}

// OfKind returns the weight of a part for a kind: that of its own, else that of all.
func (w Weights) OfKind(part AimPart, kind string) float64 {
	for _, one := range w {
		if one.Part == part && slices.Contains(one.Kinds, kind) {
			return one.Value
		}
	}
	return w.Of(part)
}

//go:embed data/weights.csv data/mains.csv
var data embed.FS

// DefaultWeights returns the weights of data/weights.csv, parsed once. They must
// not be changed. An error means that the embedded data are broken.
var DefaultWeights = sync.OnceValues(func() (Weights, error) {
	file, err := data.Open("data/weights.csv")
	if err != nil {
		return nil, fmt.Errorf("ration: %w", err)
	}
	defer file.Close()
	w, _, err := readWeights("solver/ration/data/weights.csv", file)
	return w, err
})

// ReadWeights reads a user's weights: the columns are those of data/weights.csv, of
// which aim and weight are needed, and kind where the aim is about kinds. Rows stand
// in place of the built-in ones for the same aim; the others stay. rows are those of
// the file, header first. The error is a [*table.Errors] with every fault of the file.
func ReadWeights(file string, r io.Reader) (w Weights, warnings []string, err error) {
	built, err := DefaultWeights()
	if err != nil {
		return nil, nil, err
	}
	own, warnings, err := readWeights(file, r)
	if err != nil {
		return nil, nil, err
	}
	kept := slices.DeleteFunc(slices.Clone(built), func(old Weight) bool {
		return slices.ContainsFunc(own, func(o Weight) bool { return o.Part == old.Part })
	})
	return append(kept, own...), warnings, nil
}

// mostWeight bounds a weight: what is beyond is a slip.
const mostWeight = 1000

func readWeights(file string, r io.Reader) (Weights, []string, error) {
	all, err := kinds.Load()
	if err != nil {
		return nil, nil, err
	}
	in, err := table.Read(file, r, []table.Column{
		{Name: "aim", Presence: table.Filled}, {Name: "weight", Presence: table.Filled},
		{Name: "kind"}, {Name: "per"}, {Name: "reason"}, {Name: "source"},
	})
	if in == nil {
		return nil, nil, err
	}
	var weights Weights
	for _, row := range in.Rows {
		w := Weight{Part: AimPart(row.Choice("aim", aimParts...))}
		w.Value, _ = row.Float("weight", 0, mostWeight)
		for _, name := range row.List("kind") {
			if kind, _ := all.Find(name); kind != nil {
				w.Kinds = append(w.Kinds, kind.Name)
			} else {
				row.FailValue("kind", name, errors.New("not a kind of food"), "write a word that \"foods show\" knows as a kind")
			}
		}
		if takes := slices.Contains(ofKinds, w.Part); takes != row.Has("kind") && w.Part != AimVariety {
			fix := "leave it empty"
			if takes {
				fix = "name a kind of food, such as " + strings.Join([]string{"sugar", "hot drinks"}, " or ")
			}
			row.Fail("kind", fmt.Errorf("not what aim %s takes", w.Part), fix)
		}
		weights = append(weights, w)
	}
	return weights, in.Warnings, in.Err()
}

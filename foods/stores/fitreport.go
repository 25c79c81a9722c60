package stores

import (
	"fmt"
	"slices"
)

// LeftOver is packs that found no place, and the plainest reason.
type LeftOver struct {
	Pack   string `json:"pack"`
	Name   string `json:"name"`
	Count  int    `json:"count"`
	Reason string `json:"reason"`
}

// TooMuch is a limit of the shelves that what is left over runs against.
type TooMuch struct {
	What   string  `json:"what"` // volume, load, height, footprint or arrangement
	Text   string  `json:"text"`
	Need   float64 `json:"need"`
	Have   float64 `json:"have"`
	Unit   string  `json:"unit"`
	Proven bool    `json:"proven"` // false: no arrangement was found, though one may exist
}

// fit writes up the arrangement.
func (a *arrangement) fit() Fit {
	f := Fit{Stacks: a.stacks}
	slices.SortStableFunc(f.Stacks, func(x, y Stack) int { return x.Shelf - y.Shelf })
	for s := range a.shelves {
		shelf := &a.shelves[s]
		use := ShelfUse{Shelf: shelf.Name, LoadKg: shelf.LoadKg, VolumeL: shelf.VolumeL()}
		first := len(f.Places)
		for _, st := range f.Stacks {
			if st.Shelf != s {
				continue
			}
			l := a.loads[st.Load]
			l.Count = st.Count
			kg := float64(st.Count) * l.Kg
			use.Kg += kg
			use.BoxL += l.BoxL()
			at := slices.IndexFunc(f.Places[first:], func(p Place) bool { return p.Pack == l.Key })
			if at < 0 {
				f.Places = append(f.Places, Place{Shelf: shelf.Name, Pack: l.Key, Name: l.Name})
				at = len(f.Places) - 1 - first
			}
			f.Places[first+at].Count += st.Count
			f.Places[first+at].Kg += kg
		}
		f.Use = append(f.Use, use)
	}
	for i, n := range a.left {
		if n > 0 {
			f.Left = append(f.Left, LeftOver{a.loads[i].Key, a.loads[i].Name, n, reason(&a.loads[i], a.shelves)})
		}
	}
	if len(f.Left) > 0 {
		f.Much = tooMuch(a.shelves, a.loads)
	}
	return f
}

// reason says in plain words why a pack found no place.
func reason(l *Load, shelves []Shelf) string {
	var high, board, bears, glass bool
	for i := range shelves {
		s := &shelves[i]
		upright := floorMM(s.HeightCm) >= l.HeightMM
		flat := fitsBoard(l, s)
		high = high || upright
		board = board || flat
		bears = bears || s.LoadKg+sameFigure >= l.Kg
		glass = glass || flat && tiersOn(l, s) > 0 // which asks for the height
	}
	switch {
	case len(shelves) == 0:
		return "no shelves are given"
	case !high:
		return fmt.Sprintf("%d mm high, more than the clear height of every shelf", l.HeightMM)
	case !board:
		return fmt.Sprintf("%d by %d mm, more than the board of every shelf", l.LengthMM, l.WidthMM)
	case !bears:
		return fmt.Sprintf("%.4g kg each, more than every shelf bears", l.Kg)
	case !glass && l.Glass:
		return "glass, and every shelf that would take it is above 1.2 m"
	}
	return "no room or load left on the shelves that would take it"
}

// fitsBoard reports whether one pack can stand on the board of s.
func fitsBoard(l *Load, s *Shelf) bool {
	w, d := floorMM(s.WidthCm), floorMM(s.DepthCm)
	return l.LengthMM <= w && l.WidthMM <= d || l.WidthMM <= w && l.LengthMM <= d
}

// tooMuch returns which limits the loads as a whole break, proven by sums and
// by single packs; when none is broken it says that no arrangement was found.
func tooMuch(shelves []Shelf, loads []Load) []TooMuch {
	var much []TooMuch
	var boxL, shelfL, kg, bearKg float64
	for i := range shelves {
		shelfL += shelves[i].VolumeL()
		bearKg += shelves[i].LoadKg
	}
	tall, wide := 0, 0 // packs that no shelf can take alone
	for i := range loads {
		l := &loads[i]
		boxL += l.BoxL()
		kg += float64(l.Count) * l.Kg
		high, flat := false, false
		for j := range shelves {
			high = high || floorMM(shelves[j].HeightCm) >= l.HeightMM
			flat = flat || fitsBoard(l, &shelves[j])
		}
		if !high {
			tall += l.Count
		}
		if !flat {
			wide += l.Count
		}
	}
	if boxL > shelfL+sameFigure {
		much = append(much, TooMuch{"volume", "the packs fill more than all shelves hold", boxL, shelfL, "L", true})
	}
	if kg > bearKg+sameFigure {
		much = append(much, TooMuch{"load", "the packs weigh more than all shelves bear", kg, bearKg, "kg", true})
	}
	if tall > 0 {
		much = append(much, TooMuch{"height", "packs that are higher than every shelf", float64(tall), 0, "packs", true})
	}
	if wide > 0 {
		much = append(much, TooMuch{"footprint", "packs that are longer or wider than every board", float64(wide), 0, "packs", true})
	}
	if len(much) == 0 {
		text := fmt.Sprintf("no arrangement was found; in practice about %.0f %% of a shelf's volume can be filled", 100*UsableShare().Value)
		much = append(much, TooMuch{"arrangement", text, boxL, shelfL * UsableShare().Value, "L", false})
	}
	return much
}

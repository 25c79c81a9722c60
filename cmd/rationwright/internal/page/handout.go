package page

import (
	"cmp"
	"io"
	"slices"
)

// MostAbreast is how many households stand side by side on a handout.
const MostAbreast = 3

// handout is the shopping lists of several households in one table.
type handout struct {
	Reports []*Report
	Aisles  []handoutAisle
}

type handoutAisle struct {
	Name string
	Rows []handoutRow
}

// handoutRow is a pack and how many of it each household buys, 0 for none.
type handoutRow struct {
	Food, Size string
	Buy        []int

	key string
}

// Handout writes up to [MostAbreast] reports side by side as one HTML file.
func Handout(w io.Writer, reports []*Report) error {
	h := handout{Reports: reports}
	for i, r := range reports {
		for _, a := range r.Shopping {
			for _, f := range a.Foods {
				for _, k := range f.Packs {
					if k.Buy > 0 {
						h.row(a.Name, handoutRow{Food: f.Name, Size: cmp.Or(k.Size, k.Key), key: k.Key}).Buy[i] = k.Buy
					}
				}
			}
		}
	}
	return write(w, document{Title: "Rations side by side", Class: "handout", Body: h, Part: "handout"})
}

// row finds a pack in an aisle, or adds it.
func (h *handout) row(aisle string, want handoutRow) *handoutRow {
	a := slices.IndexFunc(h.Aisles, func(a handoutAisle) bool { return a.Name == aisle })
	if a < 0 {
		h.Aisles, a = append(h.Aisles, handoutAisle{Name: aisle}), len(h.Aisles)
	}
	rows := &h.Aisles[a].Rows
	k := slices.IndexFunc(*rows, func(r handoutRow) bool { return r.key == want.key })
	if k < 0 {
		want.Buy = make([]int, len(h.Reports))
		*rows, k = append(*rows, want), len(*rows)
	}
	return &(*rows)[k]
}

package model

import (
	"cmp"
	"slices"

	"rationwright/solver/linear"
)

// MergeAll does that of [Merged] to all columns of a program.
func MergeAll(p *linear.Problem) {
	for j := range p.Cols {
		p.Cols[j].Entries = Merged(p.Cols[j].Entries)
	}
}

// Merged sorts entries by row and adds up those of the same row.
func Merged(entries []linear.Entry) []linear.Entry {
	slices.SortStableFunc(entries, func(a, b linear.Entry) int { return cmp.Compare(a.Row, b.Row) })
	out := entries[:0]
	for _, e := range entries {
		if n := len(out); n > 0 && out[n-1].Row == e.Row {
			out[n-1].Value += e.Value
			continue
		}
		out = append(out, e)
	}
	return slices.DeleteFunc(out, func(e linear.Entry) bool { return e.Value == 0 })
}

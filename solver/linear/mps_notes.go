package linear

import (
	"cmp"
	"fmt"
	"slices"
)

// A Note tells of something in a valid file that is dropped, or that programs
// read in different ways.
type Note struct {
	File string
	Line int
	Text string
}

// String returns "file:line: text".
func (n Note) String() string { return fmt.Sprintf("%s:%d: %s", n.File, n.Line, n.Text) }

// countedNote is a note and how often its wording came up again.
type countedNote struct {
	Note
	more int // how many others have the same wording
}

// note keeps the first note of each wording and counts the others.
func (r *mpsReader) note(line int, format string, args ...any) {
	if k, again := r.noted[format]; again {
		r.notes[k].more++
		return
	}
	r.noted[format] = len(r.notes)
	r.notes = append(r.notes, countedNote{Note{File: r.file, Line: line, Text: fmt.Sprintf(format, args...)}, 0})
}

// allNotes returns the notes by line, each with how many like it there are.
func (r *mpsReader) allNotes() []Note {
	var all []Note
	for _, n := range r.notes {
		if n.more > 0 {
			n.Text += fmt.Sprintf(" (and %d more like it)", n.more)
		}
		all = append(all, n.Note)
	}
	slices.SortStableFunc(all, func(a, b Note) int { return cmp.Compare(a.Line, b.Line) })
	return all
}

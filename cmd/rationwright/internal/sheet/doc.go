// Package sheet lays answers out as text: sections in the order in which they are
// read, tables whose columns share the width of a terminal, figures, units and
// the small words of a sentence. It knows nothing of food; a [Sheet] says what
// stands where, and [Sheet.Text] only how it looks.
package sheet

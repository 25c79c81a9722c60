// Package page writes a plan as HTML: one file that needs nothing beside it, to be
// printed on A4 or Letter. [New] gathers what the sheets show, [Report.Write] writes
// all of them or one, [Handout] sets up to three households side by side. The parts
// of a page that a browser shows elsewhere are [Report.Body] and [Sheet].
//
// Pictures are SVG by gonum/plot in grey that reads in black and white; each says in
// its text alternative what it shows. Every text passes html/template.
package page

// Package facts writes answers for spreadsheets and programs, and makes foreign
// text harmless on its way out: every CSV of the program goes through [Table],
// every text of a user's file through [Printable] before a terminal shows it.
//
// A CSV answer is one flat table (RFC 4180), one fact a row, the kind of fact in
// its first column. Numbers are plain metric decimals, an absent value is an
// empty cell, never 0. A text that a spreadsheet would take for a formula stands
// behind an apostrophe.
package facts

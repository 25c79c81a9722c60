// Package view is a plan as plain data for whoever shows it: the terminal, a
// printed page, a browser. [Of] gathers from a plan and its request what a
// household reads, in the order in which it reads it: the worst news, who, how
// long, what to buy aisle by aisle, totals, who gets what against their needs, who
// must not eat what, cautions, dates, assumptions, sources.
//
// A view holds facts and finished words, no layout: figures are metric float64
// with their unit in the name, texts from files are clean, names are the words
// that people use. It is JSON as it stands and safe to hand to a template. What a
// plan does not have is empty or nil, never a zero that means absent. A page is
// written against this package alone; it need not know package solver.
//
// Menu and dishes will stand beside Shopping as further optional fields.
package view

// Package report turns answers into what people and spreadsheets read: tables
// of at most [MaxColumns] columns, one flat CSV, and JSON. A [Sheet] is what
// every reading form renders, so that text and page say the same. The package
// computes nothing about nutrition; it words, rounds and lays out what a plan
// holds.
package report

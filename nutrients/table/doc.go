// Package table reads CSV tables with located errors: every bad cell of a file
// is reported in one run, as
//
//	file:line:column: field "value": what is wrong; what to do
//
// Files follow RFC 4180: UTF-8, a header line, commas, in any column order. A
// byte order mark, CRLF line ends, blank lines and rows of empty cells are
// accepted; semicolons or tabs as separators, decimal commas, other encodings
// and spreadsheets are named and refused. Unlike [encoding/csv] it reads the
// whole file at once, at most [MaxBytes] of it, so that all errors are found.
// It is a leaf: it knows of no nutrient and no food.
package table

// Package table reads CSV tables with located errors: every bad cell of a file
// is reported in one run, as
//
//	file:line:column: field "value": what is wrong; what to do
//
// Files are UTF-8 with a header line, comma-separated, in any column order. A
// byte order mark and CRLF line ends are accepted; semicolons or tabs as
// separators, decimal commas and other encodings are named and refused. It is
// a leaf: it knows of no nutrient and no food.
package table

// Package model makes the rows and columns of one request, one file a kind of
// row, as plain data that says what each row and column is.
package model

// Package report words the answers: each question has a file for what people read
// (a sheet of package sheet) and one for spreadsheets (a table of package facts);
// JSON is the answer itself. Every form begins with the headline. The package
// computes nothing about nutrition; it words, rounds and lays out what a plan
// holds.
package report

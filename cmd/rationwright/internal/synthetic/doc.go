// Package synthetic invents registers for trials: households of sizes, ages and
// conditions drawn by shares that stand in a table with their sources. Nobody in them
// lives. The same seed gives the same households, and a longer register begins with a
// shorter one.
package synthetic

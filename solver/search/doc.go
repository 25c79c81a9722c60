// Package search goes from a model to a point of it: relaxations, dives,
// restricted masters, and the one place that calls the branch-and-cut engine.
package search

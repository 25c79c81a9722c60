// Package tabletest compares embedded tables with extracts of what was published, for
// tests.
package tabletest

// Package plan makes the plan of a request, on shelves where they are given,
// and sets plans side by side.
package plan

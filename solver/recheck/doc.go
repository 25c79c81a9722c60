// Package recheck holds a plan that was read back against what it says of itself:
// its digests, its request, and every figure and word that follows from them.
package recheck

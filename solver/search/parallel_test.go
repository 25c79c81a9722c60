package search

import (
	"slices"
	"sync/atomic"
	"testing"
)

// TestParallelDoesEachOnce: every one of n things is done, once, and no other.
func TestParallelDoesEachOnce(t *testing.T) {
	for n := range 8 {
		done := make([]int32, n+2)
		Parallel(n, func(k int) { atomic.AddInt32(&done[k], 1) })
		want := append(slices.Repeat([]int32{1}, n), 0, 0)
		if !slices.Equal(done, want) {
			t.Errorf("of %d: %v", n, done)
		}
	}
}

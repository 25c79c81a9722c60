package search

import (
	"sync"
)

// Parallel does n things on two processors; each must keep to its own place.
func Parallel(n int, do func(k int)) {
	var wg sync.WaitGroup
	for first := range 2 {
		wg.Go(func() {
			for k := first; k < n; k += 2 {
				do(k)
			}
		})
	}
	wg.Wait()
}

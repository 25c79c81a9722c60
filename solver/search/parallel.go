package search

import "rationwright/solver/branch"

// Parallel does n things on two processors; each must keep to its own place. What one of
// them panics with, Parallel panics with.
func Parallel(n int, do func(k int)) {
	var team branch.Team
	for first := range 2 {
		team.Do(func() {
			for k := first; k < n; k += 2 {
				do(k)
			}
		})
	}
	team.Wait()
}

//go:build race

package web

// The race detector slows a search several times. What ends it by the clock is as many
// times later, so that the same is found; the work is counted and stays.
func init() {
	const slowed = 10
	firstTime *= slowed
	jobTime *= slowed
	for i := range stages {
		stages[i] *= slowed
	}
	for i := range dishStages {
		dishStages[i] *= slowed
	}
}

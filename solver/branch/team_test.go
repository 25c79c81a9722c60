package branch

import (
	"sync/atomic"
	"testing"
)

// A panic in one of several goroutines reaches the one that waits, after all have ended;
// without one, nothing is thrown.
func TestTeamPassesPanicsOn(t *testing.T) {
	var team Team
	var ended atomic.Int32
	for i := range 4 {
		team.Do(func() {
			defer ended.Add(1)
			if i == 2 {
				panic("a fault of the engine")
			}
		})
	}
	thrown := func() (fault any) {
		defer func() { fault = recover() }()
		team.Wait()
		return nil
	}
	if fault := thrown(); fault != "a fault of the engine" || ended.Load() != 4 {
		t.Errorf("thrown %v after %d of 4 ended", fault, ended.Load())
	}
	team.Do(func() {})
	if fault := thrown(); fault != nil {
		t.Errorf("thrown %v though nothing panicked", fault)
	}
}

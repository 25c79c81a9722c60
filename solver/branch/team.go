package branch

import "sync"

// Team runs functions at the same time. A panic in one of them becomes a panic of the
// goroutine that waits, so that a caller who recovers loses one search and not the whole
// program. The zero value is ready; it may be used once more after [Team.Wait].
type Team struct {
	running sync.WaitGroup
	mu      sync.Mutex
	fault   any // of the first that panicked, nil of none
}

// Do runs f in a goroutine of its own.
func (t *Team) Do(f func()) {
	t.running.Go(func() {
		defer func() {
			if fault := recover(); fault != nil {
				t.mu.Lock()
				defer t.mu.Unlock()
				if t.fault == nil {
					t.fault = fault
				}
			}
		}()
		f()
	})
}

// Wait waits for all functions to end. It panics with what the first of them panicked with.
func (t *Team) Wait() {
	t.running.Wait()
	if fault := t.fault; fault != nil {
		t.fault = nil
		panic(fault)
	}
}

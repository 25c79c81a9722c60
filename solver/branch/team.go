package branch

import "sync"

// Team runs functions at the same time. A panic in one of them becomes a panic of the
// goroutine that waits, so that a caller who recovers loses one search and not the whole
// program. The zero value is ready; it may be used once more after [Team.Wait].
type Team struct {
	running sync.WaitGroup
	mu      sync.Mutex
	thrown  bool
	fault   any // of the first that panicked
}

// Do runs f in a goroutine of its own.
func (t *Team) Do(f func()) {
	t.running.Add(1)
	go func() {
		defer t.running.Done()
		defer func() {
			fault := recover()
			if fault == nil {
				return
			}
			t.mu.Lock()
			defer t.mu.Unlock()
			if !t.thrown {
				t.thrown, t.fault = true, fault
			}
		}()
		f()
	}()
}

// Wait waits for all functions to end. It panics with what the first of them panicked with.
func (t *Team) Wait() {
	t.running.Wait()
	if t.thrown {
		fault := t.fault
		t.thrown, t.fault = false, nil
		panic(fault)
	}
}

package web

import (
	"context"
	"net/http"
	"testing"
	"time"
)

// TestWhoWatchesIsThere: while a browser reads the progress of a search, it counts as there, however
// long that takes, without asking again: its search goes on.
func TestWhoWatchesIsThere(t *testing.T) {
	x := serve(t, Options{})
	end := make(chan struct{})
	x.start("plan", func(ctx context.Context, j *job) error {
		j.show()
		<-end
		return ctx.Err()
	})
	go x.watch(t.Context())
	res, err := x.client.Get(x.base + "/progress")
	if err != nil || res.StatusCode != http.StatusOK {
		t.Fatal(res, err)
	}
	defer res.Body.Close()
	line := make([]byte, 16)
	if _, err := res.Body.Read(line); err != nil {
		t.Fatal(err)
	}
	long := time.Now().Add(-2 * leftTime)
	x.locked(func() { x.lastSeen = long })
	seen := false
	for range 100 {
		time.Sleep(liveEvery / 5)
		x.locked(func() { seen = x.lastSeen.After(long) })
		if seen {
			break
		}
	}
	if !seen || !x.lastJob().running() {
		t.Error("who watches counts as gone")
	}
	close(end)
	<-x.lastJob().done
	if err := x.lastJob().err; err != nil {
		t.Errorf("the search ended by %v", err)
	}
}

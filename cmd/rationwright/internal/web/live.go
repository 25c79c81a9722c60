package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"
)

// liveEvery is how often progress is told, and liveTime how long one telling lasts:
// the browser asks again.
const (
	liveEvery = 250 * time.Millisecond
	liveTime  = 30 * time.Second
)

// progress tells the state of the search as server-sent events until it ends or the
// browser leaves.
func (s *Server) progress(w http.ResponseWriter, r *http.Request) error {
	rc := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	tick := time.NewTicker(liveEvery)
	defer tick.Stop()
	end := time.After(liveTime)
	for {
		s.seen()
		st := s.state()
		text, err := json.Marshal(st)
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(w, "data: %s\n\n", text); err != nil {
			return nil // gone
		}
		if err := rc.Flush(); err != nil || !st.Running {
			return nil
		}
		select {
		case <-r.Context().Done():
			return nil
		case <-end:
			return nil
		case <-tick.C:
		}
	}
}

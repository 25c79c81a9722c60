package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"time"

	"rationwright/cmd/rationwright/internal/sheet"
)

// state is what a page says of the search.
type state struct {
	What     string
	Running  bool
	Showable bool // there is an answer, which is being bettered
	Version  int  // of what is shown
	Line     string
	Problem  string
}

// state reads the search under way.
func (s *Server) state() state {
	s.mu.Lock()
	j, least, version := s.job, s.entered.Options["least"], s.version
	s.mu.Unlock()
	if j == nil {
		return state{Version: version}
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	st := state{What: j.what, Running: j.running(), Showable: j.showable, Version: version}
	unit := map[string]string{"weight": " kg", "volume": " L"}[least]
	switch p := j.now; {
	case j.what == "swap" && st.Running:
		st.Line = "Looking for the fewest changes."
	case p.HasValue && j.what == "plan":
		st.Line = fmt.Sprintf("Best so far %s%s; no plan does better than %s%s: within %s of the best possible.", sheet.Money(p.Value), unit, sheet.Money(p.Bound), unit, sheet.GapPercent(p.Gap))
	case st.Running:
		st.Line = "Searching."
	}
	switch {
	case j.err == nil:
	case errors.Is(j.err, context.Canceled) || j.stopped:
		st.Problem = "Stopped before there was an answer."
	default:
		st.Problem = j.err.Error()
	}
	return st
}

// liveEvery is how often progress is told, and liveTime how long one telling lasts:
// the browser asks again.
const (
	liveEvery = 250 * time.Millisecond
	liveTime  = 30 * time.Second
)

// progress tells the state of the search as server-sent events until it ends or the
// browser leaves.
func (s pages) progress(w http.ResponseWriter, r *http.Request) error {
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

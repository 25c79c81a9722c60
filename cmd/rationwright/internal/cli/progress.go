package cli

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"golang.org/x/term"

	"rationwright/solver/search"
)

// progressEvery is how often the progress line is redrawn.
const progressEvery = 100 * time.Millisecond

// progressLine shows the state of a search on one line of a terminal. On
// anything else it stays silent, so that logs and pipes hold no control
// characters.
type progressLine struct {
	out   io.Writer
	live  bool
	unit  string
	mu    sync.Mutex
	last  time.Time
	drawn bool
}

// newProgress returns a line on w, live only when w is a terminal.
func newProgress(w io.Writer, unit string) *progressLine {
	f, ok := w.(*os.File)
	return &progressLine{out: w, live: ok && term.IsTerminal(int(f.Fd())), unit: unit}
}

// show redraws the line, at most ten times a second. It may be called from
// several goroutines.
func (l *progressLine) show(p search.Progress) {
	text := fmt.Sprintf("no plan yet, nothing better than %.2f %s", p.Bound, l.unit)
	if p.HasValue {
		text = fmt.Sprintf("best plan %.2f %s, within %.2f %% of the best possible", p.Value, l.unit, 100*p.Gap)
	}
	l.draw(fmt.Sprintf("%4.1f s  %s  (Ctrl-C: take the best so far)", p.Elapsed.Seconds(), text))
}

// draw redraws the line as text.
func (l *progressLine) draw(text string) {
	if !l.live {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.drawn && time.Since(l.last) < progressEvery {
		return
	}
	l.last, l.drawn = time.Now(), true
	fmt.Fprintf(l.out, "\r\x1b[K%s", text)
}

// clear takes the line away.
func (l *progressLine) clear() {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.drawn {
		fmt.Fprint(l.out, "\r\x1b[K")
		l.drawn = false
	}
}

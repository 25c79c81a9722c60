package cli

import (
	"fmt"
	"time"

	"rationwright/cmd/rationwright/internal/batch"
)

// batchEvery is how often a batch says how far it is where there is no terminal.
const batchEvery = 30 * time.Second

// mostTold is how many different warnings of reading households are repeated.
const mostTold = 10

// batchProgress says how far a batch is: on one line of a terminal, elsewhere in a
// line now and then.
type batchProgress struct {
	*progressLine
	s           *session
	all, before int
	began, said time.Time
	warned      map[string]bool
}

func newBatchProgress(s *session, all, before int) *batchProgress {
	now := time.Now()
	return &batchProgress{progressLine: newProgress(s.stderr, ""), s: s, all: all, before: before, began: now, said: now, warned: map[string]bool{}}
}

// wrote is told after each line.
func (p *batchProgress) wrote(done int) {
	rate, left := batch.Left(p.all, done, p.before, time.Since(p.began))
	text := fmt.Sprintf("%d of %d households, %.1f a second, %s left", done, p.all, rate, left.Round(time.Second))
	p.draw(text + "  (Ctrl-C: stop here, --resume goes on)")
	if !p.live && time.Since(p.said) >= batchEvery {
		p.said = time.Now()
		p.s.note("%s", text)
	}
}

// told is told a warning of reading a household.
func (p *batchProgress) told(warning string) {
	if len(p.warned) >= mostTold || p.warned[warning] {
		return
	}
	p.warned[warning] = true
	p.clear()
	p.s.warn([]string{warning})
	if len(p.warned) == mostTold {
		p.s.note("further warnings of households are not repeated")
	}
}

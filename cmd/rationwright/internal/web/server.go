package web

import (
	"html/template"
	"sync"
	"time"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// Options are what a server is started with.
type Options struct {
	Port   int    // 0: one that is free
	Folder string // where what is entered is kept; "" in memory only
	Units  sheet.Units
	Today  func() string // ISO date
	Demo   [][]string    // rows of the invented household, header first
}

// Server is the page of one run.
type Server struct {
	gate
	opt   Options
	table *foods.Table
	words []string // for food, everyday ones first
	keep  *folder  // nil: memory only
	pages *template.Template

	mu       sync.Mutex
	entered  entered
	made     *made          // the plan shown, nil for none
	before   []*made        // plans before it, for undo
	check    *sheet.Sheet   // of the last stock check
	compared *comparedPlans // side by side
	problems []string       // of the last change, shown once
	halfFood halfFood       // a food that could not be taken, shown once
	ownShown *sheet.Sheet   // what was understood of the last one, shown once
	job      *job           // the search under way or the last one
	lastSeen time.Time
	version  int // counts what is newly shown
}

// made is a plan with what is shown of it.
type made struct {
	plan   *ration.Plan
	req    *ration.Request
	report *page.Report
	swap   *sheet.Sheet // how it came from the plan before it; nil where it was made afresh
}

type comparedPlans struct {
	found *plan.Comparison
	sheet *sheet.Sheet
	drawn *page.Picture
}

// New returns a server that is ready to run.
func New(opt Options) (*Server, error) {
	table, err := foods.Load()
	if err != nil {
		return nil, err
	}
	s := &Server{opt: opt, table: table, words: foodWords(table), entered: fresh(opt.Today())}
	s.gate = gate{token: newToken(), seen: s.wasSeen}
	s.pages = s.templates()
	if opt.Folder == "" {
		return s, nil
	}
	if s.keep, err = openFolder(opt.Folder); err != nil {
		return nil, err
	}
	return s, s.load()
}

// locked does what needs all that may change to itself.
func (s *Server) locked(do func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	do()
}

// said is what is entered now.
func (s *Server) said() entered {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.entered
}

// request is what is entered as a request; its error says what is wrong with it.
func (s *Server) request() (*ration.Request, error) {
	e := s.said()
	return e.request()
}

// complain shows what is wrong on the next page.
func (s *Server) complain(err error) {
	s.locked(func() { s.problems = problemsOf(err) })
}

// shown is the plan shown, nil for none.
func (s *Server) shown() *made {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.made
}

// lastJob is the search under way or the last one; nil where there was none.
func (s *Server) lastJob() *job {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.job
}

package web

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"

	"rationwright/cmd/rationwright/internal/sheet"
)

// Run listens on this machine only and serves until ctx ends; ready is told the link
// to open, which holds the token.
func (s *Server) Run(ctx context.Context, ready func(link string)) error {
	lis, err := (&net.ListenConfig{}).Listen(ctx, "tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(s.opt.Port)))
	if err != nil {
		return fmt.Errorf("cannot listen on port %d of this machine: %w; choose another --port, or leave it out", s.opt.Port, err)
	}
	_, s.port, err = net.SplitHostPort(lis.Addr().String())
	if err != nil {
		return errors.Join(err, lis.Close())
	}
	work, stop := context.WithCancel(ctx)
	defer stop()
	web := &http.Server{
		Handler: s.Handler(), BaseContext: func(net.Listener) context.Context { return work },
		ReadHeaderTimeout: headerTime, ReadTimeout: bodyTime, WriteTimeout: writeTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHeader,
	}
	ended := make(chan error, 1)
	go func() { ended <- web.Serve(lis) }()
	go s.watch(work)
	ready(s.link())
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	s.stopJob()
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopTime)
	defer cancel()
	if err := web.Shutdown(last); err != nil {
		return web.Close() // a reader that does not let go
	}
	return nil
}

// link is the address of this run.
func (s *Server) link() string {
	return "http://" + net.JoinHostPort("127.0.0.1", s.port) + "/?" + tokenParam + "=" + s.token
}

// Handler is every page behind every check.
func (s *Server) Handler() http.Handler {
	mux, p, c := http.NewServeMux(), pages{s}, changes{s}
	for path, show := range map[string]func(http.ResponseWriter, *http.Request) error{
		"/{$}": p.householdPage, "/wishes": p.wishesPage, "/menu": p.menuPage, "/stock": p.stockPage, "/prices": p.pricesPage,
		"/plan": p.ofPlan("The plan", "/plan", "plan"), "/details": p.ofPlan("The plan in full", "/details", "details"),
		"/own": p.ownPage, "/compare": p.comparePage, "/save": p.ofPlan("Save, print, open", "/save", "save"),
		"/progress": p.progress, "/get/{file}": p.download, "/static/{file}": p.static,
	} {
		mux.HandleFunc("GET "+path, func(w http.ResponseWriter, r *http.Request) { s.answer(w, r, show(w, r)) })
	}
	for path, change := range map[string]func(*http.Request) (string, error){
		"/household": c.changeHousehold, "/wishes": c.changeWishes, "/stock": c.changeStock, "/prices": c.changePrices, "/own": c.changeOwn, "/shelves": c.changeShelves, "/open": c.openFile,
		"/plan": c.makePlan, "/stop": c.stop, "/strike": c.strike, "/keep": c.keepFood, "/undo": c.undo, "/way-out": c.takeWayOut, "/check": c.checkStock,
		"/compare": c.compare, "/choose": c.choose,
	} {
		mux.HandleFunc("POST "+path, func(w http.ResponseWriter, r *http.Request) { s.carryOut(w, r, change) })
	}
	return s.guard(mux)
}

// answer ends a page that could not be shown.
func (s *Server) answer(w http.ResponseWriter, r *http.Request, err error) {
	switch {
	case err == nil, r.Context().Err() != nil:
	case errors.Is(err, errNotThere):
		refuse(w, http.StatusNotFound, "There is no such page.")
	case errors.Is(err, errNoPlan):
		refuse(w, http.StatusNotFound, sheet.Sentence(err.Error()))
	default:
		refuse(w, http.StatusInternalServerError, "This page cannot be shown: "+err.Error())
	}
}

var errNotThere = errors.New("no such page")

// carryOut makes a change and sends the browser to the page that shows it. What is
// wrong with what was entered is shown there; what was entered stays.
func (s *Server) carryOut(w http.ResponseWriter, r *http.Request, change func(*http.Request) (string, error)) {
	if err := r.ParseMultipartForm(mostBody); err != nil && !errors.Is(err, http.ErrNotMultipart) {
		status, why := http.StatusBadRequest, "What was sent cannot be read."
		if large := (*http.MaxBytesError)(nil); errors.As(err, &large) {
			status, why = http.StatusRequestEntityTooLarge, fmt.Sprintf("That is too large: at most %d MB can be sent at once.", mostBody>>20)
		}
		refuse(w, status, why)
		return
	}
	if r.MultipartForm != nil {
		defer r.MultipartForm.RemoveAll() //nolint:errcheck // files in memory
	}
	if !s.ownForm(r) {
		refuse(w, http.StatusForbidden, "This form is of another run of the program. Go back, load the page again, and send it once more.")
		return
	}
	to, err := change(r)
	s.complain(err)
	s.stored()
	http.Redirect(w, r, to, http.StatusSeeOther)
}

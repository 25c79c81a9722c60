package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/ration"
	"rationwright/solver/recheck"
)

// Files in the folder of a user. Nothing else is written, and nothing outside it.
const (
	enteredFile = "entered.json"
	planFile    = "plan.json"
)

// folder is where what is entered is kept; no path leads out of it.
type folder struct{ root *os.Root }

// openFolder opens the folder, which must be there.
func openFolder(dir string) (*folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("--folder %s: cannot be opened: %w; make it first", dir, err)
	}
	return &folder{root}, nil
}

// read returns a file of the folder, nil where there is none.
func (f *folder) read(name string) ([]byte, error) {
	text, err := f.root.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return text, err
}

// write replaces a file of the folder whole.
func (f *folder) write(name string, text []byte) error {
	old, err := f.read(name)
	if err == nil && bytes.Equal(old, text) {
		return nil
	}
	part := "." + name + ".part"
	if err := f.root.WriteFile(part, text, 0o600); err != nil {
		return err
	}
	return f.root.Rename(part, name)
}

// load takes up what an earlier run kept.
func (s *Server) load() error {
	text, err := s.keep.read(enteredFile)
	if err != nil {
		return err
	}
	if text != nil {
		var e entered
		if err := json.Unmarshal(text, &e); err != nil || e.Version != ration.PlanVersion || len(e.Household) == 0 {
			return fmt.Errorf("%s in the folder is not what this program writes; move it away", enteredFile)
		}
		e.Household = fitted(e.Household, personColumns)
		s.entered = e
	}
	if text, err = s.keep.read(planFile); err != nil || text == nil {
		return err
	}
	m, err := s.readPlan(text)
	if err != nil {
		return fmt.Errorf("%s in the folder: %w; move it away", planFile, err)
	}
	s.made = m
	return nil
}

// readPlan reads a plan in its JSON form and holds it against its own request.
func (s *Server) readPlan(text []byte) (*made, error) {
	p, err := ration.ReadPlan(bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	req, err := p.Request.Load()
	if err != nil {
		return nil, err
	}
	if err := recheck.Recheck(req, p); err != nil {
		return nil, err
	}
	return s.show(p, req)
}

// stored keeps what there is; where that fails the next page says so.
func (s *Server) stored() {
	if err := s.store(); err != nil {
		s.locked(func() { s.problems = append(s.problems, "Not kept in the folder: "+err.Error()) })
	}
}

// store keeps what is entered and the plan in the folder.
func (s *Server) store() error {
	if s.keep == nil {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	text, err := json.MarshalIndent(&s.entered, "", "  ")
	if err != nil {
		return err
	}
	if err := s.keep.write(enteredFile, text); err != nil {
		return err
	}
	if s.made == nil || s.made.plan.Totals == nil {
		return nil
	}
	var plan bytes.Buffer
	if err := report.JSON(&plan, s.made.plan); err != nil {
		return err
	}
	return s.keep.write(planFile, plan.Bytes())
}

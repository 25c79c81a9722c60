package batch

import (
	"context"
	"fmt"
	"sync"

	"github.com/hashicorp/golang-lru/v2/simplelru"

	"rationwright/cmd/rationwright/internal/register"
	"rationwright/nutrients"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// Planner plans households, several at a time if need be. Households that are alike
// but for their names are planned once while they are remembered.
type Planner struct {
	asked  ration.Request // all but the people
	plans  bool           // plans are kept beside their lines
	mu     sync.Mutex
	recent *simplelru.LRU[string, *answer] // under mu
}

// PlannerOf returns the planner of what a record asks of every household, whatever
// household stands in it: what workers elsewhere plan with.
func PlannerOf(rec *ration.RequestRecord) (*Planner, error) {
	asked, err := rec.Load()
	if err != nil {
		return nil, err
	}
	return NewPlanner(*asked, false)
}

// RecordOf is what is asked of every household as plain data for [PlannerOf].
func RecordOf(asked ration.Request) *ration.RequestRecord {
	asked.People = []nutrients.Person{{Name: "anyone", Sex: nutrients.Female, AgeMonths: 360, YearsOnly: true, Activity: nutrients.LowActive, Count: 1}}
	return ration.Record(ration.Filled(&asked))
}

// How many answers are remembered: lines take some 5 kB each, plans some 200 kB.
const (
	recentLines = 4096
	recentPlans = 128
)

// answer is what is remembered of an alike.
type answer struct {
	once sync.Once
	line Line
	plan *ration.Plan // where plans are kept and there is one
}

// NewPlanner returns a planner of what is asked of every household. The time asked
// for, or the work, is that of each; no clock is looked at. With plans, [Planner.Plan]
// returns them.
func NewPlanner(asked ration.Request, plans bool) (*Planner, error) {
	size := recentLines
	if plans {
		size = recentPlans
	}
	p := &Planner{asked: asked, plans: plans}
	p.asked.Terse = !plans // lines say no more
	var err error
	p.recent, err = simplelru.NewLRU[string, *answer](size, nil)
	return p, err
}

// Made is what came of one household.
type Made struct {
	Line     []byte // as written, with its end
	Result   Line
	Plan     *ration.Plan    // nil where there is none, or plans are not kept
	Request  *ration.Request // of Plan
	Warnings []string        // of reading the household, located
}

// Plan plans a household. The only error is that of ctx: whatever is wrong with the
// household stands in its line.
func (p *Planner) Plan(ctx context.Context, h *register.Household) (*Made, error) {
	people, warnings, err := h.People(p.asked.Table)
	if err != nil {
		return written(&Made{Result: failed(err), Warnings: warnings}, h.ID, nil)
	}
	a := alikeOf(people)
	found := p.recall(a.key)
	found.once.Do(func() { p.answer(ctx, a, found) })
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	made := &Made{Result: found.line, Warnings: warnings}
	if found.plan != nil {
		if made.Plan, err = a.namedPlan(found.plan); err != nil {
			return nil, err
		}
		made.Request = p.request(a.namedPeople())
	}
	return written(made, h.ID, a)
}

// recall returns the answer of a key, which is yet to be made where nobody has
// asked for it.
func (p *Planner) recall(key string) *answer {
	p.mu.Lock()
	defer p.mu.Unlock()
	found, ok := p.recent.Get(key)
	if !ok {
		found = &answer{}
		p.recent.Add(key, found)
	}
	return found
}

// request is what is asked for people.
func (p *Planner) request(people []nutrients.Person) *ration.Request {
	req := p.asked
	req.People = people
	return ration.Filled(&req)
}

// answer plans an alike. A fault of the program is one of this household alone.
func (p *Planner) answer(ctx context.Context, a *alike, to *answer) {
	defer func() {
		if fault := recover(); fault != nil {
			to.line = failed(fmt.Errorf("%w: %v", ration.ErrNumerical, fault))
		}
	}()
	made, err := plan.Make(ctx, p.request(a.people), nil)
	if err != nil {
		to.line = failed(err)
		return
	}
	to.line = lineOf(made)
	if p.plans {
		to.plan = made
	}
}

// written writes the line of a household, with its own id and names.
func written(m *Made, id string, a *alike) (*Made, error) {
	m.Result.ID = id
	text, err := ration.Marshal(m.Result)
	if err != nil {
		return nil, err
	}
	if a != nil {
		text, err = a.named(text)
	}
	m.Line = text
	return m, err
}

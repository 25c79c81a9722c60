package branch

import (
	"context"
	"fmt"
	"math"

	"rationwright/solver/linear"
)

// AuditReport is what [Audit] could confirm of a result, in plain data.
type AuditReport struct {
	Kept bool // the search kept what an audit needs (Options.Audit)

	ValueOK bool    // X is feasible and has the value stated, recomputed
	Value   float64 // recomputed

	RootBound float64 // bound of the relaxation from RootDual and the original rows
	RootOK    bool    // it confirms Result.RootBound

	Reductions   int // steps of presolve and of root reduced-cost fixing
	ReductionsOK int
	Cuts         int // cuts that some proof uses
	CutsDerived  int // of these, derived again from their stored multipliers
	CutsTrusted  int // of these, not derived: the proof rests on them
	Leaves       int // parts that the tree was split into
	LeavesOK     int // of these, bound confirmed from their stored duals
	Covered      bool
	Bound        float64 // bound on the optimum that the confirmed parts prove
	BoundOK      bool    // Bound confirms Result.Bound
	Unconfirmed  []string
}

// note adds to the list of what was not confirmed.
func (r *AuditReport) note(format string, a ...any) {
	if len(r.Unconfirmed) < maxUnconfirmed {
		r.Unconfirmed = append(r.Unconfirmed, fmt.Sprintf(format, a...))
	}
}

// Audit checks a result of [Solve] on p by other code and with outward
// rounding: the value from the point; the root bound from the original rows
// and the stored duals; each step of presolve; each cut from its stored
// multipliers; each leaf's bound from its stored duals and the rows it had; and
// that the leaves cover the box. What it cannot confirm, for want of time too, it
// counts and names.
func Audit(ctx context.Context, p *linear.Problem, r Result) AuditReport {
	rep := AuditReport{RootBound: math.Inf(-1), Bound: math.Inf(-1)}
	if p.Maximize {
		rep.RootBound, rep.Bound = math.Inf(1), math.Inf(1)
	}
	if r.X != nil {
		rep.Value, rep.ValueOK = Check(p, r.X)
		rep.ValueOK = rep.ValueOK && agree(rep.Value, r.Value)
	}
	auditRoot(p, r, &rep)
	if r.trail == nil {
		return rep
	}
	rep.Kept = true
	a := newAuditor(p, r.trail, &rep)
	a.ctx = ctx
	a.replay()
	a.checkCuts()
	bound := a.checkLeaves()
	if len(r.trail.leaves) == 0 && r.Status == Infeasible && (r.Ray != nil && rep.RootOK || a.contradiction()) {
		bound, rep.Covered = math.Inf(1), true
	}
	if r.trail.root != nil {
		bound = math.Max(bound, a.roundUp(a.certified(r.trail.root, a.wideLower, a.wideUpper).lo))
	}
	bound = math.Min(bound, r.trail.value)
	rep.Bound = a.g.outside(bound)
	stated := a.g.inside(r.Bound)
	rep.BoundOK = rep.Covered && (bound >= stated-auditTol*math.Max(1, math.Abs(stated)) || math.IsInf(stated, -1))
	if r.Status == Infeasible {
		rep.BoundOK = rep.Covered && math.IsInf(bound, 1)
	}
	return rep
}

// agree says whether two numbers are the same to auditTol.
func agree(a, b float64) bool {
	return a == b || math.Abs(a-b) <= auditTol*math.Max(1, math.Max(math.Abs(a), math.Abs(b)))
}

// auditRoot recomputes the bound of the original relaxation from RootDual, or
// the infeasibility from Ray.
func auditRoot(p *linear.Problem, r Result, rep *AuditReport) {
	a := newAuditor(p, &trail{value: math.Inf(1)}, rep)
	g := a.g
	if r.X != nil {
		a.value = g.inside(r.Value)
	}
	a.implied(a.lower, a.upper)
	switch {
	case r.RootDual != nil:
		c := &certificate{}
		for i, y := range r.RootDual {
			if y != 0 {
				c.rows = append(c.rows, int32(i))
				c.duals = append(c.duals, g.sign*y)
			}
		}
		b := a.certified(c, a.lower, a.upper).lo
		rep.RootBound = g.outside(b)
		stated := g.inside(r.RootBound)
		rep.RootOK = b >= stated-auditTol*math.Max(1, math.Abs(stated))
		if !rep.RootOK {
			rep.note("root bound %g, stated %g", rep.RootBound, r.RootBound)
		}
	case r.Ray != nil:
		for _, sign := range []float64{1, -1} {
			c := &certificate{ray: true}
			for i, y := range r.Ray {
				c.rows = append(c.rows, int32(i))
				c.duals = append(c.duals, sign*y)
			}
			if a.certified(c, a.lower, a.upper).lo > 0 {
				rep.RootOK = true
				rep.RootBound = g.outside(math.Inf(1))
			}
		}
	default:
		rep.RootOK = r.Status == Infeasible || r.Status == Unbounded
	}
}

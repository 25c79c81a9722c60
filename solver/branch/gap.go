package branch

import "math"

// gapRule says when a point is good enough.
type gapRule struct {
	relative float64
	denom    float64 // least denominator of the relative gap
}

func newGapRule(o Options) gapRule {
	g := gapRule{relative: math.Max(o.Gap, DefaultGap), denom: o.MinDenom}
	if g.denom <= 0 {
		g.denom = 1e-10
	}
	return g
}

// cutoff returns the bound from which a node cannot hold a point that matters
// when the best known has the value given.
func (g gapRule) cutoff(p *program, value float64) float64 {
	c := value - math.Max(absoluteGap, g.relative*math.Max(math.Abs(p.outside(value)), g.denom))
	if p.step > 0 {
		c = math.Min(c, value-p.step*(1-10*stepTol))
	}
	return c
}

// of returns the gap between a value and a bound, both in the search's sense:
// |value − bound| ÷ max(|value|, denom).
func (g gapRule) of(p *program, value, bound float64) float64 {
	if math.IsInf(bound, -1) || math.IsInf(value, 1) {
		return math.Inf(1)
	}
	if value-bound <= absoluteGap {
		return 0
	}
	return (value - bound) / math.Max(math.Abs(p.outside(value)), g.denom)
}

// exact returns the value that a point must stay below to be better than one
// of the value given at all, whatever gap is asked for. What is ruled out
// against it need not be counted in the bound.
func (g gapRule) exact(p *program, value float64) float64 {
	return gapRule{relative: DefaultGap, denom: g.denom}.cutoff(p, value)
}

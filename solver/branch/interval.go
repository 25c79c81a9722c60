package branch

import "math"

// interval is a range of real numbers that surely holds the exact result of
// a computation: every operation rounds its ends outwards by one step. The
// audit computes with intervals only (R. E. Moore, Interval analysis, 1966).
type interval struct{ lo, hi float64 }

// exactly is the interval of one number.
func exactly(v float64) interval { return interval{v, v} }

func below(v float64) float64 { return math.Nextafter(v, math.Inf(-1)) }
func above(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }

// plus returns a + b.
func (a interval) plus(b interval) interval {
	switch {
	case b.lo == 0 && b.hi == 0:
		return a
	case a.lo == 0 && a.hi == 0:
		return b
	}
	return interval{below(a.lo + b.lo), above(a.hi + b.hi)}
}

// minus returns a − b.
func (a interval) minus(b interval) interval { return a.plus(interval{-b.hi, -b.lo}) }

// times returns a·b. An end that is 0·∞ counts as 0: the infinite ends are
// bounds of columns that take finite values.
func (a interval) times(b interval) interval {
	if a.lo == 0 && a.hi == 0 || b.lo == 0 && b.hi == 0 {
		return interval{}
	}
	if a.lo == 1 && a.hi == 1 {
		return b
	}
	if b.lo == 1 && b.hi == 1 {
		return a
	}
	product := func(x, y float64) float64 {
		if x == 0 || y == 0 {
			return 0
		}
		return x * y
	}
	return hull(product(a.lo, b.lo), product(a.lo, b.hi), product(a.hi, b.lo), product(a.hi, b.hi))
}

// over returns a/b for b without zero.
func (a interval) over(b interval) interval { return hull(a.lo/b.lo, a.lo/b.hi, a.hi/b.lo, a.hi/b.hi) }

// hull is the interval of results that were rounded once.
func hull(a, b, c, d float64) interval {
	return interval{below(min(a, b, c, d)), above(max(a, b, c, d))}
}

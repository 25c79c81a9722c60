package conflict

import (
	"math"

	"rationwright/solver/linear"
	"rationwright/solver/search"
)

// setSides puts the sides of l's row in force as row has them, or frees them.
func setSides(x *search.Relaxation, l conflictLimit, row linear.Row, inForce bool) {
	low, high := x.Solver.RowBounds(x.At[l.row])
	if l.lower {
		if low = math.Inf(-1); inForce {
			low = row.Lower
		}
	}
	if l.upper {
		if high = math.Inf(1); inForce {
			high = row.Upper
		}
	}
	x.Solver.SetRowBounds(x.At[l.row], low, high)
}

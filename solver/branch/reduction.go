package branch

// reductionKind says by what right presolve changed something.
type reductionKind int8

const (
	// roundedBound: an integer column's bound moved to the next integer.
	roundedBound reductionKind = iota
	// rowBound: row and the other columns' bounds imply the new bound.
	rowBound
	// coefficient: row keeps the same integer points with a smaller coefficient.
	coefficient
	// dualFixed: moving the column to this bound can only help cost and rows.
	dualFixed
	// dominated: times packs of column by do all that one of col does, for no
	// higher cost, so col may stay at its lower bound.
	dominated
	// costFixed: with the duals of the root relaxation any other value of the
	// column costs at least the cutoff.
	costFixed
	// droppedSide: the columns' bounds imply this side of the row.
	droppedSide
)

// reduction is one step of presolve, kept so that an audit can repeat it. Only
// the fields that its kind needs are set.
type reduction struct {
	kind         reductionKind
	col, row     int
	lower, upper float64 // new bounds of col
	value        float64 // new coefficient of col in row
	rowLower     float64 // new sides of row
	rowUpper     float64
	by           int
	times        float64
	proof        *certificate // costFixed: root duals and the cutoff they were held against
	cutoff       float64
}

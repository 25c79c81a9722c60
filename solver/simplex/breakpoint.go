package simplex

// breakpoint is a step length at which a variable meets zero or a bound, and
// the size of its entry. In the dual method at is the variable, in the primal
// method its position.
type breakpoint struct {
	theta, size float64
	at          int32
}

// group is a set of variables whose reduced costs reach zero together.
type group struct {
	start int     // where its breakpoints start
	at    int32   // the variable with the largest pivot
	pivot float64 // its size
}

// Package solver builds the ration model from people, foods and limits, solves
// it, checks every answer by arithmetic that never saw the solver, and explains
// it. It touches no file, no terminal and no HTML.
package solver

// Package branch solves mixed-integer programs by branch and cut over the dual
// simplex method. It knows rows and columns, never food.
package branch

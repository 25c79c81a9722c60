// Package menucheck holds a menu against its plan and the rules of days and kitchen,
// by arithmetic of its own: it reads the menu as written (JSON), the food table and
// the dishes, and nothing of the scheduler.
package menucheck

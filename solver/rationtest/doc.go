// Package rationtest makes households, foods and stocks for the tests of the
// packages about rations.
package rationtest

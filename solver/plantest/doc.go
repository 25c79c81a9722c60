// Package plantest makes plans for the tests of other packages.
package plantest

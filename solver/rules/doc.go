// Package rules says who may eat what and how much, how it is cooked and
// kept, and what water and heat it takes: pure functions of a request.
package rules

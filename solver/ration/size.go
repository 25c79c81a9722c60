package ration

import (
	"errors"
	"fmt"
)

// The most that one request may hold, so that its model is built, searched and
// checked within the shortest usual time and a laptop's memory: a household of
// MostPeople rows takes about 0.3 GB. A row that stands for several people alike,
// by its count, is one.
const (
	MostPeople   = 60
	MostFoods    = 1000
	MostPortions = 20000 // people times foods: what the columns of a model grow with
)

// ErrTooLarge is wrapped by the refusal of a request that holds more than that.
var ErrTooLarge = errors.New("more than one plan may hold")

// CheckSize returns an error that wraps [ErrTooLarge] and says the way out.
func CheckSize(req *Request) error {
	people, foods := len(req.People), len(req.Table.Foods)
	const wayOut = "give people who are alike one row with their number under count, or plan the households one at a time"
	switch {
	case people > MostPeople:
		return fmt.Errorf("%w: %d rows of people, at most %d; %s", ErrTooLarge, people, MostPeople, wayOut)
	case foods > MostFoods:
		return fmt.Errorf("%w: %d foods, at most %d with the built-in ones; leave out what is never bought", ErrTooLarge, foods, MostFoods)
	case people*foods > MostPortions:
		return fmt.Errorf("%w: %d rows of people times %d foods, at most %d; leave foods out, or %s", ErrTooLarge, people, foods, MostPortions, wayOut)
	}
	return nil
}

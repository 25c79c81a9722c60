package solver

import (
	"rationwright/solver/ration"
)

type (
	Caution       = ration.Caution
	Closest       = ration.Closest
	ConflictLimit = ration.ConflictLimit
	Cook          = ration.Cook
	Demo          = ration.Demo
	Files         = ration.Files
	FoodTotals    = ration.FoodTotals
	Least         = ration.Least
	Limits        = ration.Limits
	Over          = ration.Over
	PersonFood    = ration.PersonFood
	PersonNeed    = ration.PersonNeed
	Plan          = ration.Plan
	PlanPack      = ration.PlanPack
	PlanPerson    = ration.PlanPerson
	Price         = ration.Price
	Proof         = ration.Proof
	Refused       = ration.Refused
	Request       = ration.Request
	Weights       = ration.Weights
	RequestRecord = ration.RequestRecord
	RuleNote      = ration.RuleNote
	ShelfFit      = ration.ShelfFit
	Shortfall     = ration.Shortfall
	Totals        = ration.Totals
	WayOut        = ration.WayOut
)

const (
	CookBoil         = ration.CookBoil
	CookNone         = ration.CookNone
	CookSimmer       = ration.CookSimmer
	CookWarm         = ration.CookWarm
	LeastCost        = ration.LeastCost
	LeastVolume      = ration.LeastVolume
	LeastWeight      = ration.LeastWeight
	PlanVersion      = ration.PlanVersion
	StatusInfeasible = ration.StatusInfeasible
)

var (
	ErrNoPlan     = ration.ErrNoPlan
	ErrNoRation   = ration.ErrNoRation
	ErrNumerical  = ration.ErrNumerical
	ErrUnverified = ration.ErrUnverified
	ReadPlan      = ration.ReadPlan
	ReadWeights   = ration.ReadWeights
)

package solver

import (
	"rationwright/solver/check"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/recheck"
	"rationwright/solver/stockpile"
	"rationwright/solver/swap"
	"rationwright/solver/why"
)

type (
	Buy              = check.Buy
	Comparison       = plan.Comparison
	EatBy            = check.EatBy
	FollowedPack     = stockpile.FollowedPack
	FoodPrice        = why.FoodPrice
	LimitPrice       = why.LimitPrice
	NeedChange       = swap.NeedChange
	NeverRule        = stockpile.NeverRule
	PackChange       = swap.PackChange
	PackPrice        = why.PackPrice
	Replacing        = swap.Replacing
	Rotation         = stockpile.Rotation
	RotationInput    = stockpile.RotationInput
	SpaceLine        = stockpile.SpaceLine
	StockCheck       = check.StockCheck
	Stockpile        = stockpile.Stockpile
	StockpileOptions = stockpile.StockpileOptions
	StoredWater      = stockpile.StoredWater
	Swap             = swap.Swap
	SwapRequest      = swap.SwapRequest
	Why              = why.Why
	WhyRequest       = why.WhyRequest
)

const (
	DefaultSpread   = swap.DefaultSpread
	HotStoreC       = stockpile.HotStoreC
	SimulatedMonths = stockpile.SimulatedMonths
	UsualStoreC     = stockpile.UsualStoreC
)

var (
	Build         = model.Build
	Check         = check.Check
	Compare       = plan.Compare
	Explain       = why.Explain
	Make          = plan.Make
	MakeSwap      = swap.Make
	NeverRules    = stockpile.NeverRules
	Recheck       = recheck.Recheck
	Replacements  = swap.Replacements
	RotationOf    = stockpile.RotationOf
	SheetVolumesL = stockpile.SheetVolumesL
	StockpileOf   = stockpile.Of
)

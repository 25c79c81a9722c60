package ration

import (
	"rationwright/foods/stores"
)

// ShelfFit is where the food and the water of a plan stand on the shelves that
// were given. Fuel is not among it: it is kept apart from the living space.
type ShelfFit struct {
	Stands bool          `json:"stands"` // every pack and container has its place
	Loads  []stores.Load `json:"loads"`
	stores.Fit
	// Replanned is how often the plan was made anew with less room before
	// everything stood.
	Replanned int `json:"replanned,omitempty"`
}

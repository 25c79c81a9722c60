package solver

// RequestRecord is a [Request] as plain data inside a plan: with the embedded
// tables of the same version it rebuilds the model with no other file. Tables
// hold the rows of the user's files as read, header first.
type RequestRecord struct {
	Version   string             `json:"version"`
	Household [][]string         `json:"household"`        // rows of household.csv
	Foods     [][]string         `json:"foods,omitempty"`  // rows that differ from the embedded ones
	Prices    [][]string         `json:"prices,omitempty"` // rows that differ
	Stock     [][]string         `json:"stock,omitempty"`
	Without   []string           `json:"without,omitempty"`
	Limits    map[string]float64 `json:"limits,omitempty"`
	Start     string             `json:"start,omitempty"`
	Options   map[string]string  `json:"options,omitempty"` // least, days, standard, energy, cook, within, time, …
	Demo      Demo               `json:"demo"`
}

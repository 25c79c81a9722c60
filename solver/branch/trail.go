package branch

// trail is what an audit needs of a search.
type trail struct {
	log    []reduction
	cuts   []*cut
	leaves []leaf
	root   *certificate
	value  float64 // of the best point, in the search's sense; +Inf if none
	step   float64
}

// leaf is a closed part of the search.
type leaf struct {
	box   *boundChange
	proof *certificate // nil: the box is empty by its own changes
	bound float64
}

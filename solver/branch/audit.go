package branch

// trail is what an audit needs of a search.
type trail struct {
	log    []reduction
	cuts   []*cut
	leaves []leaf
}

func (s *search) newTrail() *trail { return &trail{log: s.log, cuts: s.cuts, leaves: s.leaves} }

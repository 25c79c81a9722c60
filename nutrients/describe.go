package nutrients

// describe adds the lines of a person's rule set that are no amounts: what is
// not eaten, and what to watch.
func (b *builder) describe() {}

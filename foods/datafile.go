package foods

// DataFile returns one of the embedded tables as it is written, for a check that
// reads the rows on its own. The error is that of the file system for a name that
// the tables lack.
func DataFile(name string) ([]byte, error) { return data.ReadFile("data/" + name) }

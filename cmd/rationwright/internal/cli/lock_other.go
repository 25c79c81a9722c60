//go:build !unix

package cli

import "os"

// lockFile holds nothing where files have no locks of this kind.
func lockFile(*os.File) (busy bool) { return false }

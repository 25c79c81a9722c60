//go:build unix

package cli

import (
	"errors"
	"os"
	"syscall"
)

// lockFile holds an open file for this process alone until it is closed or the process
// ends, however that comes about; busy where another process holds it. On a file system
// without locks nothing is held.
func lockFile(f *os.File) (busy bool) {
	return errors.Is(syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB), syscall.EWOULDBLOCK)
}

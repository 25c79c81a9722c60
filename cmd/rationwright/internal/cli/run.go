package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"
)

// Run runs the program with args, which exclude its name, and returns the exit
// code of the process. An interrupt cancels the work under way; a second one
// ends the process as usual.
func Run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop)

	out := &sink{to: stdout}
	s := &session{ctx: ctx, began: time.Now(), stdin: stdin, stdout: out, stderr: stderr}
	root := newRoot(s)
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(out)
	root.SetErr(stderr)
	used, err := root.ExecuteContextC(ctx)
	if err != nil && !s.started {
		err = usageError{err}
	}
	if out.err != nil {
		err = badInput(fmt.Errorf("standard output cannot be written to: %w", plainFileError(out.err)))
	}
	s.complain(used, err)
	return exitCode(err)
}

// sink remembers that a write failed, also where whoever wrote does not look.
type sink struct {
	to  io.Writer
	err error
}

func (w *sink) Write(p []byte) (int, error) {
	n, err := w.to.Write(p)
	if err != nil {
		w.err = err
	}
	return n, err
}

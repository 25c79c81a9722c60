package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/facts"
)

// session is one run of the program: its streams and how far it has come.
type session struct {
	ctx            context.Context
	began          time.Time // the command
	stdin          io.Reader
	stdout, stderr io.Writer
	outs           []string // files that the answer goes to
	started        bool     // a command's own work has begun: errors are no longer usage errors
}

// complain prints err, one problem a line; after a usage error also how the
// command is used.
func (s *session) complain(cmd *cobra.Command, err error) {
	var (
		end   outcome
		usage usageError
	)
	if err == nil || errors.As(err, &end) {
		return
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(s.stderr, "rationwright: interrupted before there was an answer")
		return
	}
	for line := range strings.Lines(strings.TrimRight(err.Error(), "\n")) {
		s.note("%s", strings.TrimRight(line, "\n"))
	}
	if errors.As(err, &usage) {
		fmt.Fprintf(s.stderr, "usage: %s\n\"%s --help\" explains every flag.\n", cmd.UseLine(), cmd.CommandPath())
	}
}

// note prints a line that is no result. What it holds of the user's files, their
// names among them, can neither move the cursor nor begin a line.
func (s *session) note(format string, args ...any) {
	fmt.Fprintf(s.stderr, "rationwright: %s\n", facts.Printable(fmt.Sprintf(format, args...)))
}

// within is the one context of a command's work: it ends at the command's deadline,
// counted from its start, or when the user interrupts it.
func (s *session) within(limit time.Duration) (context.Context, context.CancelFunc) {
	return context.WithDeadline(s.ctx, s.began.Add(limit))
}

package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/solver/ration"
)

// exitHelp is the table of exit codes for the help text.
func exitHelp() string {
	var b strings.Builder
	b.WriteString("Exit codes:\n")
	for _, o := range exit.Outcomes() {
		if o.Help != "" {
			fmt.Fprintf(&b, "  %3d  %s\n", o.Code, o.Help)
		}
	}
	return b.String()
}

// usageError is a mistake in how the program was called.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// usagef returns a usage error.
func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// inputError is a mistake in something the program was given to read, or a
// place it was told to write to.
type inputError struct{ error }

func (e inputError) Unwrap() error { return e.error }

// badInput marks err, unless nil, as a mistake in the input.
func badInput(err error) error {
	if err == nil {
		return nil
	}
	return inputError{err}
}

// outcome ends a command whose answer has been written with a code of its own.
// Nothing more is printed.
type outcome int

func (o outcome) Error() string { return fmt.Sprintf("ended with code %d", int(o)) }

// ended ends a command whose answer has been written with a code.
func ended(code int) error {
	if code == exit.Done {
		return nil
	}
	return outcome(code)
}

// exitCode maps what a command returned to the code of the process.
func exitCode(err error) int {
	var (
		end   outcome
		usage usageError
		input inputError
	)
	switch {
	case err == nil:
		return exit.Done
	case errors.As(err, &end):
		return int(end)
	case errors.As(err, &usage):
		return exit.Usage
	case errors.Is(err, context.Canceled):
		return exit.Interrupted
	case errors.As(err, &input):
		return exit.BadInput
	}
	return exit.Fault
}

// planOutcome maps a plan that has been written to the end of the command.
// interrupted says whether the user stopped the search.
func planOutcome(p *ration.Plan, interrupted bool) error {
	code := exit.OfPlan(p).Code
	if code == exit.Limit && interrupted {
		code = exit.Interrupted
	}
	return ended(code)
}

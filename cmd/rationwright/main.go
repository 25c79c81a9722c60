// Rationwright computes, proves and explains the cheapest, lightest or
// smallest balanced ration for real households without shops, refrigeration,
// much water or much fuel.
package main

import (
	"io"
	"os"
	"runtime/debug"

	"rationwright/cmd/rationwright/internal/cli"
)

func main() {
	collectSeldom()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the whole program but for its end: it returns the exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	return cli.Run(args, stdin, stdout, stderr)
}

// How much garbage there may be, in per cent of what is in use, and up to how many bytes
// of memory. 30 plans of one to eight people took 0.95 of the processor time that they
// take with 100 %, the largest 198 MB instead of 91; the largest request allowed (60
// people) is in use with 190 MB, so that it, too, has room below.
const (
	garbage = 400
	memory  = 384 << 20
)

// collectSeldom lets garbage wait, unless the environment says how much.
func collectSeldom() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbage)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memory)
	}
}

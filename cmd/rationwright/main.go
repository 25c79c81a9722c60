// Rationwright computes, proves and explains the cheapest, lightest or
// smallest balanced ration for real households without shops, refrigeration,
// much water or much fuel.
package main

import (
	"io"
	"os"

	"rationwright/cmd/rationwright/internal/cli"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the whole program but for its end: it returns the exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	return cli.Run(args, stdin, stdout, stderr)
}

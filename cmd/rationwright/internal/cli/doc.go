// Package cli is the command line: flags in, exit code out. Every subcommand
// is one file cmd_NAME.go with a function that returns its cobra command; the
// list in root.go names them all.
//
// House rules: results go to standard output or to --out, and everything else
// (warnings, errors, progress, notes) to standard error. Nothing is written
// after an error. A usage error shows the usage line, an error in a file does
// not. Nothing below main ends the process.
package cli

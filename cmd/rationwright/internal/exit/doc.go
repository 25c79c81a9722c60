// Package exit holds the exit codes of the program, which are a contract: scripts
// rely on them, and each line of a batch carries one.
package exit

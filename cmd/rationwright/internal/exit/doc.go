// Package exit holds how a question ends, in one table: its status, its exit code and
// the words for it. Statuses and codes are a contract: scripts rely on them, and each
// line of a batch carries one of each.
package exit

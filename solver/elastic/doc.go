// Package elastic finds the ration that comes closest when not every need can
// be met: shortfalls as columns, made least in the order of the needs.
package elastic

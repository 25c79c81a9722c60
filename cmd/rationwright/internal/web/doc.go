// Package web is the page on this machine: a household in a form, the plan while it
// is searched for, foods struck out with few changes, a stock checked, downloads.
//
// Everything is rendered here; the one small script shows progress live, takes a
// dropped file and prints, and every page works without it. A [Server] belongs to one
// user: it answers only the loopback host it listens on, only to whoever holds the
// token of this run, and changes anything only for a request of its own pages. What
// is entered lies in a folder, if one is named, and else in memory until the run ends.
//
// The arithmetic is that of package solver and the words are those of packages report
// and page; nothing about nutrition is worked out here.
package web

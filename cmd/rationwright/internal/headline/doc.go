// Package headline makes the first lines of every answer: the worst news in it.
// Who is not fed comes first, then that nothing fits, who is short of what, and
// what is above a ceiling. Every form of every answer takes them from here.
package headline

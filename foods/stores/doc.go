// Package stores does the arithmetic of everything in a stockpile besides the
// choice of food: water and its disinfection, fuel, shelf space and weight,
// the kit of supplies, keeping times, rotation, and the cautions that go with
// them. It follows the published planning figures of civil-protection, public
// health and extension services, embedded from data/*.csv with the source of
// every figure and whether an independent copy was seen; where only common
// practice exists the row says "common practice, no source".
//
// Where publications differ the package takes the safer one and says so. It
// gives no dose of any medicine; local authorities, labels and licensed
// clinicians come first.
//
// Every function is arithmetic on plain data: nothing prints, reads a clock or
// opens a file. Days are ISO dates (2026-01-31); lengths are mm, volumes
// litres or mL, masses kg or g, heat MJ, as each name says.
package stores

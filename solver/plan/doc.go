// Package plan makes the plan of a request, on shelves where they are given,
// and sets plans side by side.
//
// A quick answer to a request that is nearly one answered before: [Make] with
// WarmStart in the request, the packs bought by the plan before the change or by that
// of a similar household ([ration.Plan.Bought]), and a small Time. A plan that depends
// on no clock: Work in the request, in simplex iterations, and a context without a
// deadline; everything after the search (tidying, the second aim) takes a fixed share of
// it. [search.Work] says how much work a Time is.
package plan

// Package answer writes a point of the model as a plan: packs, people,
// totals, status and bound, shadow prices, cautions. One function finishes
// every plan and checks it.
package answer

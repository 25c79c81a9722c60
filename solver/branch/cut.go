package branch

// cut is a row Σ terms ≤ upper that holds for every integer point of the
// program, with the derivation that proves it.
type cut struct {
	terms  []term // ascending by column
	upper  float64
	origin derivation
}
type derivation struct{}

// Package conflict explains a request that no ration meets: which limits
// conflict, irreducibly, and which changes were tried that help.
package conflict

package batch

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"strings"

	"rationwright/cmd/rationwright/internal/register"
	"rationwright/nutrients/table"
)

// Scan is what a first reading of a register finds: how many households there are,
// whose id stands in two places, and a digest of the file. It keeps some 40 bytes a
// household.
type Scan struct {
	Households int
	Digest     string // SHA-256 of the bytes, hexadecimal
	Warnings   []string
	again      map[[16]byte]int // first line of ids that come again
}

// ErrEmpty is a register without households.
var ErrEmpty = errors.New("no households in it")

// ScanRegister reads a register, which errors call name, to its end.
func ScanRegister(name string, in io.Reader) (*Scan, error) {
	sum := sha256.New()
	r, err := register.NewReader(name, io.TeeReader(in, sum))
	if err != nil {
		return nil, err
	}
	s := &Scan{again: map[[16]byte]int{}, Warnings: r.Warnings}
	seen := map[[16]byte]int32{}
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		s.Households++
		key := idKey(h.ID)
		if first, ok := seen[key]; ok {
			s.again[key] = int(first)
		} else if h.ID != "" {
			seen[key] = int32(h.Line)
		}
	}
	if s.Households == 0 {
		return nil, table.Join(&table.Error{File: name, Line: 1, Column: 1, Err: ErrEmpty, Fix: "write one household a line"})
	}
	s.Digest = sumText(sum)
	return s, nil
}

func sumText(sum hash.Hash) string { return hex.EncodeToString(sum.Sum(nil)) }

// idKey is 128 bits of the digest of an id, whatever its case: of a million ids two are taken for the same
// once in 10^26 registers.
func idKey(id string) [16]byte {
	sum := sha256.Sum256([]byte(strings.ToLower(id)))
	return [16]byte(sum[:16])
}

// judge refuses a household whose id stands in another place as well: nobody can
// tell whether one household is in two pieces or two have one id.
func (s *Scan) judge(name string, h *register.Household) {
	first, twice := s.again[idKey(h.ID)]
	if !twice {
		return
	}
	where := fmt.Errorf("it begins in line %d already, and others stand between", first)
	if first == h.Line {
		where = errors.New("it comes again further down")
	}
	h.Refuse(&table.Error{File: name, Line: h.Line, Column: 1, Field: register.Column, Value: h.ID, Err: where, Fix: "put all rows of a household together, and give each an id of its own"})
}

package ration

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"
)

// MaxPlanBytes is the largest plan that is read: one of a thousand people takes
// less.
const MaxPlanBytes = 32 << 20

// deepest is how far objects and lists of a plan may stand inside one another; one
// that the program writes goes down eight levels.
const deepest = 32

// MarshalJSON writes the plan with its digests, one for each of its parts: the
// first 128 bits of the SHA-256 of the part's JSON without blanks, keys sorted. They
// show that a part was changed, and where. They are no signature: who changes a
// plan and knows how can make them anew, and what can be recomputed is recomputed
// all the same when a plan is read.
func (p Plan) MarshalJSON() ([]byte, error) {
	type plain Plan
	p.Digest = nil
	text, err := Marshal(plain(p))
	if err != nil {
		return nil, err
	}
	whole, err := readJSON(text)
	if err != nil {
		return nil, err
	}
	if p.Digest, err = Digests(whole.(map[string]any)); err != nil {
		return nil, err
	}
	return Marshal(plain(p))
}

// Digests returns the digest of each part of a plan: of each top key but the
// digests themselves, and of each key of the request.
func Digests(plan map[string]any) (map[string]string, error) {
	parts := maps.Clone(plan)
	delete(parts, "digest")
	if request, ok := parts["request"].(map[string]any); ok {
		delete(parts, "request")
		for key, v := range request {
			parts[RequestPart+key] = v
		}
	}
	sums := map[string]string{}
	for name, v := range parts {
		text, err := Marshal(v)
		if err != nil {
			return nil, err
		}
		sum := sha256.Sum256(text)
		sums[name] = hex.EncodeToString(sum[:16])
	}
	return sums, nil
}

// RequestPart begins the names of the parts of a request.
const RequestPart = "request."

// changedParts names, sorted, the parts of a plan whose digest is another, is
// missing or is of a part that is gone.
func changedParts(plan map[string]any) ([]string, error) {
	now, err := Digests(plan)
	if err != nil {
		return nil, err
	}
	then, _ := plan["digest"].(map[string]any)
	if len(then) == 0 {
		return []string{"digest"}, nil
	}
	var changed []string
	for part, sum := range now {
		if then[part] != any(sum) {
			changed = append(changed, part)
		}
	}
	for part := range then {
		if _, ok := now[part]; !ok {
			changed = append(changed, part)
		}
	}
	slices.Sort(changed)
	return changed, nil
}

// Changed names, sorted, the parts of a plan read back that are not as they were
// written; those of its request begin with [RequestPart].
func (p *Plan) Changed() []string { return p.changed }

// readJSON reads one value and refuses what [json.Unmarshal] lets pass: bytes that
// are no UTF-8, a key that is there twice, and anything behind the value.
func readJSON(text []byte) (any, error) {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")) // as some editors begin a file
	if at := invalidUTF8(text); at >= 0 {
		return nil, fmt.Errorf("byte %d, %#02x, is no UTF-8", at+1, text[at])
	}
	in := json.NewDecoder(bytes.NewReader(text))
	v, err := readValue(in, "", 0)
	if errors.Is(err, io.EOF) && len(bytes.TrimSpace(text)) > 0 {
		err = io.ErrUnexpectedEOF
	}
	if err != nil {
		return nil, err
	}
	if _, err := in.Token(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("something stands behind its end, at byte %d", in.InputOffset())
	}
	return v, nil
}

func invalidUTF8(text []byte) int {
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && size == 1 {
			return at
		}
		at += size
	}
	return -1
}

// readValue reads the value at path.
func readValue(in *json.Decoder, path string, depth int) (any, error) {
	token, err := in.Token()
	if err != nil {
		return nil, err
	}
	if token != json.Delim('{') && token != json.Delim('[') {
		return token, nil
	}
	if depth == deepest {
		return nil, fmt.Errorf("%s goes down further than a plan does", path)
	}
	object, list := map[string]any{}, []any{}
	for in.More() {
		below := fmt.Sprintf("%s[%d]", path, len(list))
		if token == json.Delim('{') {
			key, err := in.Token()
			if err != nil {
				return nil, err
			}
			below = strings.TrimPrefix(path+"."+key.(string), ".")
			if _, twice := object[key.(string)]; twice {
				return nil, fmt.Errorf("%s is there twice", below)
			}
			if object[key.(string)], err = readValue(in, below, depth+1); err != nil {
				return nil, err
			}
			continue
		}
		v, err := readValue(in, below, depth+1)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	if _, err := in.Token(); err != nil { // the closing bracket
		return nil, err
	}
	if token == json.Delim('{') {
		return object, nil
	}
	return list, nil
}

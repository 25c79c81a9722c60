package batch

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"

	"rationwright/solver/ration"
)

// Begun is the note beside the lines of a run: what they are made from. The lines
// themselves say how far the run came.
type Begun struct {
	Version    string                     `json:"version"`  // of a plan
	Register   string                     `json:"register"` // digest of the file
	Households int                        `json:"households"`
	Asked      map[string]json.RawMessage `json:"asked"` // every option that a line depends on
}

// BegunOf is the note of a run over a register.
func BegunOf(s *Scan, asked *ration.Request, reports bool) (*Begun, error) {
	record := ration.Record(ration.Filled(asked))
	text, err := ration.Marshal(record)
	if err != nil {
		return nil, err
	}
	b := &Begun{Version: ration.PlanVersion, Register: s.Digest, Households: s.Households}
	if err := json.Unmarshal(text, &b.Asked); err != nil {
		return nil, err
	}
	b.Asked["reports"] = json.RawMessage(fmt.Sprint(reports))
	for key, value := range b.Asked { // one form, as it is read back
		var compact bytes.Buffer
		if err := json.Compact(&compact, value); err != nil {
			return nil, err
		}
		b.Asked[key] = compact.Bytes()
	}
	return b, nil
}

// Start is the day one of the run.
func (b *Begun) Start() string {
	var start string
	if json.Unmarshal(b.Asked["start"], &start) != nil {
		return ""
	}
	return start
}

// differs names what is not the same in two notes, "" for nothing.
func (b *Begun) differs(from *Begun) string {
	switch {
	case b.Version != from.Version:
		return "the version of the program"
	case b.Register != from.Register:
		return "the register"
	}
	var list []string
	keys := maps.Clone(b.Asked)
	maps.Copy(keys, from.Asked)
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		if !bytes.Equal(b.Asked[key], from.Asked[key]) {
			list = append(list, strings.ReplaceAll(key, "_", " "))
		}
	}
	return strings.Join(list, ", ")
}

// BegunSuffix is added to the name of a file of lines for that of its note.
const BegunSuffix = ".begun"

// ReadBegun reads the note beside a file of lines; it is nil where there is none.
func ReadBegun(out string) (*Begun, error) {
	text, err := os.ReadFile(out + BegunSuffix)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	b := &Begun{}
	if err := json.Unmarshal(text, b); err != nil || b.Households < 1 {
		return nil, fmt.Errorf("%s: not the note of a run", out+BegunSuffix)
	}
	return b, nil
}

// Errors of going on with a run.
var (
	ErrNoRun     = errors.New("no run was begun there")
	ErrOtherRun  = errors.New("the run there was begun with other")
	ErrNoLine    = errors.New("no line of a batch")
	ErrManyLines = errors.New("more lines than the register has households")
)

// Count counts the whole lines of a file, from its beginning.
func Count(out io.ReadSeeker) (int, error) {
	if _, err := out.Seek(0, io.SeekStart); err != nil {
		return 0, err
	}
	lines, part := 0, make([]byte, 1<<16)
	for {
		n, err := out.Read(part)
		lines += bytes.Count(part[:n], []byte{'\n'})
		if errors.Is(err, io.EOF) {
			return lines, nil
		}
		if err != nil {
			return lines, err
		}
	}
}

// Resume adds up the whole lines of out, an open file that is called name, cuts off
// what stands behind the last of them, and leaves the file at its end.
func Resume(name string, out *os.File, now, then *Begun) (*Total, error) {
	if then == nil {
		return nil, fmt.Errorf("%s: %w; leave out --resume", name, ErrNoRun)
	}
	if what := now.differs(then); what != "" {
		return nil, fmt.Errorf("%s: %w: %s; go on with the same, or begin anew without --resume in another file", name, ErrOtherRun, what)
	}
	t := &Total{}
	whole := int64(0)
	for in := bufio.NewReaderSize(out, 1<<16); ; {
		text, err := in.ReadBytes('\n')
		if errors.Is(err, io.EOF) {
			break // what is left was cut
		}
		if err != nil {
			return nil, err
		}
		var l Line
		if err := json.Unmarshal(text, &l); err != nil || l.Status == "" {
			return nil, fmt.Errorf("%s:%d:1: %w; begin anew in another file", name, t.Households+1, ErrNoLine)
		}
		whole += int64(len(text))
		t.add(&l)
		if t.Households > now.Households {
			return nil, fmt.Errorf("%s:%d:1: %w; begin anew in another file", name, t.Households, ErrManyLines)
		}
	}
	if err := out.Truncate(whole); err != nil {
		return nil, err
	}
	_, err := out.Seek(whole, io.SeekStart)
	return t, err
}

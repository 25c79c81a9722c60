package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// format is the value of --format.
type format string

const (
	formatTable format = "table"
	formatCSV   format = "csv"
	formatJSON  format = "json"
)

// output is where a result goes and how it is written.
type output struct {
	format format
	out    string // "" or "-" is standard output
	stdout io.Writer
}

// check finds out before any work whether the place to write to is there.
func (o *output) check() error {
	if o.out == "" || o.out == "-" {
		return nil
	}
	info, err := os.Stat(o.out)
	switch {
	case err == nil && info.IsDir():
		return badInput(fmt.Errorf("%s: is a directory; give --out the name of a file", o.out))
	case err == nil:
		return nil
	case !errors.Is(err, fs.ErrNotExist):
		return badInput(fmt.Errorf("cannot write to --out: %w", err))
	}
	if info, err := os.Stat(filepath.Dir(o.out)); err != nil || !info.IsDir() {
		return badInput(fmt.Errorf("%s: there is no directory %s to write to; make it first", o.out, filepath.Dir(o.out)))
	}
	return nil
}

// write sends a whole result to its place. A file is written beside its target
// and then renamed, so that the target holds the old content or the new, never
// a part.
func (o *output) write(content []byte) error {
	if o.out == "" || o.out == "-" {
		_, err := o.stdout.Write(content)
		return err
	}
	target, mode := o.out, fs.FileMode(0o644)
	if info, err := os.Stat(target); err == nil {
		if !info.Mode().IsRegular() { // a device or a pipe cannot be replaced
			return badInput(writeThrough(target, content))
		}
		mode = info.Mode().Perm()
		if real, err := filepath.EvalSymlinks(target); err == nil {
			target = real
		}
	}
	return badInput(replaceFile(target, mode, content))
}

func writeThrough(target string, content []byte) error {
	f, err := os.OpenFile(target, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	return errors.Join(err, f.Close())
}

// replaceFile puts content in place of target by way of a file beside it.
func replaceFile(target string, mode fs.FileMode, content []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(target), ".rationwright-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(content)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), target)
}

package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
)

// format is the value of --format.
type format string

const (
	formatTable format = "table"
	formatCSV   format = "csv"
	formatJSON  format = "json"
	formatICS   format = "ics" // a calendar (iCalendar, RFC 5545)
)

// output is where a result goes and how it is written.
type output struct {
	format format
	out    string // "" or "-" is standard output
	stdout io.Writer
}

// check finds out before any work whether the place can be written to, and keeps
// it from being read as well.
func (o *output) check(s *session) error {
	if o.out == "" || o.out == "-" {
		return nil
	}
	target, err := o.target()
	if err != nil {
		return badInput(err)
	}
	for _, other := range s.outs {
		if same, err := (&output{out: other}).target(); err == nil && same == target {
			return usagef("%s is to hold two answers; give each a file of its own", o.out)
		}
	}
	s.outs = append(s.outs, o.out)
	info, err := os.Stat(target)
	if err == nil && !info.Mode().IsRegular() {
		return nil // a device or a pipe: opening it may wait
	}
	if err == nil {
		if err := writeThrough(target, nil); err != nil {
			return o.cannot(err)
		}
	}
	return o.cannot(tryDir(filepath.Dir(target)))
}

// tryDir finds out whether files can be made in dir; what a run that was killed left
// there goes.
func tryDir(dir string) error {
	sweep(dir)
	f, err := temporary(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// target is the absolute path of the file itself, behind any links.
func (o *output) target() (string, error) {
	dir, err := filepath.EvalSymlinks(filepath.Dir(o.out))
	if err != nil {
		return "", fmt.Errorf("%s: there is no directory %s to write to; make it first", o.out, filepath.Dir(o.out))
	}
	target := filepath.Join(dir, filepath.Base(o.out))
	if info, err := os.Lstat(target); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		if target, err = filepath.EvalSymlinks(target); err != nil {
			return "", fmt.Errorf("%s: is a link to nothing; give --out the name of a file", o.out)
		}
	}
	if info, err := os.Stat(target); err == nil && info.IsDir() {
		return "", fmt.Errorf("%s: is a directory; give --out the name of a file", o.out)
	}
	return filepath.Abs(target)
}

// cannot words why o cannot be written, by the name that the user gave.
func (o *output) cannot(err error) error {
	if err == nil {
		return nil
	}
	return badInput(fmt.Errorf("%s: cannot be written: %w; give --out another place", o.out, plainFileError(err)))
}

// plainFileError is the reason of a failed operation on a file without the name of
// the file, which may be one that the user never saw.
func plainFileError(err error) error {
	var (
		path *fs.PathError
		link *os.LinkError
	)
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// answer writes an answer in the form that is asked for: v as JSON, the csv table, or
// else the sheet.
func (o *output) answer(v any, csv *facts.Table, laid *sheet.Sheet) error {
	return o.writeOf(func(w io.Writer) error {
		switch o.format {
		case formatJSON:
			return report.JSON(w, v)
		case formatCSV:
			return csv.Write(w)
		}
		return laid.Text(w)
	})
}

// writeOf sends what do writes to its place, whole or not at all.
func (o *output) writeOf(do func(w io.Writer) error) error {
	var text bytes.Buffer
	if err := do(&text); err != nil {
		return err
	}
	return o.write(text.Bytes())
}

// write sends a whole result to its place. A file is written beside its target
// and then renamed, so that the target holds the old content or the new, never
// a part.
func (o *output) write(content []byte) error {
	if o.out == "" || o.out == "-" {
		_, err := o.stdout.Write(content)
		return err
	}
	target, err := o.target()
	if err != nil {
		return badInput(err)
	}
	info, err := os.Stat(target)
	switch {
	case err != nil:
		err = replaceFile(target, nil, content)
	case !info.Mode().IsRegular(): // a device or a pipe cannot be replaced
		err = writeThrough(target, content)
	default:
		mode := info.Mode().Perm()
		err = replaceFile(target, &mode, content)
	}
	return o.cannot(err)
}

func writeThrough(target string, content []byte) error {
	f, err := os.OpenFile(target, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	return errors.Join(err, f.Close())
}

// replaceFile puts content in place of target by way of a file beside it, which has
// the mode given, else that of any new file.
func replaceFile(target string, mode *fs.FileMode, content []byte) (err error) {
	f, err := temporary(filepath.Dir(target))
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(content)
	if err == nil && mode != nil {
		err = f.Chmod(*mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), target)
}

// temporaryPrefix begins the names of files that are being written; the number of
// the process that writes them follows.
const temporaryPrefix = ".rationwright-"

// temporary makes a new file in dir with the mode that the user's mask gives one.
func temporary(dir string) (*os.File, error) {
	for try := 0; ; try++ {
		name := fmt.Sprintf("%s%d-%d", temporaryPrefix, os.Getpid(), try)
		f, err := os.OpenFile(filepath.Join(dir, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) || try > 100 {
			return f, err
		}
	}
}

// sweep removes from dir what processes that are no more have left there. What
// cannot be removed stays.
func sweep(dir string) {
	left, _ := filepath.Glob(filepath.Join(globEscape.Replace(dir), temporaryPrefix+"*-*"))
	for _, name := range left {
		number, _, _ := strings.Cut(strings.TrimPrefix(filepath.Base(name), temporaryPrefix), "-")
		pid, err := strconv.Atoi(number)
		if err != nil || pid <= 0 {
			continue
		}
		if process, err := os.FindProcess(pid); err == nil && errors.Is(process.Signal(syscall.Signal(0)), os.ErrProcessDone) {
			os.Remove(name)
		}
	}
}

var globEscape = strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`)

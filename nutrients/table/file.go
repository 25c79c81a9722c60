package table

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// Open opens the file at path for one of the readers. Its error is an
// [*Errors] that says what to do.
func Open(path string) (*os.File, error) {
	fail := func(what error, fix string) error { return Join(&Error{File: path, Err: what, Fix: fix}) }
	file, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fail(fmt.Errorf("no such file: %w", fs.ErrNotExist), "check the path")
	case errors.Is(err, fs.ErrPermission):
		return nil, fail(fmt.Errorf("cannot be read: %w", fs.ErrPermission), "check who may read it")
	case err != nil:
		return nil, fail(err, "")
	}
	info, err := file.Stat()
	switch {
	case err != nil:
		err = fail(err, "")
	case info.IsDir():
		err = fail(errors.New("a directory"), "give the CSV file inside it")
	case info.Size() > MaxBytes:
		err = tooLarge(path)
	}
	if err != nil {
		file.Close()
		return nil, err
	}
	return file, nil
}

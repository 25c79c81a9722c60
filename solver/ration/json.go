package ration

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
)

// plainJSON says in plain words why a text is no plan in its JSON form.
func plainJSON(err error) string {
	var (
		kind   *json.UnmarshalTypeError
		syntax *json.SyntaxError
	)
	switch {
	case errors.Is(err, io.EOF):
		return "it is empty"
	case errors.Is(err, io.ErrUnexpectedEOF):
		return "it breaks off before its end"
	case errors.As(err, &syntax):
		return fmt.Sprintf("it is no JSON from byte %d on", syntax.Offset)
	case errors.As(err, &kind):
		what, found := kind.Field, plainKind(kind.Value)
		if what == "" {
			what = "the whole"
		}
		return fmt.Sprintf("%s is %s where %s belongs", what, found, plainType(kind.Type))
	}
	if key, is := strings.CutPrefix(err.Error(), "json: unknown field "); is {
		return "it has a key " + key + " that no plan has"
	}
	return err.Error()
}

// plainKind is what JSON holds, in plain words.
func plainKind(value string) string {
	word, rest, _ := strings.Cut(value, " ")
	switch word {
	case "string":
		return "a text"
	case "number":
		if rest == "" {
			return "a number"
		}
		return "the number " + rest
	case "bool":
		return "true or false"
	case "array":
		return "a list"
	case "object":
		return "an object"
	}
	return value
}

// plainType is what was wanted, in plain words.
func plainType(t reflect.Type) string {
	switch t.Kind() {
	case reflect.String:
		return "a text"
	case reflect.Bool:
		return "true or false"
	case reflect.Int, reflect.Int64:
		return "a whole number"
	case reflect.Float64:
		return "a number"
	case reflect.Slice:
		return "a list"
	default:
		return "an object"
	}
}

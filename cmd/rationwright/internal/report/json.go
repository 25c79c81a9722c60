package report

import (
	"encoding/json"
	"io"
)

// JSON writes v indented, with names such as "Åse & Knut" as they are, and a
// line break at the end. The same v gives the same bytes.
func JSON(w io.Writer, v any) error {
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(v)
}

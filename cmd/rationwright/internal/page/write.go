package page

import (
	"embed"
	"html/template"
	"io"
	"strings"
	"sync"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
)

// Only is the part of a report that is written.
type Only string

// The words of --only.
const (
	All      Only = "all"
	Shopping Only = "shopping"
	Menu     Only = "menu"
	Door     Only = "door"
)

//go:embed html style.css
var files embed.FS

// CSS is the style of every page, on a screen and on paper.
func CSS() string {
	text, err := files.ReadFile("style.css")
	if err != nil {
		panic(err) // it is embedded
	}
	return string(text)
}

// words are what the templates call.
var words = template.FuncMap{
	"printable": facts.Printable,
	"capital":   sheet.Capital,
	"sentence":  sheet.Sentence,
	"sourced":   sheet.Sourced,
	"names":     sheet.Names,
	"nutrient":  sheet.Nutrient,
	"money":     sheet.Money,
	"figure":    sheet.Figure,
	"count":     sheet.Count,
	"hung":      func(line string) string { return strings.TrimPrefix(line, "- ") },
	"gather":    gather,
	"wide":      wide,
	"date":      longDate,
	"day":       shortDate,
	"inc":       func(n int) int { return n + 1 },
}

// Parts returns the templates of a report, to add pages to.
func Parts() *template.Template {
	return template.Must(template.New("").Funcs(words).ParseFS(files, "html/*.html"))
}

// own are the templates of the documents, parsed once.
var own = sync.OnceValue(Parts)

// document is a whole file.
type document struct {
	Title string
	CSS   template.CSS
	Class string
	Body  any
	Part  string // the template of Body
}

// write renders one file.
func write(w io.Writer, d document) error {
	d.CSS = template.CSS(CSS())
	var text strings.Builder
	if err := own().ExecuteTemplate(&text, "document", d); err != nil {
		return err
	}
	_, err := io.WriteString(w, Marked(text.String()))
	return err
}

// Marked puts the mark of what is from memory in place of the words in a page, with its
// legend at the end of what the page says.
func Marked(html string) string {
	marked, wanted := sheet.Mark(html)
	if end := strings.LastIndex(marked, "</main>"); wanted && end >= 0 {
		marked = marked[:end] + "<p class=\"fine\">" + sheet.Legend + "</p>\n" + marked[end:]
	}
	return marked
}

// Write writes the sheets of r as one HTML file.
func (r *Report) Write(w io.Writer, only Only) error {
	switch {
	case only == Menu && r.Fits && len(r.Strips) == 0:
		return ErrNoMenu
	case only == Menu && r.Fits:
		return write(w, document{Title: "Menu: " + r.Who, Body: r, Part: "menu-sheet"})
	case only == Shopping && r.Fits:
		return write(w, document{Title: "Shopping list: " + r.Who, Body: r, Part: "shopping-sheet"})
	case only == Door && r.Fits:
		return write(w, document{Title: "Door sheet: " + r.Who, Class: "door" + r.doorSize(), Body: r, Part: "door"})
	}
	return write(w, document{Title: "Ration for " + r.Who, Body: r, Part: "report"})
}

// Lines is prose with its hanging lines gathered in lists.
type Lines struct {
	List bool
	Text []string
}

// gather puts lines that hang into lists.
func gather(lines []string) []Lines {
	var out []Lines
	for _, line := range lines {
		list := strings.HasPrefix(line, "- ")
		if n := len(out); !list || n == 0 || !out[n-1].List {
			out = append(out, Lines{List: list})
		}
		last := &out[len(out)-1]
		last.Text = append(last.Text, strings.TrimPrefix(line, "- "))
	}
	return out
}

// wide reports whether a table has so many columns that it is set smaller.
func wide(g *sheet.Grid) bool { return len(g.Headings) > 6 }

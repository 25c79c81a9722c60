package page

import (
	"fmt"
	"html/template"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// What an SVG of the plotting library repeats.
var (
	svgHead   = regexp.MustCompile(`(?s)^.*?(<svg [^>]*?)\s+xmlns:xlink="[^"]*"`)
	svgStyle  = regexp.MustCompile(`\s*style="([^"]*)"`)
	svgPaths  = regexp.MustCompile(`<path d="([^"]*)" class="([a-z]+)"\s*/>\s*<path d="([^"]*)" class="([a-z]+)"\s*/>`)
	svgNumber = regexp.MustCompile(`-?[0-9]+\.[0-9]+`)
	svgFont   = strings.NewReplacer("font-family:Liberation Sans", "font-family:Arial,Liberation Sans,sans-serif",
		";font-variant:normal;font-weight:normal;font-style:normal", "")
)

// slim says the same picture in a third of the bytes, so that a page with a dozen
// stays small: a style is written once and named, paths of one style that follow one
// another are one path, and no figure has more than a decimal of a point. Letters
// that the reader's machine lacks are not asked for alone.
func slim(svg string) string {
	svg = svgHead.ReplaceAllString(svg, "$1")
	var styles []string
	svg = svgStyle.ReplaceAllStringFunc(svg, func(m string) string {
		style := svgStyle.FindStringSubmatch(m)[1]
		k := slices.Index(styles, style)
		if k < 0 {
			styles, k = append(styles, style), len(styles)
		}
		return ` class="` + string(rune('a'+k)) + `"`
	})
	if len(styles) > 26 {
		panic("page: a picture of more than 26 styles") // of our own drawing
	}
	for { // two neighbours at a time, until there are none alike
		before := svg
		svg = svgPaths.ReplaceAllStringFunc(svg, func(m string) string {
			p := svgPaths.FindStringSubmatch(m)
			if p[2] != p[4] {
				return m
			}
			return fmt.Sprintf(`<path d="%s%s" class="%s"/>`, p[1], p[3], p[2])
		})
		if svg == before {
			break
		}
	}
	svg = svgNumber.ReplaceAllStringFunc(svg, func(m string) string {
		v, err := strconv.ParseFloat(m, 64)
		if err != nil {
			return m
		}
		return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
	})
	var css strings.Builder
	for k, style := range styles {
		fmt.Fprintf(&css, ".%c{%s}", 'a'+k, svgFont.Replace(style))
	}
	head, rest, _ := strings.Cut(svg, ">\n")
	return head + "><style>" + css.String() + "</style>" + strings.ReplaceAll(strings.ReplaceAll(rest, `scale(1, -1)`, `scale(1-1)`), "\n", "")
}

// dataAttr is the attribute src of a picture that is inside the page. The SVG is of
// our own drawing; what could end the attribute or the link is escaped.
func dataAttr(svg string) template.HTMLAttr {
	escape := strings.NewReplacer("%", "%25", "#", "%23", "<", "%3C", ">", "%3E", `"`, "'", "'", "%27", "&", "%26", "\n", " ", "\t", " ")
	return template.HTMLAttr(`src="data:image/svg+xml;charset=utf-8,` + escape.Replace(svg) + `"`)
}

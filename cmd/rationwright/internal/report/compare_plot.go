package report

import (
	"bytes"
	"fmt"
	"image/color"
	"io"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"rationwright/solver"
)

// Size of the drawn frontier: fits a page of either paper size.
const (
	plotWidth  = 16 * vg.Centimeter
	plotHeight = 11 * vg.Centimeter
)

// The two marks differ in shape as well as in grey, so that the drawing reads
// in black and white.
var (
	plotFound = color.Gray{Y: 0}
	plotBound = color.Gray{Y: 130}
)

// FrontierPlot draws a frontier as "png" or "svg": what was found, and below it
// what is proven that no plan can do better than.
func FrontierPlot(w io.Writer, c *solver.Comparison, form string) error {
	f := c.Frontier
	if f == nil {
		return fmt.Errorf("there is no frontier to draw")
	}
	p := plot.New()
	p.Title.Text = fmt.Sprintf("Least %s for each limit on %s", f.Least, f.Within)
	if demo := fromDemo(c.Plans[0]); demo != "" {
		p.Title.Text += "\n" + demo
	}
	p.X.Label.Text = axis(c, f.Within)
	p.Y.Label.Text = axis(c, f.Least)
	var found, proven plotter.XYs
	for _, point := range f.Points {
		found = append(found, plotter.XY{X: point.Of(f.Within), Y: point.Of(f.Least)})
		if point.Bound != nil {
			proven = append(proven, plotter.XY{X: point.Limit, Y: *point.Bound})
		}
	}
	for _, line := range []struct {
		name   string
		points plotter.XYs
		color  color.Color
		shape  draw.GlyphDrawer
		dashes []vg.Length
	}{
		{"found", found, plotFound, draw.CircleGlyph{}, nil},
		{"proven: no plan does better", proven, plotBound, draw.TriangleGlyph{}, []vg.Length{vg.Points(4), vg.Points(3)}},
	} {
		if len(line.points) == 0 {
			continue
		}
		l, s, err := plotter.NewLinePoints(line.points)
		if err != nil {
			return err
		}
		l.Color, l.Dashes = line.color, line.dashes
		s.Color, s.Shape = line.color, line.shape
		p.Add(l, s)
		p.Legend.Add(line.name, l, s)
	}
	p.Add(plotter.NewGrid())
	p.Legend.Top = true
	to, err := p.WriterTo(plotWidth, plotHeight, form)
	if err != nil {
		return err
	}
	var drawn bytes.Buffer
	if _, err := to.WriteTo(&drawn); err != nil {
		return err
	}
	_, err = w.Write(drawn.Bytes())
	return err
}

// axis names a total with its unit.
func axis(c *solver.Comparison, l solver.Least) string {
	return strings.TrimSuffix(fmt.Sprintf("%s, %s", l, leastUnit(c.Plans[0], l)), ", ")
}

// leastUnit is the unit of a total.
func leastUnit(p *solver.Plan, l solver.Least) string {
	switch l {
	case solver.LeastWeight:
		return "kg"
	case solver.LeastVolume:
		return "L"
	default:
		return currency(p)
	}
}

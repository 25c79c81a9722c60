package report

import (
	"bytes"
	"fmt"
	"image/color"
	"io"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	vgfont "gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
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
func FrontierPlot(w io.Writer, c *plan.Comparison, form string) error {
	f := c.Frontier
	if f == nil {
		return fmt.Errorf("there is no frontier to draw")
	}
	p := plot.New()
	p.Title.Text = fmt.Sprintf("Least %s for each limit on %s", f.Least, f.Within)
	p.Title.Text += sheet.Around("\n", demoOf(c.Plans[0]), "")
	p.X.Label.Text, p.Y.Label.Text = axis(c, f.Within), axis(c, f.Least)
	Calm(p)
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
		above  bool // the name stands over the line, at its wide end
	}{
		{"found", found, plotFound, draw.CircleGlyph{}, nil, true},
		{"proven: no plan does better", proven, plotBound, draw.TriangleGlyph{}, []vg.Length{vg.Points(4), vg.Points(3)}, false},
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
		name, err := plotter.NewLabels(plotter.XYLabels{XYs: line.points[:1], Labels: []string{line.name}})
		if err != nil {
			return err
		}
		style := &name.TextStyle[0]
		style.Font.Variant, style.Color, style.XAlign, style.YAlign = "Sans", line.color, draw.XRight, draw.YBottom
		name.Offset.Y = vg.Points(7)
		if !line.above {
			style.YAlign, name.Offset.Y = draw.YTop, vg.Points(-7)
		}
		p.Add(l, s, name)
	}
	spread := (p.Y.Max - p.Y.Min) * nameRoom
	p.Y.Min, p.Y.Max = p.Y.Min-spread, p.Y.Max+spread
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

// nameRoom is the part of the height that is kept free above and below the lines,
// so that their names touch neither frame nor axis.
const nameRoom = 0.12

// Calm sets p in plain type with few ticks on a light grid.
func Calm(p *plot.Plot) {
	for _, font := range []*vgfont.Font{&p.Title.TextStyle.Font, &p.X.Label.TextStyle.Font, &p.Y.Label.TextStyle.Font, &p.X.Tick.Label.Font, &p.Y.Tick.Label.Font} {
		font.Variant = "Sans"
	}
	p.Title.Padding = vg.Points(8)
	grid := plotter.NewGrid()
	grid.Horizontal.Color, grid.Vertical.Color = color.Gray{Y: 225}, color.Gray{Y: 225}
	p.Add(grid)
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Color, axis.Tick.Color = color.Gray{Y: 160}, color.Gray{Y: 160}
		axis.Tick.Marker = plot.TickerFunc(func(low, high float64) []plot.Tick {
			return slices.DeleteFunc(plot.DefaultTicks{}.Ticks(low, high), func(t plot.Tick) bool { return t.Label == "" })
		})
	}
}

// axis names a total with its unit.
func axis(c *plan.Comparison, l ration.Least) string {
	return strings.TrimSuffix(fmt.Sprintf("%s, %s", l, unitOfLeast(l, currency(c.Plans[0]))), ", ")
}

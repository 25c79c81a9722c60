package page

import (
	"bytes"
	"fmt"
	"html/template"
	"image/color"
	"math"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"rationwright/cmd/rationwright/internal/report"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// Picture is an SVG picture and what it shows in words.
type Picture struct {
	Title string
	Alt   string
	Src   template.HTMLAttr // src="data:image/svg+xml;charset=utf-8,…"
}

// Sizes of pictures: two stand side by side on a page.
const (
	needsWidth  = 9 * vg.Centimeter
	needsRow    = 0.36 * vg.Centimeter
	needsMargin = 1.0 * vg.Centimeter
	yearWidth   = 17 * vg.Centimeter
	yearHeight  = 7 * vg.Centimeter
)

// Greys that differ in print: enough, short, the line at 100 %.
var (
	barEnough = color.Gray{Y: 150}
	barShort  = color.Gray{Y: 255}
	ink       = color.Gray{Y: 0}
)

// mostShare is where a bar ends however much more there is; its label says so.
const mostShare = 2.0

// enough is the share from which a need counts as met: the tolerance of the plan's
// own check.
const enough = 1 - 1e-4

// needsPicture draws what a person gets a day as shares of need, a bar each; nil
// where no need has a least amount, as for an infant who is fed by volume.
func needsPicture(name string, needs []ration.PersonNeed) (*Picture, error) {
	var names, said, short []string
	var full, lack plotter.Values
	var ends plotter.XYLabels
	for _, n := range needs {
		if n.Floor == nil || *n.Floor <= 0 { // nothing is enforced
			continue
		}
		share := n.Amount / *n.Floor // as a fraction of the least
		word := sheet.Nutrient(n.Nutrient)
		label := sheet.Percent(share) + " %"
		names = append(names, word)
		said = append(said, word+" "+label)
		at := math.Min(share, mostShare)
		if share >= enough {
			full, lack = append(full, at), append(lack, 0)
		} else {
			full, lack = append(full, 0), append(lack, at)
			short = append(short, word)
		}
		ends.XYs = append(ends.XYs, plotter.XY{X: at, Y: float64(len(names) - 1)})
		ends.Labels = append(ends.Labels, " "+label)
	}
	n := len(names)
	if n == 0 {
		return nil, nil
	}
	p := plot.New()
	report.Calm(p)
	slices.Reverse(names) // the first stands on top
	for i := range ends.XYs {
		ends.XYs[i].Y = float64(n - 1 - i)
	}
	for _, bars := range []struct {
		values plotter.Values
		fill   color.Color
		edge   vg.Length
	}{{full, barEnough, 0}, {lack, barShort, vg.Points(1)}} {
		if !slices.ContainsFunc(bars.values, func(v float64) bool { return v > 0 }) {
			continue // bars of no length are clutter
		}
		slices.Reverse(bars.values)
		b, err := plotter.NewBarChart(bars.values, 0.6*needsRow)
		if err != nil {
			return nil, err
		}
		b.Horizontal, b.Color, b.LineStyle.Color, b.LineStyle.Width = true, bars.fill, ink, bars.edge
		p.Add(b)
	}
	line, err := plotter.NewLine(plotter.XYs{{X: 1, Y: -0.5}, {X: 1, Y: float64(n) - 0.5}})
	if err != nil {
		return nil, err
	}
	line.Color, line.Width = ink, vg.Points(1.25)
	labels, err := plotter.NewLabels(ends)
	if err != nil {
		return nil, err
	}
	for i := range labels.TextStyle {
		labels.TextStyle[i].Font.Variant, labels.TextStyle[i].Font.Size, labels.TextStyle[i].YAlign = "Sans", vg.Points(9), draw.YCenter
	}
	p.Add(line, labels)
	p.NominalY(names...)
	p.Y.Tick.Label.Font.Size, p.X.Tick.Label.Font.Size = vg.Points(9), vg.Points(9)
	p.X.Min, p.X.Max = 0, mostShare*1.25
	p.X.Tick.Marker = plot.ConstantTicks{{Value: 0, Label: "0"}, {Value: 0.5, Label: "50 %"}, {Value: 1, Label: "100 %"}, {Value: 2, Label: "200 %"}}
	alt := fmt.Sprintf("What %s gets a day as a share of need. ", name)
	if len(short) > 0 {
		alt += "Short of " + sheet.Names(short) + ". "
	} else {
		alt += "Nothing is short. "
	}
	alt += sheet.Sentence(strings.Join(said, ", "))
	return drawn(p, name, alt, needsWidth, needsMargin+vg.Length(n)*needsRow)
}

// storePicture draws how much of the bought food is still in date at the end of
// each month if nothing is replaced.
func storePicture(p *ration.Plan, due []stores.Action, start string) (*Picture, error) {
	first, err := time.Parse(time.DateOnly, start)
	if err != nil {
		return nil, nil // a plan without a first day has no dates to show
	}
	each := map[string]float64{}
	for _, k := range p.Packs {
		if k.Count > 0 {
			each[k.Pack] = k.WeightKg / float64(k.Count)
		}
	}
	var line plotter.XYs
	var said []string
	for month := 0; month <= monthsAhead; month++ {
		day := first.AddDate(0, month, 0)
		kg := 0.0
		for _, a := range due {
			if a.By == "" || a.By >= day.Format(time.DateOnly) {
				kg += a.Count * each[a.Pack]
			}
		}
		line = append(line, plotter.XY{X: float64(month), Y: kg})
		said = append(said, fmt.Sprintf("%s %s kg", day.Format("January 2006"), sheet.Decimals(kg, 0)))
	}
	pic := plot.New()
	report.Calm(pic)
	l, err := plotter.NewLine(line)
	if err != nil {
		return nil, err
	}
	l.StepStyle, l.Color, l.Width, l.FillColor = plotter.PreStep, ink, vg.Points(1.5), color.Gray{Y: 225}
	pic.Add(l)
	pic.Y.Label.Text, pic.Y.Min = "food in date, kg", 0
	pic.Y.Max = math.Max(pic.Y.Max*1.05, 1)
	var ticks []plot.Tick
	for month := 0; month <= monthsAhead; month += 2 {
		ticks = append(ticks, plot.Tick{Value: float64(month), Label: first.AddDate(0, month, 0).Format("Jan 2006")})
	}
	pic.X.Tick.Marker, pic.X.Max = plot.ConstantTicks(ticks), monthsAhead+0.5
	title := "The store over a year if nothing is replaced"
	return drawn(pic, title, title+": food still in date at the start of each month. "+sheet.Sentence(strings.Join(said, ", ")), yearWidth, yearHeight)
}

// FrontierOf draws the frontier of a comparison.
func FrontierOf(found *plan.Comparison) (*Picture, error) {
	var svg bytes.Buffer
	if err := report.FrontierPlot(&svg, found, "svg"); err != nil {
		return nil, err
	}
	f := found.Frontier
	figure := func(l ration.Least, v float64) string { return report.Total(&ration.Plan{}, l, v, sheet.Metric) } // of no currency
	var said []string
	for _, point := range f.Points {
		said = append(said, fmt.Sprintf("at most %s: %s", figure(f.Within, point.Limit), figure(f.Least, point.Of(f.Least))))
	}
	title := fmt.Sprintf("Least %s for each limit on %s", f.Least, f.Within)
	return picture(title, title+". "+sheet.Sentence(strings.Join(said, "; ")), svg.Bytes()), nil
}

// drawn renders a plot.
func drawn(p *plot.Plot, title, alt string, width, height vg.Length) (*Picture, error) {
	to, err := p.WriterTo(width, height, "svg")
	if err != nil {
		return nil, err
	}
	var svg bytes.Buffer
	if _, err := to.WriteTo(&svg); err != nil {
		return nil, err
	}
	return picture(title, alt, svg.Bytes()), nil
}

// picture wraps an SVG that this program drew.
func picture(title, alt string, svg []byte) *Picture {
	return &Picture{Title: title, Alt: alt, Src: dataAttr(slim(string(svg)))}
}

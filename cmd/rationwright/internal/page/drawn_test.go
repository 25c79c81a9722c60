package page

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// stroke is a path of a picture with its style.
type stroke struct {
	style  string
	points [][2]float64
}

// strokes are the paths of a picture in the order in which they are drawn, each piece by itself.
func strokes(t *testing.T, svg string) []stroke {
	t.Helper()
	styles := map[string]string{}
	for _, m := range regexp.MustCompile(`\.([a-z])\{([^}]*)\}`).FindAllStringSubmatch(svg, -1) {
		styles[m[1]] = m[2]
	}
	var all []stroke
	for _, m := range regexp.MustCompile(`<path d='([^']*)' class='([a-z])'`).FindAllStringSubmatch(svg, -1) {
		for _, piece := range strings.Split(m[1], "M")[1:] {
			s := stroke{style: styles[m[2]]}
			for _, p := range strings.Split(strings.TrimSuffix(piece, "Z"), "L") {
				x, y, _ := strings.Cut(p, ",")
				at, err := strconv.ParseFloat(x, 64)
				high, err2 := strconv.ParseFloat(y, 64)
				if err != nil || err2 != nil {
					t.Fatalf("%q", p)
				}
				s.points = append(s.points, [2]float64{at, high})
			}
			all = append(all, s)
		}
	}
	return all
}

// of are those of a style.
func of(all []stroke, style string) []stroke {
	return slices.DeleteFunc(slices.Clone(all), func(s stroke) bool { return s.style != style })
}

// Styles of the two pictures: fills in greys of 150/255 and 225/255 and in white, lines in black.
const (
	fillEnough = "fill:#969696"
	fillWhite  = "fill:#FFFFFF"
	fillStore  = "fill:#E1E1E1"
	lineHair   = "fill:none;stroke:#000000"
	lineNeed   = "fill:none;stroke:#000000;stroke-width:1.25"
	lineStore  = "fill:none;stroke:#000000;stroke-width:1.5"
	lineAxis   = "fill:none;stroke:#A0A0A0;stroke-width:0.5"
)

// near holds a place on a picture, whose figures have one decimal of a point.
func near(a, b float64) bool { return math.Abs(a-b) < 0.15 }

// TestNeedsDrawn: a bar is as long as its share, 100 % being where the line stands, and no longer
// than 200 %; what is short is white with an edge; the first stands on top, each beside its name.
// The picture is 9 cm wide, 1 cm and 0.36 cm a bar high, of 28.3465 points a cm.
func TestNeedsDrawn(t *testing.T) {
	p, err := needsPicture("Maja", []ration.PersonNeed{
		{Nutrient: "energy", Amount: 3000, Floor: ptr(2000)}, {Nutrient: "vitamin_d", Amount: 12, Floor: ptr(15)}, {Nutrient: "iron", Amount: 90, Floor: ptr(18)}, {Nutrient: "zinc", Amount: 8, Floor: ptr(8)},
	})
	if err != nil {
		t.Fatal(err)
	}
	if p.Title != "Maja" || p.Alt != "What Maja gets a day as a share of need. Short of vitamin D. Energy 150 %, vitamin D 80 %, iron 500 %, zinc 100 %." {
		t.Errorf("%q: %q", p.Title, p.Alt)
	}
	svg := drawing(t, p)
	if want := fmt.Sprintf("<svg width='255.1pt' height='%.1fpt'", (1+4*0.36)*28.3465); !strings.HasPrefix(svg, want) {
		t.Errorf("%.60s, want %s", svg, want)
	}
	all := strokes(t, svg)
	line := of(all, lineNeed)
	full, edges := of(all, fillEnough), of(all, lineHair)
	white := of(all, fillWhite)[1:] // the first is the paper
	if len(line) != 1 || len(line[0].points) != 2 || line[0].points[0][0] != line[0].points[1][0] || len(full) != 4 || len(white) != 4 || len(edges) != 4 {
		t.Fatalf("%d lines of need, %d full bars, %d short ones, %d edges", len(line), len(full), len(white), len(edges))
	}
	zero, one := full[0].points[0][0], line[0].points[0][0]
	at := func(share float64) float64 { return zero + share*(one-zero) }
	bar := func(what string, s stroke, row, share float64) {
		t.Helper()
		low, high := line[0].points[0][1], line[0].points[1][1] // from half a row under the lowest bar to half a row over the highest
		centre := low + (row+0.5)*(high-low)/4
		q := s.points
		if len(q) < 4 || !near(q[0][0], zero) || !near(q[1][0], zero) || !near(q[2][0], at(share)) || !near(q[3][0], at(share)) || !near((q[0][1]+q[1][1])/2, centre) || !near(q[1][1]-q[0][1], 0.6*0.36*28.3465) {
			t.Errorf("%s is %v, want the row at %.1f, from %.1f to %.1f", what, q, centre, zero, at(share))
		}
	}
	for row, share := range []float64{1, 2, 0, 1.5} { // zinc, iron, vitamin D, energy
		bar("a full bar", full[row], float64(row), share)
	}
	for row, share := range []float64{0, 0, 0.8, 0} {
		bar("a short bar", white[row], float64(row), share)
		bar("its edge", edges[row], float64(row), share)
	}
	var ticks []float64
	var end float64
	for _, s := range of(all, lineAxis) {
		if s.points[0][0] == s.points[1][0] {
			ticks = append(ticks, s.points[0][0])
		} else {
			end = s.points[1][0]
		}
	}
	if len(ticks) != 4 || !near(ticks[0], at(0)) || !near(ticks[1], at(0.5)) || !near(ticks[2], at(1)) || !near(ticks[3], at(2)) || math.Abs(end-at(2.5)) > 0.4 {
		t.Errorf("ticks at %v, the axis ends at %g; 0 is at %g and 100 %% at %g", ticks, end, zero, one)
	}
	for label, share := range map[string]float64{" 150 %": 1.5, " 80 %": 0.8, " 500 %": 2, " 100 %": 1} {
		m := regexp.MustCompile(`<text x='([^']*)' [^>]*>` + label + `</text>`).FindStringSubmatch(svg)
		if m == nil || m[1] != strconv.FormatFloat(math.Round(at(share)*10)/10, 'f', -1, 64) && !strings.HasPrefix(m[1], strconv.Itoa(int(at(share)))) {
			t.Errorf("the label %q stands at %v, want %.1f", label, m, at(share))
		}
	}
	where := heights(t, svg)
	if !(where["energy"] > where["vitamin D"] && where["vitamin D"] > where["iron"] && where["iron"] > where["zinc"]) {
		t.Errorf("names stand at %v", where)
	}
	for name, label := range map[string]string{"energy": "150 %", "vitamin D": "80 %", "iron": "500 %"} {
		if math.Abs(where[name]-where[label]) > 2.5 { // of 9 points of type
			t.Errorf("%s stands at %g and its %s at %g", name, where[name], label, where[label])
		}
	}
	if strings.Count(svg, "font-size") != 1 || !strings.Contains(svg, "font-family:Arial,Liberation Sans,sans-serif;font-size:9px") {
		t.Error("not all is written in one type of 9 points without serifs")
	}
	// Bars of no length are not drawn.
	for short, share := range map[bool]float64{false: 1.2, true: 0.6} {
		p, err := needsPicture("Maja", []ration.PersonNeed{{Nutrient: "iron", Amount: 18 * share, Floor: ptr(18)}})
		if err != nil {
			t.Fatal(err)
		}
		all := strokes(t, drawing(t, p))
		if full, white, edges := len(of(all, fillEnough)), len(of(all, fillWhite))-1, len(of(all, lineHair)); short && (full != 0 || white != 1 || edges != 1) || !short && (full != 1 || white != 0 || edges != 0) {
			t.Errorf("%g of a need: %d full bars, %d short ones, %d edges", share, full, white, edges)
		}
	}
}

// TestStoreDrawn: the line falls to what is in date at the start of the next month, and what is
// under it is grey down to nothing. 10 kg of which 6 are good to the end of March are 4 kg from
// March on; the picture is 17 cm by 7, its axis goes to a twentieth over the most, a kilogram
// at least, and half a month over the year.
func TestStoreDrawn(t *testing.T) {
	due := []stores.Action{{Pack: "rice", Count: 2, By: "2026-03-05"}, {Pack: "rice", Count: 1, By: "2026-04-04"}, {Pack: "oil", Count: 1}, {Pack: "none", By: "2026-03-05"}}
	p := &ration.Plan{Packs: []ration.PlanPack{{Pack: "rice", Count: 3, WeightKg: 6}, {Pack: "oil", Count: 1, WeightKg: 4}, {Pack: "none"}}}
	pic, err := storePicture(p, due, "2026-01-05")
	if err != nil {
		t.Fatal(err)
	}
	svg := drawing(t, pic)
	if want := "<svg width='481.9pt' height='198.4pt'"; !strings.HasPrefix(svg, want) || pic.Title != "The store over a year if nothing is replaced" {
		t.Errorf("%.60s, want %s; %q", svg, want, pic.Title)
	}
	all := strokes(t, svg)
	area, line := of(all, fillStore), of(all, lineStore)
	if len(area) != 1 || len(line) != 1 {
		t.Fatalf("%d areas, %d lines", len(area), len(line))
	}
	highest := func(all []stroke) (top float64) { // of the axis
		for _, s := range of(all, lineAxis) {
			top = max(top, s.points[1][1])
		}
		return top
	}
	top := highest(all)
	base, left := area[0].points[0][1], area[0].points[0][0]
	perKg := (top - base) / (1.05 * 10)
	month := (line[0].points[len(line[0].points)-1][0] - left) / 12
	kg := func(x float64) (high float64) { // how high the line stands in the middle of a month
		for i := 1; i < len(line[0].points); i++ {
			a, b := line[0].points[i-1], line[0].points[i]
			if a[0] <= x && x <= b[0] {
				high = (b[1] - base) / perKg
			}
		}
		return high
	}
	for m := range 12 {
		want := 4.0
		if m < 2 { // until the fifth of March
			want = 10
		}
		if got := kg(left + (float64(m)+0.5)*month); math.Abs(got-want) > 0.03 {
			t.Errorf("in month %d the line stands at %.2f kg, want %g", m, got, want)
		}
	}
	for _, q := range area[0].points {
		if q[1] < base-0.05 {
			t.Errorf("the area goes under nothing: %v", q)
		}
	}
	if last := area[0].points[len(area[0].points)-1]; !near(last[1], base) {
		t.Errorf("the area ends at %v, not down at %g", last, base)
	}
	var end float64
	for _, s := range of(all, lineAxis) {
		if s.points[0][1] == s.points[1][1] {
			end = max(end, s.points[1][0])
		}
	}
	if math.Abs((end-left)/month-12.5) > 0.02 {
		t.Errorf("the axis goes to month %.2f, want 12.5", (end-left)/month)
	}
	light, err := storePicture(&ration.Plan{Packs: []ration.PlanPack{{Pack: "salt", Count: 1, WeightKg: 0.5}}}, []stores.Action{{Pack: "salt", Count: 1}}, "2026-01-05")
	if err != nil {
		t.Fatal(err)
	}
	all = strokes(t, drawing(t, light))
	base = of(all, fillStore)[0].points[0][1]
	if got := (of(all, lineStore)[0].points[0][1] - base) / (highest(all) - base); math.Abs(got-0.5) > 0.01 {
		t.Errorf("half a kilogram stands at %.2f of the height, want a half", got)
	}
}

// TestSlimByHand: a small picture as the library writes it and as it is kept: each style once,
// under a letter of its own, neighbours of one style as one path, figures to a tenth.
func TestSlimByHand(t *testing.T) {
	const whole = `<?xml version="1.0"?>
<!-- drawn -->
<svg width="10.04pt" height="5pt"
	xmlns="http://www.w3.org/2000/svg"
	xmlns:xlink="http://www.w3.org/1999/xlink">
<g transform="scale(1, -1) translate(0, -5)">
<path d="M0,0L1.25,2.34" style="fill:none;stroke:#000000" />
<path d="M2,2L3,3.96" style="fill:none;stroke:#000000" />
<path d="M4,4L5,-5.55" style="fill:#FFFFFF" />
<text x="1.5" y="2" style="font-family:Liberation Sans;font-variant:normal;font-weight:normal;font-style:normal;font-size:9px">a</text>
<path d="M6,6L7,7" style="fill:none;stroke:#000000" />
<path d="M8,8L9,9" style="fill:none;stroke:#000000" />
<path d="M10,10L11,11" style="fill:none;stroke:#000000" />
</g>
</svg>
`
	const want = `<svg width="10pt" height="5pt"
	xmlns="http://www.w3.org/2000/svg"><style>.a{fill:none;stroke:#000000}.b{fill:#FFFFFF}.c{font-family:Arial,Liberation Sans,sans-serif;font-size:9px}</style>` +
		`<g transform="scale(1-1) translate(0, -5)"><path d="M0,0L1.3,2.3M2,2L3,4" class="a"/><path d="M4,4L5,-5.6" class="b" />` +
		`<text x="1.5" y="2" class="c">a</text><path d="M6,6L7,7M8,8L9,9M10,10L11,11" class="a"/></g></svg>`
	if got := slim(whole); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	many := func(n int) (svg string) {
		svg = "<svg width=\"1pt\" xmlns:xlink=\"x\">\n"
		for k := range n {
			svg += fmt.Sprintf(`<path d="M0,0" style="stroke-width:%d" />`, k)
		}
		return svg + "</svg>\n"
	}
	if got := slim(many(26)); !strings.Contains(got, ".z{stroke-width:25}") || !strings.HasSuffix(got, `class="z" /></svg>`) {
		t.Errorf("26 styles: %s", got)
	}
	defer func() {
		if recover() == nil {
			t.Error("27 styles have no 27 letters, and it is not said")
		}
	}()
	slim(many(27))
}

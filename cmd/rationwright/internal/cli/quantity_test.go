package cli

import (
	"math"
	"slices"
	"testing"
	"time"
)

// TestQuantity: 1 lb is 0.45359237 kg, 1 US gallon 3.785411784 L, 1 cubic foot
// 28.316846592 L, 1 kWh 3.6 MJ, all exact by definition (international yard
// and pound agreement, 1959).
func TestQuantity(t *testing.T) {
	for _, c := range []struct {
		kind *quantityKind
		text string
		want float64
	}{
		{kindWeight, "120", 120},
		{kindWeight, "120kg", 120},
		{kindWeight, " 500 g ", 0.5},
		{kindWeight, "100lb", 45.359237},
		{kindWeight, "16 OZ", 0.45359237},
		{kindVolume, "40gal", 151.41647136},
		{kindVolume, "2cuft", 56.633693184},
		{kindVolume, ".5L", 0.5},
		{kindHeat, "2.5kWh", 9},
		{kindHeat, "0", 0},
		{kindMoney, "+12.50", 12.5},
	} {
		var v *float64
		if err := (quantity{c.kind, &v}).Set(c.text); err != nil {
			t.Errorf("%q: %v", c.text, err)
		} else if math.Abs(*v-c.want) > 1e-12*math.Max(1, c.want) {
			t.Errorf("%q = %v %s, want %v", c.text, *v, c.kind.word, c.want)
		}
	}
	for _, text := range []string{"", "kg", "1e3", "0x10", "1_000", "NaN", "inf", "-1", "1,5", "12 stone", "5L", "1.2.3", "--1", "1kgkg"} {
		var v *float64
		if err := (quantity{kindWeight, &v}).Set(text); err == nil {
			t.Errorf("%q was taken as %v kg", text, *v)
		} else if v != nil {
			t.Errorf("%q was refused but left %v", text, *v)
		}
	}
}

func TestFraction(t *testing.T) {
	for text, want := range map[string]float64{"1%": 0.01, "0.01": 0.01, " 0.5 % ": 0.005, "0": 0, "100%": 1, ".05": 0.05} {
		var f fraction
		if err := f.Set(text); err != nil || math.Abs(float64(f)-want) > 1e-15 {
			t.Errorf("%q = %v, %v, want %v", text, float64(f), err, want)
		}
	}
	for _, text := range []string{"1", "5", "101%", "-1%", "%", "", "1e-3", "NaN", "inf%", "1,5%"} {
		f := fraction(0.25)
		if err := f.Set(text); err == nil || f != 0.25 {
			t.Errorf("%q: %v, value %v", text, err, float64(f))
		}
	}
}

func TestSeconds(t *testing.T) {
	for text, want := range map[string]time.Duration{"10s": 10 * time.Second, "2m": 2 * time.Minute, "1.5": 1500 * time.Millisecond, "30": 30 * time.Second} {
		var s seconds
		if err := s.Set(text); err != nil || time.Duration(s) != want {
			t.Errorf("%q = %v, %v, want %v", text, time.Duration(s), err, want)
		}
	}
	for _, text := range []string{"", "0", "0s", "-1s", "25h", "1e99", "99999999999999999999", "soon", "NaN", "inf"} {
		s := seconds(time.Second)
		if err := s.Set(text); err == nil || s != seconds(time.Second) {
			t.Errorf("%q: %v, value %v", text, err, time.Duration(s))
		}
	}
}

func FuzzQuantity(f *testing.F) {
	f.Add("12 kg")
	f.Add("1.5e3")
	f.Fuzz(func(t *testing.T, text string) {
		var v *float64
		q := quantity{kindVolume, &v}
		if err := q.Set(text); err == nil && (v == nil || *v < 0 || math.IsNaN(*v) || math.IsInf(*v, 0)) {
			t.Errorf("%q was taken as %v", text, q)
		}
	})
}

// TestFractionAsText: a share is shown in per cent, as the help of a flag does.
func TestFractionAsText(t *testing.T) {
	for v, want := range map[fraction]string{0: "0%", 0.01: "1%", 0.03: "3%", 0.125: "12.5%", 1: "100%"} {
		if got := v.String(); got != want {
			t.Errorf("%g is shown as %q, want %q", float64(v), got, want)
		}
	}
	if got := (*fraction)(nil).String(); got != "" {
		t.Errorf("no share is shown as %q", got)
	}
}

// TestAltitude: a foot is 0.3048 m exactly (international yard and pound agreement, 1959);
// a place is neither deeper nor higher than people live.
func TestAltitude(t *testing.T) {
	for text, want := range map[string]float64{"300": 300, "300m": 300, "1000ft": 304.8, "6562 ft": 2000.0976, "9000": 9000} {
		var a *float64
		q := quantity{kindAltitude, &a}
		if err := q.Set(text); err != nil || math.Abs(*a-want) > 1e-9 {
			t.Errorf("%q = %v m, %v, want %v", text, q, err, want)
		}
	}
	for _, text := range []string{"9001", "30000ft", "300km", ""} {
		var a *float64
		if err := (quantity{kindAltitude, &a}).Set(text); err == nil {
			t.Errorf("%q was taken as %v m", text, *a)
		}
	}
}

// TestQuantitiesAtTheirEdges: each unit of a kind, and what no such quantity can be. A store
// is no colder than -40 and a place no lower than -500 m (own planning rules); 0 °C is 32 °F,
// 100 °C 212 °F.
func TestQuantitiesAtTheirEdges(t *testing.T) {
	for _, c := range []struct {
		kind *quantityKind
		text string
		want float64
	}{
		{kindWeight, "250g", 0.25}, {kindVolume, "750 mL", 0.75}, {kindHeat, "5MJ", 5}, {kindHeat, "1500kJ", 1.5}, {kindAltitude, "12m", 12}, {kindAltitude, "-500", -500}, {kindMoney, "0", 0},
		{kindTemp, "4", 4}, {kindTemp, "4C", 4}, {kindTemp, "4 °C", 4}, {kindTemp, "32F", 0}, {kindTemp, "-40", -40}, {kindTemp, "-40 °F", -40}, {kindTemp, "14°f", -10},
	} {
		var v *float64
		q := quantity{c.kind, &v}
		if err := q.Set(c.text); err != nil || math.Abs(*v-c.want) > 1e-9 {
			t.Errorf("%q = %v %s, %v, want %v", c.text, q, c.kind.word, err, c.want)
		}
	}
	for text, kind := range map[string]*quantityKind{"-500.1": kindAltitude, "-1641ft": kindAltitude, "-40.1": kindTemp, "-41F": kindTemp, "5K": kindTemp, "3MWh": kindHeat, "5 TSD": kindMoney, "-0.01": kindMoney} {
		var v *float64
		if err := (quantity{kind, &v}).Set(text); err == nil || v != nil {
			t.Errorf("%q was taken as %v %s", text, *v, kind.word)
		}
	}
	v := 12.5
	at := &v
	if got := (quantity{kindWeight, &at}).String(); got != "12.5" {
		t.Errorf("12.5 is shown as %q", got)
	}
	at = nil
	if got := (quantity{kindWeight, &at}).String() + (quantity{}).String(); got != "" {
		t.Errorf("nothing is shown as %q", got)
	}
}

// TestShareThatMayBeEither: a plain number from 1 on is no fraction; what it would mean is told.
func TestShareThatMayBeEither(t *testing.T) {
	for text, want := range map[string]string{"5": "5 means 500 %; write 5% or a fraction such as 0.01", "1.5": "1.5 means 150 %; write 1.5% or a fraction such as 0.01"} {
		if err := new(fraction).Set(text); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// TestTimesAtTheirEdges: a day is the longest, however it is written.
func TestTimesAtTheirEdges(t *testing.T) {
	for text, good := range map[string]bool{"24h": true, "86400": true, "24h1s": false, "86401": false, "1ms": true, "0.001": true, "-5": false} {
		var s seconds
		if err := s.Set(text); (err == nil) != good {
			t.Errorf("%q: %v", text, err)
		}
	}
	s := seconds(90 * time.Second)
	if none := new(seconds); s.String() != "1m30s" || none.String() != "" {
		t.Errorf("%q, %q", s.String(), none.String())
	}
}

// TestWholeNumbers: from the least to the most, both taken, and nothing that is no whole
// number in digits.
func TestWholeNumbers(t *testing.T) {
	n := 7
	w := whole{&n, 1, 365}
	for text, want := range map[string]int{"1": 1, "365": 365, "14": 14} {
		if err := w.Set(text); err != nil || n != want || w.String() != text {
			t.Errorf("%q = %d, %v", text, n, err)
		}
	}
	n = 7
	for _, text := range []string{"0", "366", "-1", "1.5", "", "x", "0x10"} {
		if err := w.Set(text); err == nil || n != 7 {
			t.Errorf("%q was taken as %d", text, n)
		}
	}
	if err := w.Set("0"); err == nil || err.Error() != "must be 1 to 365" {
		t.Error(err)
	}
	if got := (whole{}).String(); got != "" {
		t.Errorf("nothing is shown as %q", got)
	}
}

// TestDaysOfAFlag: days between the first and the last, each once, in the order in which they
// are said.
func TestDaysOfAFlag(t *testing.T) {
	for text, want := range map[string][]int{"": nil, "3": {3}, "14, 3,,14 ,5,": {14, 3, 5}} {
		if got, err := readDays(text, 3, 14); err != nil || !slices.Equal(got, want) {
			t.Errorf("%q = %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"2", "15", "3,x", "3 4", "-3", "3.5"} {
		if got, err := readDays(text, 3, 14); err == nil || exitCode(err) != 2 {
			t.Errorf("%q was taken as %v, %v", text, got, err)
		}
	}
}

package stores

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// Every factor equals its row of exchange.csv to the last printed digit, and
// the definitions hold among themselves: yard and pound of 1959, a US gallon
// of 231 cubic inches, an imperial gallon of 4.54609 L.
func TestFactorsEqualTheirRows(t *testing.T) {
	factors := map[string]struct {
		value, tolerance float64
	}{
		"oz (avoirdupois)|g": {GPerOz, 0}, "lb|g": {GPerLb, 0}, "lb|kg": {KgPerLb, 0}, "kg|lb": {1 / KgPerLb, 5e-7},
		"fl oz (US)|mL": {MLPerFlOz, 0}, "fl oz (imperial)|mL": {MLPerImpFlOz, 0}, "cup (US customary)|mL": {MLPerCup, 0},
		"tablespoon (US)|mL": {MLPerTbsp, 5e-9}, "teaspoon (US)|mL": {MLPerTsp, 5e-10}, "pint (US)|mL": {MLPerPint, 0},
		"quart (US)|L": {LPerQuart, 0}, "gallon (US)|L": {LPerGallon, 0}, "gallon (imperial)|L": {LPerImpGallon, 0},
		"L|gallon (US)": {1 / LPerGallon, 5e-7}, "cubic inch|mL": {MLPerCubicInch, 0}, "cubic foot|L": {LPerCubicFoot, 0},
		"inch|mm": {MMPerInch, 0}, "foot|m": {MPerFoot, 0}, "1/16 inch|mm": {MMPerSixteenth, 0}, "kcal|kJ": {KJPerKcal, 0},
		"kJ|kcal": {1 / KJPerKcal, 5e-7}, "Btu (IT)|kJ": {KJPerBtu, 0}, "kWh|MJ": {MJPerKWh, 0}, "MJ|kWh": {1 / MJPerKWh, 5e-8},
		"drop (medicine dropper)|mL": {MLPerDrop, 0}, "month|day": {DaysPerMonth, 0},
		"degree F difference|degree C difference": {Celsius(1) - Celsius(0), 5e-8},
	}
	seen := 0
	file, err := os.Open("../../testdata/stores/exchange.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range rows[1:] { // from, to, factor, exactness, note, source
		f, ok := factors[x[0]+"|"+x[1]]
		if !ok {
			continue
		}
		seen++
		if want, err := strconv.ParseFloat(x[2], 64); err != nil || math.Abs(f.value-want) > f.tolerance+1e-15*want {
			t.Errorf("1 %s = %v %s, want %s (%s)", x[0], f.value, x[1], x[2], x[5])
		}
	}
	if seen != len(factors) {
		t.Errorf("%d of %d factors have a row", seen, len(factors))
	}
	for _, d := range []struct {
		what      string
		got, want float64
	}{
		{"gallon in cubic inches", LPerGallon * 1000 / MLPerCubicInch, 231}, {"pound in ounces", GPerLb / GPerOz, 16},
		{"foot in inches", MPerFoot * 1000 / MMPerInch, 12}, {"cubic foot in cubic inches", LPerCubicFoot * 1000 / MLPerCubicInch, 1728},
		{"gallon in quarts", LPerGallon / LPerQuart, 4}, {"tablespoon in teaspoons", MLPerTbsp / MLPerTsp, 3}, {"cup in fl oz", MLPerCup / MLPerFlOz, 8},
		{"cubic inch", MMPerInch * MMPerInch * MMPerInch / 1000, MLPerCubicInch}, {"year in months", DaysPerMonth * 12, 365.25},
	} {
		if math.Abs(d.got-d.want) > 1e-12*d.want {
			t.Errorf("%s = %v, want %v", d.what, d.got, d.want)
		}
	}
}

func TestTemperatures(t *testing.T) {
	// Fixed points of the scales: ice 32 °F, boiling 212 °F, and where they meet.
	for _, tt := range []struct{ c, f float64 }{{0, 32}, {100, 212}, {-40, -40}, {35, 95}} {
		if math.Abs(Fahrenheit(tt.c)-tt.f) > 1e-12 || math.Abs(Celsius(tt.f)-tt.c) > 1e-12 {
			t.Errorf("%g °C = %g °F and %g °F = %g °C", tt.c, Fahrenheit(tt.c), tt.f, Celsius(tt.f))
		}
	}
}

func TestUnits(t *testing.T) {
	tests := []struct {
		what   string
		of     func(Units, float64) (float64, string)
		metric float64
		us     float64
		unit   [2]string
	}{
		{"length", Units.Length, 2.54, 1, [2]string{"cm", "in"}},
		{"height", Units.Height, 0.3048, 1, [2]string{"m", "ft"}},
		{"temperature", Units.Temperature, 100, 212, [2]string{"°C", "°F"}},
	}
	for _, tt := range tests {
		if v, unit := tt.of(Metric, tt.metric); v != tt.metric || unit != tt.unit[0] {
			t.Errorf("metric %s: %v %s", tt.what, v, unit)
		}
		if v, unit := tt.of(US, tt.metric); math.Abs(v-tt.us) > 1e-12*tt.us || unit != tt.unit[1] {
			t.Errorf("us %s of %v: %v %s, want %v %s", tt.what, tt.metric, v, unit, tt.us, tt.unit[1])
		}
	}
}

package stores

// Unit factors of the whole program, exact by definition: the international
// yard and pound (1959) and the US gallon of 231 cubic inches. Source:
// testdata/stores/exchange.csv; a test holds each constant against its row.
const (
	GPerLb         = 453.59237
	GPerOz         = GPerLb / 16 // avoirdupois ounce of weight
	KgPerLb        = GPerLb / 1000
	MMPerInch      = 25.4
	MPerFoot       = 0.3048
	MLPerCubicInch = 16.387064
	LPerCubicFoot  = 28.316846592
	LPerGallon     = 3.785411784    // US
	LPerQuart      = LPerGallon / 4 // US
	MLPerPint      = LPerGallon * 1000 / 8
	MLPerCup       = LPerGallon * 1000 / 16  // US customary
	MLPerFlOz      = LPerGallon * 1000 / 128 // US, a volume
	MLPerTbsp      = LPerGallon * 1000 / 256 // US
	MLPerTsp       = LPerGallon * 1000 / 768 // US
	LPerImpGallon  = 4.54609
	MLPerImpFlOz   = LPerImpGallon * 1000 / 160

	MMPerSixteenth = MMPerInch / 16 // step of the can size codes
	KJPerKcal      = 4.184          // thermochemical calorie of food tables
	KJPerBtu       = 1.05505585262
	MJPerKWh       = 3.6
)

// Conventions, not definitions. Source: testdata/stores/exchange.csv.
const (
	MLPerDrop      = 0.05    // medicine dropper, 20 drops a mL; from memory
	DaysPerMonth   = 30.4375 // 365.25/12: the month of keeping times
	MLPerLabelTsp  = 5       // teaspoon of US labels and of the bleach tables
	fahrenheitZero = 32.0
	fahrenheitStep = 9.0 / 5
)

// Fahrenheit converts a temperature from °C to °F.
func Fahrenheit(c float64) float64 { return c*fahrenheitStep + fahrenheitZero }

// Celsius converts a temperature from °F to °C.
func Celsius(f float64) float64 { return (f - fahrenheitZero) / fahrenheitStep }

// Units is the word of --units.
type Units string

// The words of --units.
const (
	Metric Units = "metric"
	US     Units = "us"
)

// Length returns cm as cm or inches.
func (u Units) Length(cm float64) (value float64, unit string) {
	if u == US {
		return cm * 10 / MMPerInch, "in"
	}
	return cm, "cm"
}

// Height returns metres above the sea as m or feet.
func (u Units) Height(m float64) (value float64, unit string) {
	if u == US {
		return m / MPerFoot, "ft"
	}
	return m, "m"
}

// Temperature returns °C as °C or °F.
func (u Units) Temperature(c float64) (value float64, unit string) {
	if u == US {
		return Fahrenheit(c), "°F"
	}
	return c, "°C"
}

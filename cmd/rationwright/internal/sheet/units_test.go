package sheet

import "testing"

// TestUnitsByHand: 453.59237 g to the pound, 16 ounces to it, 3.785411784 L to the US gallon,
// 128 fluid ounces to that, 28.316846592 L to the cubic foot, 2.54 cm to the inch and 30.48
// to the foot (exact: yard and pound of 1959, US gallon of 231 cubic inches).
func TestUnitsByHand(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Metric.Net(999), "999 g"}, {Metric.Net(1000), "1.00 kg"}, {Metric.Net(2268), "2.27 kg"}, {US.Net(907), "32.0 oz"}, {US.Net(907.2), "2.00 lb"}, {US.Net(283.5), "10.0 oz"},
		{Metric.Portion(12.34), "12.3"}, {US.Portion(100), "3.53"},
		{Metric.Weight(12.34), "12.3 kg"}, {US.Weight(10), "22.0 lb"}, {Metric.Water(53), "53.0 L"}, {US.Water(53), "14.0 gal"},
		{Metric.Drink(1.234), "1.23 L"}, {US.Drink(1), "34 fl oz"}, {Metric.Space(99.6), "100 L"}, {US.Space(100), "3.5 cu ft"},
		{Metric.PackSpace(0.517), "0.52 L"}, {US.PackSpace(1), "0.035 cu ft"}, {Metric.Heat(2.34), "2.3 MJ"}, {US.Heat(2.34), "2.3 MJ"}, {Metric.Heat2(0.356), "0.36 MJ"},
		{Metric.Height(1981), "1,981 m"}, {US.Height(1981), "6,499 ft"}, {Metric.Length(100), "100 cm"}, {US.Length(100), "39 in"}, {Money(1234.5), "1,234.50"}, {Money(-0.001), "0.00"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// TestDigitsAtTheirEdges: at each limit the larger figure begins; a negative amount has the
// digits of its size; nothing has no sign; a gap is rounded up, one that is whole stays.
func TestDigitsAtTheirEdges(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Amount(99.95), "100"}, {Amount(99.94), "99.9"}, {Amount(9.995), "10.0"}, {Amount(9.994), "9.99"}, {Amount(0.00995), "0.01"}, {Amount(0.00994), "0.0099"}, {Amount(0.00005), "0.0001"}, {Amount(0.000049), "0"},
		{Amount(-1500), "-1,500"}, {Amount(-56.12), "-56.1"}, {Amount(-0.031), "-0.03"}, {Figure(100), "100"}, {Figure(-2.5), "-2.5"},
		{Signed("0.00", 0), "0.00"}, {Signed("0.01", 0.01), "+0.01"},
		{GapPercent(0.01), "1.0 %"}, {GapPercent(0.00999), "1.00 %"}, {GapPercent(0.012), "1.2 %"}, {GapPercent(0.0121), "1.3 %"}, {GapPercent(0.1), "10 %"}, {GapPercent(0.101), "11 %"}, {GapPercent(0.0999), "10.0 %"}, {GapPercent(-0.2), "0.00 %"},
		{US.Net(907.18474), "2.00 lb"}, {US.Net(907.18), "32.0 oz"}, // two pounds, exact
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

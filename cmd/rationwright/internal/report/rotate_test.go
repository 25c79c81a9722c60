package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
	"rationwright/solver/stockpile"
)

// TestRotateByHand: each batch where it is due, what has no date to be found, by its date,
// count and order; what is stored too warm says so.
func TestRotateByHand(t *testing.T) {
	r := &stockpile.Rotation{Start: "2026-11-25", TempC: 21, Factor: 1, Months: 3, Demo: ration.Demo{Prices: true}, Actions: []stores.Action{
		{Pack: "nuts", By: "2026-11-01", Do: "eat and buy back", Time: stores.Overdue, Count: 3, Order: 1, Rule: "printed date"},
		{Pack: "water", Name: "stored water", By: "2026-12-01", Do: "refill", Time: stores.Soon, Count: 40.5, Unit: "L", Order: 2, Rule: "6 months", Place: "cellar", Warn: "30 °C"},
		{Pack: "rice", Name: "white rice", By: "2027-01-10", Do: "eat", Time: stores.Later, Count: 4, Place: "board"},
		{Pack: "oil", Name: "oil", Time: stores.NotKnown, Do: "eat", Count: 2, Order: 1, Rule: "no date"},
	}}
	sections := map[string]sheet.Section{}
	var titles []string
	for _, sec := range Rotate(r, sheet.Metric).Sections {
		sections[sec.Title] = sec
		titles = append(titles, sec.Title)
	}
	lines(t, "the order", titles, "", "Past its date", "This month: eat and buy back, refill, replace", "The 3 months after 2026-11-25", "Find the date") // nothing is held for good
	lines(t, "the head", sections[""].Lead, "What to use up, refill and replace, counted from 2026-11-25.",
		"Stored at 21 °C, for which the keeping times hold (11 °C more halve them: USDA commodity storage table). A printed date is never put later.", "Prices are invented for the demo.")
	lines(t, "what is past", barred(sections["Past its date"].Table), "2026-11-01|eat and buy back|3|nuts|nuts|1|printed date")
	lines(t, "this month", barred(sections["This month: eat and buy back, refill, replace"].Table), "2026-12-01|refill|40.5 L|stored water|water|2|6 months. TOO WARM: 30 °C. Place: cellar")
	lines(t, "by month", barred(sections["The 3 months after 2026-11-25"].Table), "2027-01: 2027-01-10|eat|4|white rice|rice|board")
	lines(t, "without a date", barred(sections["Find the date"].Table), "|write down the date|2|oil|oil|1|no date")

	r.Actions = r.Actions[3:]
	lines(t, "nothing is due", Rotate(r, sheet.Metric).Sections[1].Lead, "Nothing is due in the next 30 days.")
	r.Actions = []stores.Action{{Pack: "rice", By: "2027-02-25", Time: stores.Later, Count: 1}} // the last day of three months
	if got := laidOut(t, Rotate(r, sheet.Metric)); strings.Contains(got, "later than that") {
		t.Errorf("all is listed:\n%s", got)
	}
	r.Start, r.Actions[0].By = "", "2099-01-01" // no day one: nothing is too far ahead
	if got := laidOut(t, Rotate(r, sheet.Metric)); strings.Contains(got, "later than that") || !strings.Contains(got, "2099-01-01") {
		t.Errorf("no day one:\n%s", got)
	}
}

// TestStoredAt: what the temperature makes of keeping times, rounded so that they are not
// told longer than they are.
func TestStoredAt(t *testing.T) {
	for _, c := range []struct {
		tempC, factor float64
		u             sheet.Units
		want          string
	}{
		{10, 2, sheet.Metric, "Stored at 10 °C: keeping times counted from the day of buying are 2 times those at 21 °C, at most twice (11"},
		{32, 0.496, sheet.Metric, "Stored at 32 °C: every time left is cut to 49 % of that at 21 °C (11"},
		{21, 1, sheet.US, "Stored at 69.8 °F, for which the keeping times hold (11"}, // 21 × 9/5 + 32
		{20.96, 1.25, sheet.Metric, "Stored at 21 °C: keeping times counted from the day of buying are 1.25 times"},
	} {
		got := rotateHead(&stockpile.Rotation{Start: "2026-11-25", TempC: c.tempC, Factor: c.factor}, c.u).Lead
		if len(got) != 2 || !strings.HasPrefix(got[1], c.want) {
			t.Errorf("%g °C: %q, want %q", c.tempC, got, c.want)
		}
	}
}

// TestRotationAsFacts: a row a batch and a row a line of the programme, with what became of
// it.
func TestRotationAsFacts(t *testing.T) {
	r := &stockpile.Rotation{Currency: "TSD", Actions: []stores.Action{
		{Do: "refill", By: "2026-12-01", Time: stores.Soon, Pack: "water", Name: "stored water", Count: 40.5, Unit: "L", Place: "cellar", Batch: "2026-06-01", Order: 2, UID: "u1", Rule: "6 months", Warn: "30 °C", Ref: stores.Ref{Source: "R", Verified: "yes"}},
		{Do: "eat", Pack: "rice", Count: 1, Order: 1, Rule: "its date"},
	},
		Programme: stores.Programme{Lines: []stores.ProgrammeLine{{Pack: "rice", Name: "white rice", Target: 6, KeepDays: 900, TurnMonths: 12, PerMonth: 0.5, PerYear: 6.2, Rhythm: "1 every 2 months", Why: "it keeps", YearCost: 84, HasCost: true}, {Pack: "oil", Name: "oil", Target: 1, NoWaste: true, Rhythm: "none", YearCost: 3}}},
		Followed:  []stockpile.FollowedPack{{Pack: "rice", Months: 60, Bought: 30, Eaten: 28, Wasted: 2, Least: 5}},
	}
	lines(t, "the facts", filled(t, RotateCSV(r)),
		"action do=refill by=2026-12-01 time="+stores.Soon+" pack=water name=stored water count=40.5 unit=L place=cellar batch=2026-06-01 order=2 uid=u1 text=6 months; 30 °C source=R verified=yes",
		"action do=eat pack=rice count=1 order=1 text=its date",
		"programme pack=rice name=white rice count=6 keep_days=900 packs_per_month=0.5 packs_per_year=6.2 cost_per_year=84 currency=TSD no_waste=false months=60 bought=30 eaten=28 wasted=2 least=5 text=1 every 2 months; it keeps",
		"programme pack=oil name=oil count=1 keep_days=0 packs_per_month=0 packs_per_year=0 currency=TSD no_waste=true text=none")
	g := programme(r).Table
	if h := headings(g); h != "hold|what|pack|keeps, days|eat and buy back|a year, TSD" {
		t.Errorf("the columns are %q", h)
	}
	lines(t, "the programme", barred(g), "6|white rice|rice|900|1 every 2 months|84.00", "1|oil|oil||none|")
	if sec := followed(&stockpile.Rotation{}); len(sec.Lead) != 0 {
		t.Errorf("nothing was followed: %q", sec.Lead)
	}
}

package stores

import (
	"errors"
	"math"
	"testing"

	"rationwright/foods"
)

// months × 2^((21 − T)/11), gain at most 2, never above 35 °C.
func TestKeepingFactor(t *testing.T) {
	for _, tt := range []struct{ temp, want float64 }{
		{21, 1}, {32, 0.5}, {10, 2}, {4, 2}, {-20, 2}, {26.5, math.Sqrt2 / 2}, {15.5, math.Sqrt2}, {35, math.Exp2(-14.0 / 11)},
	} {
		got, err := KeepingFactor(tt.temp)
		if err != nil || math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("KeepingFactor(%g) = %g, %v; want %g", tt.temp, got, err, tt.want)
		}
	}
	for _, temp := range []float64{35.001, 60, math.NaN(), math.Inf(1)} {
		if _, err := KeepingFactor(temp); !errors.Is(err, ErrTooHot) {
			t.Errorf("KeepingFactor(%g): %v, want ErrTooHot", temp, err)
		}
	}
}

// The rule against every row of the USDA commodity storage table: never
// longer than the published months, which are whole, at 4 and 32 °C. Canned
// meat gains least in the cold (36 to 60 months); there it holds for the 24
// months that the keeping table plans it with.
func TestKeepingRuleAgainstTheStorageTable(t *testing.T) {
	compared := 0
	planned := map[string]float64{"beef, canned": 24, "pork, canned": 24, "poultry, canned": 24}
	for _, r := range rows("storage_temperature") {
		at21, ok := r.number("best_quality_months_21c_70f")
		if !ok {
			continue
		}
		for _, tt := range []struct {
			column string
			temp   float64
		}{{"best_quality_months_4c_40f", 4}, {"best_quality_months_32c_90f", 32}} {
			published, ok := r.number(tt.column)
			if !ok {
				continue
			}
			compared++
			factor, err := KeepingFactor(tt.temp)
			base := at21
			if months, ok := planned[r.Text("food")]; ok && tt.temp < 21 {
				base = months
			}
			if err != nil || base*factor > published+0.5 {
				t.Errorf("%s at %g °C: the rule gives %g months, the table %g (%s)", r.Text("food"), tt.temp, base*factor, published, r.Text("source"))
			}
		}
	}
	if compared < 60 {
		t.Errorf("%d figures compared", compared)
	}
}

func TestKeepingDays(t *testing.T) {
	// 12 months of 30.4375 days are 365.25; at 32 °C half, 182.6; at 10 °C twice, 730.5.
	for _, tt := range []struct {
		months, temp float64
		days         int
	}{{12, 21, 365}, {12, 32, 182}, {12, 10, 730}, {6, 21, 182}, {3, 21, 91}, {0, 21, 0}} {
		if got, err := KeepingDays(tt.months, tt.temp); err != nil || got != tt.days {
			t.Errorf("KeepingDays(%g, %g) = %d, %v; want %d", tt.months, tt.temp, got, err, tt.days)
		}
	}
}

func TestDueOn(t *testing.T) {
	start, _ := parseDay("2026-12-01")
	beans := &foods.Keeping{UseByMonths: 24, AfterOpenHours: 2, AfterOpenBasis: "safety", Source: "table"}
	jam := &foods.Keeping{UseByMonths: 12, AfterOpenHours: 720, AfterOpenBasis: "quality", Source: "table"}
	formula := &foods.Keeping{LabelDateBinds: true, AfterOpenHours: 24, AfterOpenBasis: "safety", Source: "table"}
	tests := []struct {
		name   string
		batch  Batch
		temp   float64
		day    string // "" unknown
		safety bool
	}{
		{"printed date", Batch{BestBefore: "2028-03-01", Keeping: beans}, 21, "2028-03-01", false},
		{"printed date, cool", Batch{BestBefore: "2028-03-01", Keeping: beans}, 5, "2028-03-01", false},
		// 100 days left, half of them at 32 °C
		{"printed date, warm", Batch{BestBefore: "2027-03-11", Keeping: beans}, 32, "2027-01-20", false},
		// bought 2026-09-02, 190 days to the date, 95 of them at 32 °C
		{"printed date, warm since bought", Batch{BestBefore: "2027-03-11", Since: "2026-09-02", Keeping: beans}, 32, "2026-12-06", false},
		{"past its printed date, warm", Batch{BestBefore: "2026-11-01", Keeping: beans}, 32, "2026-11-01", false},
		{"bought", Batch{Since: "2026-12-01", Keeping: beans}, 21, "2028-11-30", false}, // 730 days
		{"bought, warm", Batch{Since: "2026-12-01", Keeping: beans}, 32, "2027-12-01", false},
		{"bought, cold", Batch{Since: "2026-12-01", Keeping: beans}, 4, "2030-12-01", false}, // 1461 days, four years with a leap day
		{"formula by its date", Batch{BestBefore: "2027-05-05", Keeping: formula, Infant: true}, 21, "2027-05-05", true},
		{"formula without a date", Batch{Since: "2026-12-01", Keeping: formula, Infant: true}, 21, "", false},
		{"no dates", Batch{Keeping: beans}, 21, "", false},
		{"nothing known", Batch{Since: "2026-12-01"}, 21, "", false},
		{"opened can", Batch{BestBefore: "2028-03-01", Opened: "2026-12-01", Keeping: beans}, 21, "2026-12-01", true},
		{"opened jam", Batch{BestBefore: "2028-03-01", Opened: "2026-12-01", Keeping: jam}, 21, "2026-12-30", false},        // 720 h: 30 days, the day of opening among them
		{"opened formula", Batch{BestBefore: "2027-05-05", Opened: "2026-12-01", Keeping: formula}, 21, "2026-12-01", true}, // 24 h
		{"opened jam near its date", Batch{BestBefore: "2026-12-10", Opened: "2026-12-01", Keeping: jam}, 21, "2026-12-10", false},
		{"opened, nothing known", Batch{Opened: "2026-12-01"}, 21, "2026-12-01", true},
		// CDC: home-filled water every 6 months, 182 days; the usual practice 3, 91 days
		{"water filled", Batch{Renewal: "water-home-filled", Since: "2026-12-01"}, 30, "2027-06-01", false},
		{"water by the allowance", Batch{Renewal: "water-allowance", Since: "2026-12-01"}, 21, "2027-03-02", false},
		{"bottled water", Batch{Renewal: "water-bottled", BestBefore: "2027-08-01", Since: "2026-12-01"}, 21, "2027-08-01", false},
		{"bottled water without a date", Batch{Renewal: "water-bottled", Since: "2026-12-01"}, 21, "", false},
		// EPA: bleach under a year old, 365 days, and never past its printed date
		{"bleach", Batch{Renewal: "bleach", Since: "2026-12-01"}, 21, "2027-12-01", false},
		{"bleach with a date", Batch{Renewal: "bleach", Since: "2026-12-01", BestBefore: "2027-04-01"}, 21, "2027-04-01", false},
		{"no such rule", Batch{Renewal: "wine", Since: "2026-12-01"}, 21, "", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			due, err := tt.batch.DueOn(start, tt.temp)
			if err != nil {
				t.Fatal(err)
			}
			day := ""
			if due.Known {
				day = isoDay(due.Day)
			}
			if day != tt.day || due.Safety != tt.safety || due.Rule == "" {
				t.Errorf("due %q, safety %v, rule %q; want %q, %v", day, due.Safety, due.Rule, tt.day, tt.safety)
			}
		})
	}
	for _, b := range []Batch{{BestBefore: "soon"}, {Since: "31.1.2027"}, {Opened: "2026-13-01", Keeping: beans}, {Renewal: "bleach", BestBefore: "x"}} {
		if _, err := b.DueOn(start, 21); !errors.Is(err, ErrDay) {
			t.Errorf("%+v: %v, want ErrDay", b, err)
		}
	}
	if _, err := (&Batch{Keeping: beans}).DueOn(start, 36); !errors.Is(err, ErrTooHot) {
		t.Errorf("36 °C: %v, want ErrTooHot", err)
	}
}

// Renewal rules as published: CDC 6 months, EPA under a year; the three months
// of the usual allowance have no source and say so.
func TestRenewals(t *testing.T) {
	for _, tt := range []struct {
		key    string
		months float64
		source bool
	}{{"water-home-filled", 6, true}, {"water-bottled", 0, true}, {"water-allowance", 3, false}, {"bleach", 12, true}, {"batteries", 6, false}, {"formula", 0, true}, {"medicine", 0, false}} {
		r, ok := RenewalByKey(tt.key)
		if !ok || r.Months != tt.months || r.NoSource() == tt.source || r.Action == "" {
			t.Errorf("%s: %+v, want %g months, sourced %v", tt.key, r, tt.months, tt.source)
		}
	}
	if r, _ := RenewalByKey("water-home-filled"); r.Months != waterRule("CDC/FEMA", "household", "renewal_home_filled").Value {
		t.Errorf("home-filled water: %g months, water.csv differs", r.Months)
	}
	if r, _ := RenewalByKey("water-allowance"); r.Months != UsualAllowance().RenewMonths {
		t.Errorf("usual allowance: %g months, water.csv differs", r.Months)
	}
}

// What a due day goes by, in words, and where that comes from.
func TestRulesOfDueDays(t *testing.T) {
	start, _ := parseDay("2026-12-01")
	table := Ref{"table", "yes"}
	label := Ref{"label", "printed on the pack"}
	_, warm := temperatureRule("halving")
	jam := &foods.Keeping{UseByMonths: 12, AfterOpenHours: 72, AfterOpenBasis: "quality", Source: table.Source, Verified: table.Verified}
	sealed := &foods.Keeping{UseByMonths: 24, AfterOpenBasis: "quality", Source: table.Source, Verified: table.Verified}
	bleach, _ := RenewalByKey("bleach")
	for _, tt := range []struct {
		name   string
		batch  Batch
		temp   float64
		day    string
		safety bool
		rule   string
		ref    Ref
	}{
		{"printed", Batch{BestBefore: "2028-03-01", Keeping: jam}, 21, "2028-03-01", false, "printed date", label},
		{"printed, warm", Batch{BestBefore: "2027-03-11", Keeping: jam}, 32, "2027-01-20", false, "printed date 2027-03-11, brought forward for storage at 32 °C", warm},
		{"bought", Batch{Since: "2026-12-01", Keeping: jam}, 21, "2027-12-01", false, "12 months at 21 °C from buying, stored at 21 °C", table},
		{"bought, cool", Batch{Since: "2026-12-01", Keeping: jam}, 10, "2028-11-30", false, "12 months at 21 °C from buying, stored at 10 °C", table},
		{"opened", Batch{Opened: "2026-12-01", BestBefore: "2028-03-01", Keeping: jam}, 21, "2026-12-03", false, "opened: 72 h without a refrigerator", table},
		{"opened, no date", Batch{Opened: "2026-12-01", Keeping: jam}, 21, "2026-12-03", false, "opened: 72 h without a refrigerator", table},
		{"opened, printed for the day before", Batch{Opened: "2026-12-01", BestBefore: "2026-12-02", Keeping: jam}, 21, "2026-12-02", false, "printed date", label},
		{"opened, printed for the same day", Batch{Opened: "2026-12-01", BestBefore: "2026-12-03", Keeping: jam}, 21, "2026-12-03", false, "opened: 72 h without a refrigerator", table},
		// Hours that nothing tells are none, whatever the basis of the row.
		{"opened, no hours", Batch{Opened: "2026-12-01", Keeping: sealed}, 21, "2026-12-01", true, "opened, and nothing tells how long it keeps: the day of opening", Ref{}},
		{"no date", Batch{Keeping: sealed}, 21, "", false, "neither a printed date nor the day of buying is noted", table},
		{"no date of infant food", Batch{Since: "2026-12-01", Infant: true, Keeping: sealed}, 21, "", false, "the printed date rules: note it as best_before", table},
		{"nothing", Batch{}, 21, "", false, "no printed date is noted and the food's keeping time is not known", Ref{}},
		{"bleach", Batch{Renewal: "bleach", Since: "2026-12-01"}, 21, "2027-12-01", false, "replace before it is a year old", bleach.Ref},
		{"bleach printed for longer", Batch{Renewal: "bleach", Since: "2026-12-01", BestBefore: "2028-06-01"}, 21, "2027-12-01", false, "replace before it is a year old", bleach.Ref},
		{"bleach printed for less", Batch{Renewal: "bleach", Since: "2026-12-01", BestBefore: "2027-06-01"}, 21, "2027-06-01", false, "printed date", label},
		{"bleach printed, bought when is not known", Batch{Renewal: "bleach", BestBefore: "2028-06-01"}, 21, "2028-06-01", false, "printed date", label},
		{"no such rule", Batch{Renewal: "wine", Since: "2026-12-01"}, 21, "", false, "no rule of renewal for wine", Ref{}},
	} {
		due, err := tt.batch.DueOn(start, tt.temp)
		day := ""
		if due.Known {
			day = isoDay(due.Day)
		}
		if err != nil || day != tt.day || due.Safety != tt.safety || due.Rule != tt.rule || due.Ref != tt.ref {
			t.Errorf("%s: %q, %+v, %v, want %q, safety %v, %q by %v", tt.name, day, due, err, tt.day, tt.safety, tt.rule, tt.ref)
		}
	}
}

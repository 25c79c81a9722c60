package foods

import (
	"time"

	"rationwright/nutrients/table"
)

// hoursPerDay turns hours open into days.
const hoursPerDay = 24

// OpenDays returns on how many calendar days an open pack may be eaten, the day
// of opening included: whole days of 24 h only, since a date does not say the
// hour of opening, and at least the day of opening itself. 24 h are that day
// alone, 48 h it and the next. A nil rule is the day of opening.
func (k *Keeping) OpenDays() int {
	if k == nil {
		return 1
	}
	return max(1, int(k.AfterOpenHours/hoursPerDay))
}

// LastOpenDay returns the last day on which a pack opened on the day of opened
// may be eaten without refrigeration, see [Keeping.OpenDays].
func (k *Keeping) LastOpenDay(opened time.Time) time.Time {
	return opened.AddDate(0, 0, k.OpenDays()-1)
}

// readKeeping returns the keeping times of data/keeping.csv by form.
func readKeeping() (map[string]*Keeping, error) {
	cols := append(
		filled("form after_open_hours_no_fridge after_open_basis label_date_binding max_storage_c source verified"),
		columns("group use_by_months best_quality_months_min best_quality_months_max fema_list_months indefinite_if_sealed months_4c months_21c months_32c after_open_source after_open_fridge_days note")...)
	return keyed("keeping.csv", cols, "form", func(row *table.Row) (string, *Keeping) {
		k := &Keeping{
			Form:           row.Text("form"),
			AfterOpenBasis: row.Choice("after_open_basis", "safety", "quality"),
			LabelDateBinds: row.Yes("label_date_binding"),
			Source:         row.Text("source"),
			Verified:       row.Text("verified"),
		}
		k.UseByMonths, _ = row.Float("use_by_months", 0, 600)
		k.AfterOpenHours, _ = row.Float("after_open_hours_no_fridge", 0, 1e5)
		k.MaxStorageC, _ = row.Float("max_storage_c", 0, 60)
		return k.Form, k
	})
}

package foods

import "time"

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
	in, err := embedded("keeping.csv", append(
		filled("form after_open_hours_no_fridge after_open_basis label_date_binding max_storage_c source verified"),
		columns("group use_by_months best_quality_months_min best_quality_months_max fema_list_months indefinite_if_sealed months_4c months_21c months_32c after_open_source after_open_fridge_days note")...))
	if err != nil {
		return nil, err
	}
	all := map[string]*Keeping{}
	for _, row := range in.Rows {
		k := &Keeping{
			Form:           row.Text("form"),
			AfterOpenBasis: row.Choice("after_open_basis", "safety", "quality"),
			LabelDateBinds: row.Choice("label_date_binding", "yes", "no") == "yes",
			Source:         row.Text("source"),
			Verified:       row.Text("verified"),
			Note:           row.Text("note"),
		}
		if all[k.Form] != nil {
			row.Fail("form", ErrTwice, "leave one row")
			continue
		}
		k.UseByMonths, _ = row.Float("use_by_months", 0, 600)
		k.AfterOpenHours, _ = row.Float("after_open_hours_no_fridge", 0, 1e5)
		k.MaxStorageC, _ = row.Float("max_storage_c", 0, 60)
		k.AfterOpenSource = row.Text("after_open_source")
		all[k.Form] = k
	}
	return all, in.Err()
}

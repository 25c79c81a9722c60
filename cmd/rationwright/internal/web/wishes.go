package web

import (
	"errors"
	"fmt"
	"maps"
	"net/http"
	"strconv"
	"strings"
	"time"

	"rationwright/foods"
	"rationwright/solver/ration"
)

// changeWishes takes the form of what the plan is to be like.
func (s changes) changeWishes(r *http.Request) (string, error) {
	var faults []error
	limits := map[string]float64{}
	for key, what := range limitWords {
		v, err := limit(r.PostFormValue(key), what)
		faults = append(faults, err)
		if v != nil {
			limits[key] = *v
		}
	}
	number := func(key, what string, least, most int) string {
		text := strings.TrimSpace(r.PostFormValue(key))
		n, err := strconv.Atoi(text)
		if err != nil || n < least || n > most {
			faults = append(faults, fmt.Errorf("%s %q: write a whole number from %d to %d", what, text, least, most))
			return strconv.Itoa(least)
		}
		return text
	}
	options := map[string]string{
		"days": number("days", "Days", 1, ration.MostDays), "pets": number("pets", "Pets", 0, 1000),
	}
	start := r.PostFormValue("start")
	if _, err := time.Parse(time.DateOnly, start); err != nil {
		faults = append(faults, fmt.Errorf("First day %q: write the date as 2026-11-25", start))
	}
	for _, key := range []string{"hot", "easy_open", "boil_water", "water_allowance"} {
		options[key] = strconv.FormatBool(r.PostFormValue(key) == "true")
	}
	for _, key := range []string{"least", "cook", "stove", "standard"} {
		options[key] = r.PostFormValue(key)
	}
	if options["with_menu"] = ""; r.PostFormValue("with_menu") == "true" {
		options["with_menu"] = "true"
	}
	options["sizes"] = r.PostFormValue("sizes")
	if options["sizes"] == foods.SizesMetric {
		options["sizes"] = "" // what a request says only where it is otherwise
	}
	options["washing"], options["slack"] = "", ""
	if v := decimal(r, "washing"); v != "" {
		if litres, err := strconv.ParseFloat(v, 64); err != nil || !(litres >= 0 && litres <= ration.MostWashingL) {
			faults = append(faults, fmt.Errorf("Water for washing %q: write litres a head and day, from 0 to %d, or leave it empty for 1", v, ration.MostWashingL))
		}
		options["washing"] = v
	}
	if v := strings.TrimSpace(strings.TrimSuffix(decimal(r, "slack"), "%")); v != "" {
		percent, err := strconv.ParseFloat(v, 64)
		if err != nil || !(percent >= 0 && percent <= mostSlack) {
			faults = append(faults, fmt.Errorf("What it may cost more so that people like it, %q: write a percentage from 0 to %d", v, mostSlack))
		}
		if percent > 0 {
			options["slack"] = strconv.FormatFloat(percent/100, 'g', -1, 64)
		}
	}
	without := r.PostForm["without"]
	without = append(without, listOf(r.PostFormValue("no"))...)
	if err := s.setWishes(wishes{options, limits, start, without, r.PostForm["ill"]}, errors.Join(faults...)); err != nil {
		return "/wishes", err
	}
	if r.PostFormValue("do") == "save" {
		return "/wishes", nil
	}
	return s.makePlan(r)
}

// mostSlack is the most, in percent, that people liking it may cost on the form.
const mostSlack = 50

// decimal is a number of a form with the point that the program writes.
func decimal(r *http.Request, key string) string {
	return strings.ReplaceAll(strings.TrimSpace(r.PostFormValue(key)), ",", ".")
}

// wishes are what the form of what the plan is to be like says.
type wishes struct {
	options map[string]string
	limits  map[string]float64
	start   string
	without []string // words for food that nobody gets
	ill     []string // names of people for whom more water is kept
}

// setWishes takes wishes over that can be read; words for food stay on the page even
// where they mean nothing.
func (s changes) setWishes(w wishes, fault error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.entered.Without = w.without
	if fault != nil {
		return fault
	}
	next := s.entered
	next.Options = maps.Clone(next.Options)
	maps.Copy(next.Options, w.options)
	next.Limits, next.Start, next.Ill = w.limits, w.start, w.ill
	probe := next
	if len(probe.filled()) < 2 {
		probe.Household, probe.Ill = demoRow, nil
	}
	if _, err := probe.request(); err != nil {
		return err
	}
	s.entered = next
	return nil
}

// demoRow stands for a household where only other things are looked at.
var demoRow = [][]string{{"name", "age_years", "sex"}, {"somebody", "30", "f"}}

// limitWords are the limits of a plan and their names on the form.
var limitWords = map[string]string{
	"budget": "Most that it may cost", "weight_kg": "Most that it may weigh", "volume_l": "Most that it may fill", "water_l": "Most water stored", "heat_mj": "Most heat for cooking",
}

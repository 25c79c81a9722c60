package ration

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
)

// MostDays is the longest horizon that [Check] looks at.
const MostDays = 365

// RequestRecord is a [Request] as plain data inside a plan: with the embedded
// tables of the same version it rebuilds the model with no other file. Tables
// hold the rows of the user's files as read, header first.
type RequestRecord struct {
	Version   string             `json:"version"`
	Household [][]string         `json:"household"`        // rows of household.csv
	Foods     [][]string         `json:"foods,omitempty"`  // rows that differ from the embedded ones
	Prices    [][]string         `json:"prices,omitempty"` // rows that differ
	Stock     [][]string         `json:"stock,omitempty"`
	Caps      [][]string         `json:"caps,omitempty"`
	Weights   [][]string         `json:"weights,omitempty"`
	Dishes    [][]string         `json:"dishes,omitempty"`
	DishParts [][]string         `json:"dish_parts,omitempty"`
	Without   []string           `json:"without,omitempty"`
	Unplanned []Refused          `json:"unplanned,omitempty"` // whose orders cannot all be kept
	Ill       []string           `json:"ill,omitempty"`
	Shelves   []stores.Shelf     `json:"shelves,omitempty"`
	Limits    map[string]float64 `json:"limits,omitempty"`
	Start     string             `json:"start,omitempty"`
	Options   map[string]string  `json:"options"`
	Demo      Demo               `json:"demo"`
}

// Keys of the record's options.
const (
	optionLeast     = "least"
	optionDays      = "days"
	optionStandard  = "standard"
	optionEnergy    = "energy"
	optionLean      = "lean_energy"
	optionCook      = "cook"
	optionHot       = "hot"
	optionPets      = "pets"
	optionBoil      = "boil_water"
	OptionStockOnly = "stock_only"
	optionEasyOpen  = "easy_open"
	optionAllowance = "water_allowance"
	optionStove     = "stove"
	optionWithin    = "within"
	optionTime      = "time"
	optionWork      = "work"      // only where it is set
	optionSizes     = "sizes"     // only where it is not metric
	optionSlack     = "slack"     // only where there is a second aim
	optionWashing   = "washing"   // only where it is set
	optionMenu      = "with_menu" // only where it is true
)

// MostWashingL is the most water for hands and dishes, L a head and day, that is
// no slip of the pen.
const MostWashingL = 100

// Errors of reading a plan back.
var (
	ErrVersion = errors.New("the plan is of another version; make it again")
	ErrPlan    = errors.New("not a plan")
)

// Record writes a request as plain data.
func Record(req *Request) *RequestRecord {
	rec := &RequestRecord{
		Version:   PlanVersion,
		Household: nutrients.HouseholdRows(req.People),
		Foods:     req.Files.Foods,
		Prices:    req.Files.Prices,
		Stock:     req.Files.Stock,
		Caps:      req.Files.Caps,
		Weights:   req.Files.Weights,
		Dishes:    req.Files.Dishes,
		DishParts: req.Files.DishParts,
		Without:   req.Without,
		Unplanned: unplannedOf(req.People),
		Ill:       req.Ill,
		Shelves:   req.Shelves,
		Start:     req.Start,
		Demo:      req.Demo,
		Options: map[string]string{
			optionLeast:     string(req.Least),
			optionDays:      strconv.Itoa(req.Days),
			optionStandard:  string(req.Standard),
			optionEnergy:    string(req.Energy),
			optionCook:      string(req.Cook),
			optionPets:      strconv.Itoa(req.Pets),
			optionLean:      strconv.FormatBool(req.LeanEnergy),
			optionHot:       strconv.FormatBool(req.Hot),
			optionBoil:      strconv.FormatBool(req.BoilWater),
			OptionStockOnly: strconv.FormatBool(req.StockOnly),
			optionEasyOpen:  strconv.FormatBool(req.EasyOpen),
			optionAllowance: strconv.FormatBool(req.Allowance),
			optionStove:     req.Stove,
			optionWithin:    strconv.FormatFloat(req.Within, 'g', -1, 64),
			optionTime:      req.Time.String(),
		},
	}
	if req.Work > 0 {
		rec.Options[optionWork] = strconv.FormatInt(req.Work, 10)
	}
	if req.WashingL != nil {
		rec.Options[optionWashing] = strconv.FormatFloat(*req.WashingL, 'g', -1, 64)
	}
	if req.Table != nil && req.Table.Sizes() != "" && req.Table.Sizes() != foods.SizesMetric {
		rec.Options[optionSizes] = req.Table.Sizes()
	}
	if req.WithMenu {
		rec.Options[optionMenu] = strconv.FormatBool(true)
	}
	if req.Slack > 0 {
		rec.Options[optionSlack] = strconv.FormatFloat(req.Slack, 'g', -1, 64)
	}
	limits := map[string]float64{}
	for key, v := range req.Limits.byKey() {
		if *v != nil {
			limits[key] = **v
		}
	}
	if len(limits) > 0 {
		rec.Limits = limits
	}
	return rec
}

// byKey are the limits by their keys in a record.
func (l *Limits) byKey() map[string]**float64 {
	return map[string]**float64{
		"budget": &l.Budget, "weight_kg": &l.WeightKg, "volume_l": &l.VolumeL, "water_l": &l.WaterL, "heat_mj": &l.HeatMJ,
	}
}

// Load rebuilds the request from the embedded tables and the record. It never
// falls back to a demo. Its errors say which part of the plan is wrong.
func (rec *RequestRecord) Load() (*Request, error) {
	if rec.Version != PlanVersion {
		return nil, fmt.Errorf("%w: it says %q, this program writes %q", ErrVersion, rec.Version, PlanVersion)
	}
	people, _, err := nutrients.ReadHouseholdRows("plan: household", rec.Household)
	errs := []error{err}
	table, err := foods.Load()
	if err != nil {
		return nil, err
	}
	if rec.Foods != nil {
		_, err := table.ReadFoods("plan: foods", foods.FromRows(rec.Foods))
		errs = append(errs, err)
	}
	if rec.Prices != nil {
		_, err := table.ReadPrices("plan: prices", foods.FromRows(rec.Prices))
		errs = append(errs, err)
	}
	errs = append(errs, setUnplanned(people, rec.Unplanned))
	req := &Request{
		People: people, Table: table, Without: rec.Without, Ill: rec.Ill, Shelves: rec.Shelves, Start: rec.Start, Demo: rec.Demo,
		Files: Files{Foods: rec.Foods, Prices: rec.Prices, Stock: rec.Stock, Caps: rec.Caps, Weights: rec.Weights, Dishes: rec.Dishes, DishParts: rec.DishParts},
	}
	if rec.Caps != nil {
		_, err := table.ReadKindCaps("plan: caps", foods.FromRows(rec.Caps))
		errs = append(errs, err)
	}
	if rec.Weights != nil {
		req.Weights, _, err = ReadWeights("plan: weights", foods.FromRows(rec.Weights))
		errs = append(errs, err)
	}
	if rec.Stock != nil {
		stock, err := table.ReadStockOn(rec.Start, "plan: stock", foods.FromRows(rec.Stock))
		errs = append(errs, err)
		if err == nil {
			req.Stock, req.StockWaterL, req.StockHeatMJ = stock.Lines, stock.WaterL, stores.HeatOfStock(stock)
		}
	}
	errs = append(errs, rec.loadOptions(req), rec.loadLimits(req), CheckIll(req))
	for i := range rec.Shelves {
		if s := &rec.Shelves[i]; !s.Sound() {
			errs = append(errs, fmt.Errorf("%w: request.shelves: %q has a size or a load that is no shelf's", ErrPlan, s.Name))
		}
	}
	return req, errors.Join(errs...)
}

func (rec *RequestRecord) loadOptions(req *Request) error {
	var errs []error
	bad := func(key string) {
		errs = append(errs, fmt.Errorf("%w: request.options.%s: %q cannot be read", ErrPlan, key, rec.Options[key]))
	}
	truth := func(key string) bool {
		v, err := strconv.ParseBool(rec.Options[key])
		if err != nil {
			bad(key)
		}
		return v
	}
	number := func(key string) int {
		v, err := strconv.Atoi(rec.Options[key])
		if err != nil || v < 0 {
			bad(key)
		}
		return v
	}
	word := func(key string, words ...string) string {
		if !slices.Contains(words, rec.Options[key]) {
			bad(key)
			return ""
		}
		return rec.Options[key]
	}
	known := Record(&Request{Work: 1, Slack: 1, WithMenu: true, WashingL: new(float64)}).Options
	known[optionSizes] = ""
	for _, key := range slices.Sorted(maps.Keys(rec.Options)) {
		if _, ok := known[key]; !ok {
			errs = append(errs, fmt.Errorf("%w: request.options.%s: there is no such option", ErrPlan, key))
		}
	}
	req.Least = Least(word(optionLeast, string(LeastCost), string(LeastWeight), string(LeastVolume)))
	if rec.Options[optionSizes] != "" {
		req.Table.Sell(word(optionSizes, foods.SizesUS, foods.SizesAll))
	}
	req.Standard = nutrients.Standard(word(optionStandard, string(nutrients.StandardRDA), string(nutrients.StandardEAR), string(nutrients.StandardBasic)))
	req.Energy = nutrients.EnergySet(word(optionEnergy, string(nutrients.Energy2023), string(nutrients.Energy2005), string(nutrients.EnergyGuidelines)))
	req.Cook = Cook(word(optionCook, string(CookNone), string(CookWarm), string(CookBoil), string(CookSimmer)))
	if req.Stove = rec.Options[optionStove]; req.Stove != "" {
		word(optionStove, stores.StoveNames()...)
	}
	req.Days = number(optionDays)
	if req.Days < 1 || req.Days > MostDays {
		bad(optionDays)
	}
	req.Pets = number(optionPets)
	if rec.Options[optionWork] != "" {
		req.Work = int64(number(optionWork))
	}
	if text := rec.Options[optionWashing]; text != "" {
		litres, err := strconv.ParseFloat(text, 64)
		if err != nil || !(litres >= 0 && litres <= MostWashingL) {
			bad(optionWashing)
		}
		req.WashingL = &litres
	}
	if rec.Options[optionMenu] != "" {
		req.WithMenu = truth(optionMenu)
	}
	req.LeanEnergy = truth(optionLean)
	req.Hot = truth(optionHot)
	req.BoilWater = truth(optionBoil)
	req.StockOnly = truth(OptionStockOnly)
	req.EasyOpen = truth(optionEasyOpen)
	req.Allowance = truth(optionAllowance)
	within, err := strconv.ParseFloat(rec.Options[optionWithin], 64)
	if err != nil || !(within > 0 && within < 1) {
		bad(optionWithin)
	}
	req.Within = within
	if text := rec.Options[optionSlack]; text != "" {
		if req.Slack, err = strconv.ParseFloat(text, 64); err != nil || !(req.Slack > 0 && req.Slack < 1) {
			bad(optionSlack)
		}
	}
	if req.Time, err = time.ParseDuration(rec.Options[optionTime]); err != nil || req.Time <= 0 {
		bad(optionTime)
	}
	if _, err := time.Parse(time.DateOnly, rec.Start); rec.Start != "" && err != nil {
		errs = append(errs, fmt.Errorf("%w: request.start: %q is no date such as 2026-11-25", ErrPlan, rec.Start))
	}
	return errors.Join(errs...)
}

func (rec *RequestRecord) loadLimits(req *Request) error {
	at := req.Limits.byKey()
	for _, key := range slices.Sorted(maps.Keys(rec.Limits)) {
		v := rec.Limits[key]
		to, ok := at[key]
		if !ok || !(v >= 0) {
			return fmt.Errorf("%w: request.limits.%s: %g is no known limit", ErrPlan, key, v)
		}
		*to = &v
	}
	return nil
}

// Asked is the request of a plan with a ration, which it holds, rebuilt. It returns errors
// that wrap [ErrPlan] and [ErrNoRation], and those of [RequestRecord.Load].
func (p *Plan) Asked() (*Request, error) {
	if p.Request == nil {
		return nil, fmt.Errorf("%w: it has no request; make it again with --format json", ErrPlan)
	}
	if p.Totals == nil {
		return nil, ErrNoRation
	}
	return p.Request.Load()
}

// ReadPlan reads a plan in its JSON form, or the plan inside the answer of a swap
// or a check. Unknown versions and anything that is not a plan are errors that wrap
// [ErrVersion] or [ErrPlan]; what was changed since it was made is told by
// [Plan.Changed].
func ReadPlan(in io.Reader) (*Plan, error) {
	notPlan := func(why string) error {
		return fmt.Errorf("%w: %s; give the output of plan --format json", ErrPlan, why)
	}
	text, err := io.ReadAll(io.LimitReader(in, MaxPlanBytes+1))
	if err != nil {
		return nil, fmt.Errorf("cannot be read: %w", err)
	}
	if len(text) > MaxPlanBytes {
		return nil, notPlan(fmt.Sprintf("it is larger than %d MiB", MaxPlanBytes>>20))
	}
	value, err := readJSON(text)
	if err != nil {
		return nil, notPlan(plainJSON(err))
	}
	whole, _ := value.(map[string]any)
	if inside, is := whole["plan"].(map[string]any); is && whole["version"] == nil {
		value, whole = inside, inside
	}
	if text, err = Marshal(value); err != nil {
		return nil, err
	}
	if v, is := whole["version"].(string); is && v != "" && v != PlanVersion {
		return nil, fmt.Errorf("%w: it says %q, this program writes %q", ErrVersion, v, PlanVersion)
	}
	var p Plan
	strict := json.NewDecoder(bytes.NewReader(text))
	strict.DisallowUnknownFields()
	err = strict.Decode(&p)
	if kind := (*json.UnmarshalTypeError)(nil); !errors.As(err, &kind) && (p.Version == "" || p.Request == nil) {
		return nil, notPlan("it has no version or no request")
	}
	if err != nil {
		return nil, notPlan(plainJSON(err))
	}
	p.changed, err = changedParts(whole)
	return &p, err
}

// CheckIll returns an error that wraps [ErrNobody] for a name among the ill that
// is nobody's in the household.
func CheckIll(req *Request) error {
	var errs []error
	for _, name := range req.Ill {
		if !slices.ContainsFunc(req.People, func(p nutrients.Person) bool { return p.Name == name }) {
			errs = append(errs, fmt.Errorf("ill: %w called %q in the household", ErrNobody, name))
		}
	}
	return errors.Join(errs...)
}

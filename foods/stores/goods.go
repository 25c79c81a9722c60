package stores

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients/table"
)

// GoodsOfStock returns the lines of a stock list that are no food but are
// renewed: water, and the keys of [Renewals] (batteries, bleach …). The date in
// best_before is the day by which it is renewed.
func GoodsOfStock(lines []foods.GoodsLine) []Batch {
	var goods []Batch
	for _, line := range lines {
		key := line.Supply.Key
		renewal := key
		if key == foods.StoredWater {
			renewal = "water-home-filled"
		}
		r, ok := RenewalByKey(renewal)
		if !ok {
			continue
		}
		goods = append(goods, Batch{
			Renewal: renewal, Pack: key, Name: r.What, Count: line.Count, Unit: line.Supply.Unit,
			Place: line.Place, BestBefore: line.BestBefore,
		})
	}
	return goods
}

// HeatOfStock returns the MJ of useful heat that a stock list holds: its rows of
// heat, and its fuels at poor efficiency, the safe side; nil when it has
// neither.
func HeatOfStock(stock *foods.Stock) *float64 {
	if stock == nil {
		return nil
	}
	heat := stock.HeatMJ
	for _, line := range stock.Goods {
		s, err := StoveByName(line.Supply.Key)
		if err != nil {
			continue // no fuel
		}
		low, _, _ := s.UsefulMJ()
		sum := line.Count * low
		if heat != nil {
			sum += *heat
		}
		heat = &sum
	}
	return heat
}

// RenewalDates returns the days (ISO) on which goods renewed on the day since
// are due again and again, up to and including until; none where the printed
// date rules. Each time is the months of 30.4375 days, rounded down. Errors
// wrap [ErrDay].
func RenewalDates(key, since, until string) ([]string, error) {
	r, ok := RenewalByKey(key)
	if !ok {
		keys := table.Words(renewals(), func(r Renewal) string { return r.Key })
		return nil, fmt.Errorf("no rule of renewal is called %q; there are %s", key, strings.Join(keys, ", "))
	}
	from, err := parseDay(since)
	if err != nil {
		return nil, err
	}
	to, err := parseDay(until)
	if err != nil {
		return nil, err
	}
	if r.Months <= 0 {
		return nil, nil
	}
	var days []string
	step := int(math.Floor(r.Months * DaysPerMonth))
	for day := from.AddDate(0, 0, step); !day.After(to); day = day.AddDate(0, 0, step) {
		days = append(days, isoDay(day))
	}
	return days, nil
}

// ItemOf returns a pack of a plan for days as an item to hold for good: the
// target is the plan's count, and in daily life the household eats it at most
// at the plan's pace.
func ItemOf(p *foods.Pack, count, days int) StoreItem {
	item := StoreItem{
		Pack: p.Key, Target: count, EatPerMonth: EatsPerMonth(count, days),
		Price: p.Price, HasPrice: p.HasPrice,
	}
	if f := p.Food; f != nil {
		item.Name = f.Name
		if f.Keeping != nil && !infantForm(f.Form) {
			item.KeepMonths = f.Keeping.UseByMonths
		}
	}
	return item
}

// StockOf returns batches of one pack as packs by their last day at tempC, and
// how many have no date. Opened packs do not count. Errors as [Batch.DueOn].
func StockOf(batches []Batch, start string, tempC float64) (dated []DatedPacks, undated int, err error) {
	day, err := parseDay(start)
	if err != nil {
		return nil, 0, err
	}
	for _, b := range together(batches) {
		due, err := b.DueOn(day, tempC)
		switch {
		case err != nil:
			return nil, 0, fmt.Errorf("%s: %w", b.Pack, err)
		case b.Opened != "":
		case !due.Known:
			undated += int(b.Count)
		default:
			dated = append(dated, DatedPacks{int(b.Count), due.Day})
		}
	}
	slices.SortStableFunc(dated, func(a, b DatedPacks) int { return a.UseBy.Compare(b.UseBy) })
	return dated, undated, nil
}

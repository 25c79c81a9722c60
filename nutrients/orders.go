package nutrients

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode"

	"rationwright/nutrients/table"
)

// Orders are the limits that a clinician has set for a person, with their
// origin. They are obeyed in both directions: nothing but the clinician
// relaxes them.
type Orders struct {
	List []Order
	By   string // who gave them
	On   string // when, an ISO date
}

// Order is one limit: a ceiling, a floor or a band of an amount per day, of
// carbohydrate a meal, or a texture.
type Order struct {
	Of        OrderOf
	Low, High float64 // in the unit of Of; 0: none
	Texture   string  // for OrderTexture: soft
}

// OrderOf is what an order limits.
type OrderOf string

// The words of the orders column.
const (
	OrderProtein      OrderOf = "protein"      // g per day
	OrderSodium       OrderOf = "sodium"       // mg per day
	OrderPotassium    OrderOf = "potassium"    // mg per day
	OrderPhosphorus   OrderOf = "phosphorus"   // mg per day
	OrderEnergy       OrderOf = "energy"       // kcal per day
	OrderFluid        OrderOf = "fluid"        // L per day of drinks and of food that is liquid
	OrderCarbohydrate OrderOf = "carbohydrate" // g per main meal
	OrderTexture      OrderOf = "texture"
)

// TextureSoft is the one texture that the foods can be held to. What is finer,
// minced or a purée, belongs to a swallowing disorder.
const TextureSoft = "soft"

// orderLimit says of a limit of an amount which nutrient it is of, its unit in
// household.csv, and the widest amounts that are no slip of the pen (common
// practice, no source).
type orderLimit struct {
	of           OrderOf
	nutrient     Nutrient
	unit         string
	least, most  float64
	perMeal, ofL bool
}

// orderable are the limits of amounts that can be ordered.
var orderable = []orderLimit{
	{of: OrderProtein, nutrient: Protein, unit: "g", least: 5, most: 400},
	{of: OrderSodium, nutrient: Sodium, unit: "mg", least: 200, most: 10_000},
	{of: OrderPotassium, nutrient: Potassium, unit: "mg", least: 500, most: 10_000},
	{of: OrderPhosphorus, nutrient: Phosphorus, unit: "mg", least: 200, most: 5_000},
	{of: OrderEnergy, nutrient: Energy, unit: "kcal", least: leastEnergy, most: mostEnergy},
	{of: OrderFluid, nutrient: Water, unit: "L", least: 0.3, most: 6, ofL: true},
	{of: OrderCarbohydrate, nutrient: Carbohydrate, unit: "g", least: 5, most: maxMealG, perMeal: true},
}

// Faults of the orders column.
var (
	ErrOrder  = errors.New("not an order")
	ErrOrigin = errors.New("it does not say who gave the orders and when")
)

const (
	orderForms  = "write: protein 55-60 g, potassium at most 2500 mg, energy at least 1800 kcal, fluid at most 1.2 L, carbohydrate 45-60 g a meal, or texture soft"
	originForm  = "end the cell with: by WHO, DATE, such as by Dr Ardal, 2026-01-31"
	orderMonths = 12 // how long orders hold: planning rule of this program
)

var (
	originPart  = regexp.MustCompile(`(?i)^by\s+(\S.*?)\s*,\s*(\S+)$`)
	texturePart = regexp.MustCompile(`(?i)^texture\s+(\S+)$`)
	limitPart   = regexp.MustCompile(`(?i)^(\pL+)\s+(at most|at least)\s+` + number + `\s*([\pLµ][\pLµ/ ]*)$`)
	bandPart    = regexp.MustCompile(`(?i)^(\pL+)\s+([^\s–-]+)\s*(?:-|–|to)\s*` + number + `\s*([\pLµ][\pLµ/ ]*)$`)
	perMealUnit = regexp.MustCompile(`(?i)\s*(?:/|per |a )\s*meal$`)
)

// String returns the orders as household.csv writes them, "" when there are
// none.
func (o Orders) String() string {
	if len(o.List) == 0 {
		return ""
	}
	return o.texts() + "; by " + o.By + ", " + o.On
}

// texts are the orders without their origin, "" where there are none.
func (o Orders) texts() string { return strings.Join(table.Words(o.List, Order.String), "; ") }

// String returns the order as household.csv writes it.
func (o Order) String() string {
	if o.Of == OrderTexture {
		return string(o.Of) + " " + o.Texture
	}
	unit := orderable[o.index()].unit
	if orderable[o.index()].perMeal {
		unit += " a meal"
	}
	switch {
	case o.Low == 0:
		return fmt.Sprintf("%s at most %s %s", o.Of, measure(o.High), unit)
	case o.High == 0:
		return fmt.Sprintf("%s at least %s %s", o.Of, measure(o.Low), unit)
	}
	return fmt.Sprintf("%s %s-%s %s", o.Of, measure(o.Low), measure(o.High), unit)
}

// index is the place in orderable of what is ordered, -1 where it is not there.
func (o Order) index() int {
	return slices.IndexFunc(orderable, func(known orderLimit) bool { return known.of == o.Of })
}

// Get returns the order of a kind.
func (o Orders) Get(of OrderOf) (Order, bool) {
	if i := slices.IndexFunc(o.List, func(order Order) bool { return order.Of == of }); i >= 0 {
		return o.List[i], true
	}
	return Order{}, false
}

// Stale says why the orders do not hold on a day, an ISO date, and "" when
// they do: they are more than a year old, or of a later day.
func (o Orders) Stale(day string) string {
	given, err := time.Parse(time.DateOnly, o.On)
	at, dayErr := time.Parse(time.DateOnly, day)
	switch {
	case len(o.List) == 0 || err != nil || dayErr != nil:
		return ""
	case given.After(at):
		return fmt.Sprintf("the orders are dated %s, after the first day, %s", o.On, day)
	case given.AddDate(0, orderMonths, 0).Before(at):
		return fmt.Sprintf("the orders of %s by %s are more than a year old on %s", o.On, o.By, day)
	}
	return ""
}

func readOrders(row *table.Row) Orders {
	var orders Orders
	failed := false
	fail := func(part string, err error, fix string) {
		row.FailValue("orders", part, err, fix)
		failed = true
	}
	for _, part := range row.List("orders") {
		text := strings.Join(strings.Fields(part), " ")
		if m := originPart.FindStringSubmatch(text); m != nil {
			if orders.By != "" {
				fail(part, errors.New("written twice"), "leave one origin; orders of two clinicians are agreed on by them first")
				continue
			}
			orders.By, orders.On = m[1], m[2]
			if day, err := time.Parse(time.DateOnly, orders.On); err != nil || day.Year() < 1900 {
				fail(part, table.ErrDate, "write year-month-day, such as by Dr Ardal, 2026-01-31")
			}
			if len(orders.By) > maxNameLength || strings.IndexFunc(orders.By, func(r rune) bool { return !unicode.IsPrint(r) }) >= 0 {
				fail(part, errors.New("no name that can be printed in a line"), originForm)
			}
			continue
		}
		order, fix, err := parseOrder(text)
		switch {
		case err != nil:
			fail(part, err, fix)
		case slices.ContainsFunc(orders.List, func(o Order) bool { return o.Of == order.Of }):
			fail(part, errors.New("a second order of the same"), "write one ceiling, floor or band")
		default:
			orders.List = append(orders.List, order)
		}
	}
	switch {
	case failed:
		return Orders{}
	case len(orders.List) > 0 && orders.By == "":
		row.Fail("orders", ErrOrigin, originForm)
		return Orders{}
	case len(orders.List) == 0 && orders.By != "":
		row.Fail("orders", errors.New("an origin without an order"), orderForms)
		return Orders{}
	}
	return orders
}

// parseOrder reads one order as written. On error, fix says what to write.
func parseOrder(text string) (o Order, fix string, err error) {
	if m := texturePart.FindStringSubmatch(text); m != nil {
		if !strings.EqualFold(m[1], TextureSoft) {
			return o, "write texture soft; for anything finer the clinician plans the food (condition dysphagia)", fmt.Errorf("the foods cannot be held to the texture %q", m[1])
		}
		return Order{Of: OrderTexture, Texture: TextureSoft}, "", nil
	}
	var low, high, unit string
	if m := limitPart.FindStringSubmatch(text); m != nil {
		o.Of, unit = OrderOf(strings.ToLower(m[1])), m[4]
		if strings.EqualFold(m[2], "at most") {
			high = m[3]
		} else {
			low = m[3]
		}
	} else if m := bandPart.FindStringSubmatch(text); m != nil {
		o.Of, low, high, unit = OrderOf(strings.ToLower(m[1])), m[2], m[3], m[4]
	} else {
		return o, orderForms, ErrOrder
	}
	if o.index() < 0 {
		return o, orderForms, fmt.Errorf("%w: %q is no limit that orders set", table.ErrUnknownWord, string(o.Of))
	}
	known := orderable[o.index()]
	if perMealUnit.MatchString(unit) != known.perMeal {
		return o, orderForms, fmt.Errorf("%w: %s is ordered %s", ErrUnit, o.Of, map[bool]string{true: "a meal", false: "a day"}[known.perMeal])
	}
	unit = perMealUnit.ReplaceAllString(unit, "")
	for _, end := range []struct {
		text string
		into *float64
	}{{low, &o.Low}, {high, &o.High}} {
		if end.text == "" {
			continue
		}
		v, fix, err := table.ParseFloat(end.text)
		if err != nil {
			return o, fix, err
		}
		if *end.into, err = orderedAmount(known.nutrient, known.ofL, v, unit); err != nil {
			return o, fmt.Sprintf("write %s in %s", o.Of, known.unit), err
		}
		if *end.into < known.least || *end.into > known.most {
			return o, fmt.Sprintf("write %g to %g %s", known.least, known.most, known.unit), table.ErrRange
		}
	}
	if o.Low > 0 && o.High > 0 && o.Low > o.High {
		return o, "write the lower end first", errors.New("the band is upside down")
	}
	return o, "", nil
}

func orderedAmount(n Nutrient, litres bool, v float64, unit string) (float64, error) {
	if !litres {
		return ToColumn(n, v, unit)
	}
	switch strings.ToLower(canonicalUnit(unit)) {
	case "l", "litre", "litres":
		return v, nil
	case "ml":
		return v / 1000, nil
	}
	return 0, fmt.Errorf("%w: %q for a drink", ErrUnit, unit)
}

package nutrients

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"rationwright/nutrients/table"
)

// number is whatever stands where a number belongs, so that a bad one is named
// as such; [table.ParseFloat] judges it.
const number = `(\S*[0-9.,]|nan|inf|infinity)`

// The grammar of the rules column. FOOD and NUTRIENT may hold spaces; the
// amount is the last number of the rule.
var (
	noRule     = regexp.MustCompile(`(?i)^no\s+(\S.*)$`)
	foodRule   = regexp.MustCompile(`(?i)^(most|least)\s+(\S.*?)\s+` + number + `\s*(\pL+)\s*(?:/\s*(?:day|d)|(?:a|per)\s+day)?$`)
	amountRule = regexp.MustCompile(`(?i)^(floor|ceiling)\s+(\S.*?)\s+` + number + `\s*([\pLµ][\pLµ/ ]*)$`)
	bandRule   = regexp.MustCompile(`(?i)^carbohydrates?\s+([^\s–-]+)\s*(?:-|–|to)\s*([^\s–-]*[0-9.,]|nan|inf)\s*g\s*(?:/\s*|per\s+|a\s+)meal$`)
)

// ErrRule is wrapped by every rule that does not follow the grammar.
var ErrRule = errors.New("not a rule")

const ruleForms = "write: no FOOD, most FOOD 50 g/day, least FOOD 50 g/day, floor NUTRIENT 30 mg, ceiling NUTRIENT 2000 mg, or carbohydrate 45-60 g/meal"

// Widest amounts that a rule may set; beyond them it is a slip of the pen.
const (
	maxFoodG    = 5000      // g of one food per day
	maxMealG    = 400       // g of carbohydrate per meal
	maxPerDay   = 1_000_000 // of any nutrient, in its unit
	leastEnergy = 200       // kcal per day
	mostEnergy  = 10_000    // kcal per day
)

func readRules(row *table.Row) []Rule {
	var rules []Rule
	for _, text := range row.List("rules") {
		rule, fix, err := ParseRule(text)
		if err != nil {
			row.FailValue("rules", text, err, fix)
			continue
		}
		if clash := clashes(rules, rule); clash != "" {
			row.FailValue("rules", text, fmt.Errorf("it contradicts %q", clash), "leave one")
			continue
		}
		rules = append(rules, rule)
	}
	return rules
}

// ParseRule reads one rule of the rules column, as written there. On error,
// fix says what to write.
func ParseRule(text string) (rule Rule, fix string, err error) {
	text = strings.Join(strings.Fields(text), " ")
	rule.Text = text
	if m := bandRule.FindStringSubmatch(text); m != nil {
		return parseBand(rule, m[1], m[2])
	}
	if m := amountRule.FindStringSubmatch(text); m != nil {
		return parseAmount(rule, RuleKind(strings.ToLower(m[1])), m[2], m[3], m[4])
	}
	if m := foodRule.FindStringSubmatch(text); m != nil {
		rule.Kind, rule.Food = RuleKind(strings.ToLower(m[1])), m[2]
		amount, fix, err := table.ParseFloat(m[3])
		if err != nil {
			return rule, fix, err
		}
		unit := canonicalUnit(m[4])
		if unit != "g" && unit != "oz" {
			return rule, "write the amount in g", fmt.Errorf("%w: %q for a food", ErrUnit, m[4])
		}
		rule.Low = amount * massMg[unit] / massMg["g"]
		if rule.Low < 0 || rule.Low > maxFoodG || (rule.Low == 0 && rule.Kind == RuleLeast) {
			return rule, fmt.Sprintf("write more than 0 and at most %d g", maxFoodG), table.ErrRange
		}
		return rule, "", nil
	}
	if m := noRule.FindStringSubmatch(text); m != nil {
		rule.Kind, rule.Food = RuleNo, m[1]
		return rule, "", nil
	}
	return rule, ruleForms, ErrRule
}

func parseBand(rule Rule, low, high string) (Rule, string, error) {
	rule.Kind = RuleCarbohydrate
	for _, end := range []struct {
		text string
		into *float64
	}{{low, &rule.Low}, {high, &rule.High}} {
		v, fix, err := table.ParseFloat(end.text)
		if err != nil {
			return rule, fix, err
		}
		*end.into = v
	}
	switch {
	case rule.Low > rule.High:
		return rule, fmt.Sprintf("write carbohydrate %s-%s g/meal", high, low), errors.New("the band is upside down: its low end is above its high end")
	case rule.Low <= 0 || rule.High > maxMealG:
		return rule, fmt.Sprintf("write more than 0 and at most %d g a meal", maxMealG), table.ErrRange
	}
	return rule, "", nil
}

func parseAmount(rule Rule, kind RuleKind, name, amount, unit string) (Rule, string, error) {
	rule.Kind = kind
	n, near, ok := FindNutrient(name)
	switch {
	case !ok:
		if near == "" {
			near = "see the names in the output of needs"
		}
		return rule, near, fmt.Errorf("%w: nutrient %q", table.ErrUnknownWord, name)
	case n == Water:
		return rule, "leave the rule out: drinking water is planned from the water requirement", errors.New("water is no nutrient of a rule")
	case n == VitaminDIU:
		n = VitaminD // one limit for one vitamin
	case n == Ash || n == VitaminAIU:
		return rule, "name another nutrient, such as vitamin_a or retinol", fmt.Errorf("%s has no requirement", n)
	}
	rule.Nutrient = n
	value, fix, err := table.ParseFloat(amount)
	if err != nil {
		return rule, fix, err
	}
	if rule.Low, err = ToColumn(n, value, unit); err != nil {
		return rule, fmt.Sprintf("write %s in %s", n, n.Unit()), err
	}
	lo, hi := 0.0, float64(maxPerDay)
	if n == Energy {
		lo, hi = leastEnergy, mostEnergy
	}
	if rule.Low < lo || rule.Low > hi || (rule.Low == 0 && kind == RuleFloor) {
		return rule, "write an amount per day that a person could eat", table.ErrRange
	}
	return rule, "", nil
}

// FindNutrient returns the nutrient that a person calls name: its name in any
// case, with spaces or hyphens for underscores, or "fiber". Otherwise fix
// suggests what name may have been meant to be, "" when nothing is near.
func FindNutrient(name string) (n Nutrient, fix string, ok bool) {
	word := strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(strings.TrimSpace(name)))
	if word == "fiber" {
		word = Fibre.Name()
	}
	if n, ok := ByName(word); ok {
		return n, "", true
	}
	var names []string
	for n := range Count {
		names = append(names, n.Name())
	}
	return 0, table.Suggest(word, names), false
}

// clashes returns the rule of rules that rule repeats or contradicts, "" when
// none does.
func clashes(rules []Rule, rule Rule) string {
	for _, old := range rules {
		low, high := old, rule
		if rule.Kind == RuleFloor || rule.Kind == RuleLeast {
			low, high = rule, old
		}
		switch {
		case !strings.EqualFold(old.Food, rule.Food) || old.Nutrient != rule.Nutrient: // about something else
		case old.Kind == rule.Kind,
			low.Kind == RuleFloor && high.Kind == RuleCeiling && low.Low > high.Low,
			low.Kind == RuleLeast && high.Kind == RuleMost && low.Low > high.Low,
			low.Kind == RuleLeast && high.Kind == RuleNo:
			return old.Text
		}
	}
	return ""
}

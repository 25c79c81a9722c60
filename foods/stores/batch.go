package stores

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"rationwright/foods"
)

// Batch is goods alike that were bought, packed or filled together and lie in
// one place.
type Batch struct {
	// Renewal is the key of renewal.csv for water, bleach, batteries and the
	// like; "" for a pack of food.
	Renewal string
	Pack    string // key of the pack; for other goods a word for them
	Name    string // of the food, or of the goods
	Count   float64
	Unit    string // of Count where it is not packs: L, piece …
	Place   string

	BestBefore string // printed date, ISO; "" none or not known
	Since      string // day of buying, packing or filling, ISO; "" not known
	Opened     string // day of opening, ISO; "" unopened

	Keeping *foods.Keeping // of the food; nil not known
	Infant  bool           // infant food: the printed date must never be passed
}

// BatchOf returns a line of stock as a batch.
func BatchOf(line foods.StockLine) Batch {
	b := Batch{Count: line.Count, BestBefore: line.BestBefore, Place: line.Place, Opened: line.Opened}
	if p := line.Pack; p != nil {
		b.Pack = p.Key
		if f := p.Food; f != nil {
			b.Name, b.Keeping, b.Infant = f.Name, f.Keeping, infantForm(f.Form)
		}
	}
	return b
}

// NewBatch returns count packs bought on the day bought (ISO), as a batch
// without a printed date.
func NewBatch(p *foods.Pack, count float64, bought, place string) Batch {
	b := BatchOf(foods.StockLine{Pack: p, Count: count, Place: place})
	b.Since = bought
	return b
}

// infantForm reports whether a form of food is for infants, by the forms of
// things.csv.
func infantForm(form string) bool {
	return slices.ContainsFunc(things(), func(t thing) bool {
		return (t.tag == "formula" || t.tag == "baby-food") && slices.Contains(t.forms, form)
	})
}

// UID is the lasting identity of the batch: it holds the goods, the batch's
// own date, its place and whether it is opened, never how many there are nor
// when it is due, so that an updated stock list keeps its events.
func (b *Batch) UID() string {
	fold := func(s string) string { return strings.ToLower(strings.TrimSpace(s)) }
	parts := []string{fold(b.Renewal), fold(b.Pack), cmp.Or(b.BestBefore, b.Since), fold(b.Place), b.Opened}
	sum := sha256.Sum256([]byte(strings.Join(parts, "\x1f")))
	return hex.EncodeToString(sum[:16]) + uidDomain
}

// uidDomain marks the program's own events.
const uidDomain = "@rationwright"

// Due is the last day on which a batch is used as it is.
type Due struct {
	Day    time.Time
	Known  bool   // false: nothing tells a date
	Safety bool   // past the day it must not be used; else it is a matter of quality
	Rule   string // in words
	Ref
}

// DueOn returns the day by which the batch is used, kept at a steady tempC.
// The printed date rules where there is one; above 21 °C the time left until
// it, from the day of buying or, when that is not known, from start, is
// shortened by [KeepingFactor], and never lengthened below. Without a printed
// date the keeping time of the food counts from the day of buying, unless the
// food's printed date is binding: then nothing is known. An opened pack is due
// by [foods.Keeping.LastOpenDay], if that is sooner.
//
// Errors wrap [ErrDay] and [ErrTooHot].
func (b *Batch) DueOn(start time.Time, tempC float64) (Due, error) {
	due, err := b.sealedDue(start, tempC)
	if err != nil || b.Opened == "" {
		return due, err
	}
	opened, err := parseDay(b.Opened)
	if err != nil {
		return Due{}, err
	}
	if b.Keeping == nil || b.Keeping.AfterOpenHours <= 0 {
		return Due{Day: opened, Known: true, Safety: true, Rule: "opened, and nothing tells how long it keeps: the day of opening"}, nil
	}
	k := b.Keeping
	day := k.LastOpenDay(opened)
	if due.Known && due.Day.Before(day) {
		return due, nil
	}
	return Due{
		Day: day, Known: true, Safety: k.AfterOpenBasis == "safety",
		Rule: fmt.Sprintf("opened: %g h without a refrigerator", k.AfterOpenHours), Ref: Ref{k.Source, k.Verified},
	}, nil
}

func (b *Batch) sealedDue(start time.Time, tempC float64) (Due, error) {
	factor, err := KeepingFactor(tempC)
	if err != nil {
		return Due{}, err
	}
	since, known := start, b.Since != ""
	if known {
		if since, err = parseDay(b.Since); err != nil {
			return Due{}, err
		}
	}
	if b.Renewal != "" {
		return b.renewalDue(since, known)
	}
	var ref Ref
	if b.Keeping != nil {
		ref = Ref{b.Keeping.Source, b.Keeping.Verified}
	}
	if b.BestBefore != "" {
		label, err := parseDay(b.BestBefore)
		if err != nil {
			return Due{}, err
		}
		due := Due{Day: label, Known: true, Safety: b.Infant, Rule: "printed date", Ref: Ref{"label", "printed on the pack"}}
		if left := daysBetween(since, label); factor < 1 && left > 0 {
			due.Day = since.AddDate(0, 0, int(math.Floor(float64(left)*factor)))
			due.Rule = fmt.Sprintf("printed date %s, brought forward for storage at %g °C", b.BestBefore, tempC)
			_, due.Ref = temperatureRule("halving")
		}
		return due, nil
	}
	switch {
	case b.Keeping == nil:
		return Due{Rule: "no printed date is noted and the food's keeping time is not known"}, nil
	case b.Infant || b.Keeping.UseByMonths <= 0:
		return Due{Rule: "the printed date rules: note it as best_before", Ref: ref}, nil
	case !known:
		return Due{Rule: "neither a printed date nor the day of buying is noted", Ref: ref}, nil
	}
	days, err := KeepingDays(b.Keeping.UseByMonths, tempC)
	if err != nil {
		return Due{}, err
	}
	return Due{
		Day: since.AddDate(0, 0, days), Known: true, Ref: ref,
		Rule: fmt.Sprintf("%g months at 21 °C from buying, stored at %g °C", b.Keeping.UseByMonths, tempC),
	}, nil
}

// renewalDue is the due day of water, batteries and the like: the printed
// date, or the months of renewal.csv from since, whichever is sooner.
func (b *Batch) renewalDue(since time.Time, known bool) (Due, error) {
	r, ok := RenewalByKey(b.Renewal)
	if !ok {
		return Due{Rule: "no rule of renewal for " + b.Renewal}, nil
	}
	due := Due{Rule: r.Action, Ref: r.Ref}
	if r.Months > 0 && known {
		due.Day, due.Known = since.AddDate(0, 0, int(math.Floor(r.Months*DaysPerMonth))), true
	}
	if b.BestBefore != "" {
		label, err := parseDay(b.BestBefore)
		if err != nil {
			return Due{}, err
		}
		if !due.Known || label.Before(due.Day) {
			due.Day, due.Known, due.Rule = label, true, "printed date"
			due.Ref = Ref{"label", "printed on the pack"}
		}
	}
	return due, nil
}

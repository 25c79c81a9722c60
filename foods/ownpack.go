package foods

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// sizePart is the part of a pack's key that gives its size.
var sizePart = regexp.MustCompile(`^[0-9.]+(?:g|l|ml)$`)

// containerWords are the words that people write for containers, and the ends of
// the table's pack keys that are such containers, the likeliest first.
var containerWords = map[string][]string{
	"can": {"can"}, "tin": {"can"}, "jar": {"jar"}, "bottle": {"bottle", "jar"}, "box": {"box", "canister"}, "bag": {"bag", "pouch", "box"},
	"sack": {"bag"}, "carton": {"carton", "box"}, "pouch": {"pouch", "bag"}, "packet": {"bag", "box", "pouch"}, "pack": {"bag", "box", "pouch", "carton"},
	"package": {"bag", "box", "pouch", "carton"}, "sachet": {"pouch", "bag"}, "tub": {"jar", "canister"}, "tube": {"jar", "can"},
	"canister": {"canister", "jar"}, "bar": {"bag", "box"}, "drum": {"canister", "box"}, "bucket": {"jar", "bag"},
}

// isContainerWord reports whether word is one for a container.
func isContainerWord(word string) bool { return containerWords[fold(word)] != nil }

// containerOf is the word at the end of the key of a pack of the table.
func containerOf(p *Pack) string {
	key := strings.TrimSuffix(p.Key, ownSuffix)
	return key[strings.LastIndexByte(key, '-')+1:]
}

// ownSuffix ends the keys that are made for packs of one's own: none of the table's
// has it.
const ownSuffix = "-own"

// keyStem is the key of a pack without its size and container.
func keyStem(p *Pack) string {
	parts := strings.Split(p.Key, "-")
	for i, part := range parts {
		if i > 0 && sizePart.MatchString(part) {
			return strings.Join(parts[:i], "-")
		}
	}
	return p.Key
}

// packsOf returns all packs of a food, of every market, in the container that word
// names where there are such; "" is any.
func packsOf(t *Table, f *Food, container string) []*Pack {
	var all []*Pack
	for _, p := range t.Packs {
		if p.Food == f {
			all = append(all, p)
		}
	}
	for _, as := range containerWords[fold(container)] {
		in := slices.DeleteFunc(slices.Clone(all), func(p *Pack) bool { return containerOf(p) != as })
		if len(in) > 0 {
			return in
		}
	}
	return all
}

// tareGrowth is the power with which the weight of a container grows with what it
// holds: as the skin of a like shape, see data/README.md.
const tareGrowth = 2.0 / 3

// sizedPack makes a pack of one's own of f with labelG grams on its label, in the
// container that word names ("" as the nearest pack). It is the pack of the table
// nearest in size, of f or of the food that it is like: the share that is eaten as
// there, the box in proportion, the tare by the two-thirds power, never less room
// than the food takes loose. Without such a pack it is the box around a round jar of
// that food, whose weight is not known.
func sizedPack(t *Table, f *Food, labelG float64, container string) *Pack {
	of := f
	packs := packsOf(t, of, container)
	if len(packs) == 0 && f.Like != "" {
		if like := t.byNDB(f.Like); like != nil {
			of, packs = like, packsOf(t, like, container)
		}
	}
	density, loose := t.looseDensity(of, "")
	if !loose {
		density = 1 // as water
	}
	word, stem := fold(container), slug(f.Name)
	if word == "tin" {
		word = "can"
	}
	p := &Pack{Food: f, LabelG: labelG, NetG: labelG, GrossG: labelG, Basis: f.Basis, Own: true}
	if len(packs) == 0 {
		p.VolumeL = labelG / density / 1000 * jarBox
		p.Note = "the container is not weighed; litres of the box around a round jar, from the density of the food"
		word = cmp.Or(word, "pack")
	} else {
		apart := func(p *Pack) float64 { return math.Abs(math.Log(p.LabelG / labelG)) }
		near := slices.MinFunc(packs, func(a, b *Pack) int { return cmp.Compare(apart(a), apart(b)) })
		scale := labelG / near.LabelG
		p.NetG, p.VolumeL, p.TareG = near.NetG*scale, near.VolumeL*scale, math.Round(near.TareG*math.Pow(scale, tareGrowth))
		if loose {
			p.VolumeL = max(p.VolumeL, labelG/density/1000)
		}
		p.Basis, p.EasyOpen = near.Basis, near.EasyOpen
		p.Note = "share eaten, box and tare from " + near.Key
		word = cmp.Or(word, containerOf(near))
		if of == f {
			stem = keyStem(near)
		}
	}
	p.GrossG = p.LabelG + p.TareG
	p.Key = fmt.Sprintf("%s-%sg-%s%s", stem, plainGrams(labelG), slug(word), ownSuffix)
	return p
}

// plainGrams writes grams for a key: whole, or to a tenth below 100 g.
func plainGrams(g float64) string {
	if g < 100 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", g), ".0")
	}
	return fmt.Sprintf("%.0f", g)
}

// slug is a name as a part of a key: lower-case letters and digits of any script,
// hyphens between the words.
func slug(name string) string {
	between := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	return strings.Join(strings.FieldsFunc(fold(name), between), "-")
}

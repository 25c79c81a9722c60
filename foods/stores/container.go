package stores

import (
	"sync"

	"rationwright/foods"
)

// Container is one row of packages.csv: a can, jar, bottle, bag or box as it
// is sold or filled, with its outer size.
type Container struct {
	Key      string `json:"key"`
	Kind     string `json:"kind"` // can jar bottle canister carton pouch bag box case
	Name     string `json:"name"`
	Material string `json:"material"`
	Round    bool   `json:"round"` // stands as a cylinder: LengthMM and WidthMM are its diameter

	LengthMM float64 `json:"length_mm"`
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm"`

	NetG   float64 `json:"net_g"`  // contents when full
	NetML  float64 `json:"net_ml"` // 0 when it is sold by weight
	TareG  float64 `json:"tare_g"` // empty
	BoxL   float64 `json:"box_l"`  // litres of the upright box around it
	Holds  string  `json:"typical_contents"`
	Note   string  `json:"note,omitempty"`
	Memory bool    `json:"from_memory_sizes"` // its outer size is from memory
	Ref
}

// GrossG is the mass of the full container in g.
func (c *Container) GrossG() float64 { return c.NetG + c.TareG }

// Glass reports whether the container is, or may be, glass.
func (c *Container) Glass() bool { return c.Material == "glass" || c.Material == "PP or glass" }

// packages returns the rows of packages.csv, which the food table reads too.
func packages() []row {
	text, err := foods.DataFile("packages.csv")
	return parse("foods/data/packages.csv", text, err)
}

var containers = sync.OnceValue(func() []Container {
	outer := map[string]row{}
	for _, r := range rows("outer") {
		outer[r.Text("id")] = r
	}
	var all []Container
	for _, r := range packages() {
		c := Container{
			Key: r.Text("id"), Kind: r.Text("kind"), Name: r.Text("name"), Material: r.Text("material"),
			Round: r.Text("shape") == "cylinder", HeightMM: r.must("height_mm"),
			NetG: r.must("net_g"), TareG: r.must("tare_g"), Holds: r.Text("typical_contents"),
			Note: r.Text("note"), Ref: r.ref(),
		}
		c.NetML, _ = r.number("net_ml")
		if o, ok := outer[c.Key]; ok {
			c.Round = false
			c.LengthMM, c.WidthMM, c.HeightMM = o.must("length_mm"), o.must("width_mm"), o.must("height_mm")
		} else if c.Round {
			c.LengthMM = r.must("diameter_mm")
			c.WidthMM = c.LengthMM
		} else {
			c.LengthMM, c.WidthMM = r.must("length_mm"), r.must("width_mm")
		}
		c.Memory = c.FromMemory()
		c.BoxL = c.LengthMM * c.WidthMM * c.HeightMM / mm3PerLitre
		all = append(all, c)
	}
	return all
})

// mm3PerLitre is exact: 1 L is 1 dm³.
const mm3PerLitre = 1e6

// ContainerByKey returns the container with the key of packages.csv.
func ContainerByKey(key string) (c *Container, ok bool) {
	all := containers()
	for i := range all {
		if all[i].Key == key {
			return &all[i], true
		}
	}
	return nil, false
}

package stores

import "sync"

// RenewedGoods is how many of the goods of a renewal a kit holds.
type RenewedGoods struct {
	Key   string  // of [Renewals]
	Count float64 // in the unit of the kit's lines
}

// kitRenewals are the supplies of kit.csv that are renewed, by renewal: the
// rows of kit_renewal.csv.
var kitRenewals = sync.OnceValue(func() map[string]string {
	all := map[string]string{}
	for _, r := range rows("kit_renewal") {
		all[r.Text("kit")] = r.Text("renewal")
	}
	return all
})

// RenewedKit returns the goods of a kit that are renewed, in the order of
// [Renewals], those that go by one renewal added up. A supply without a
// quantity counts as one.
func RenewedKit(kit []KitLine) []RenewedGoods {
	count := map[string]float64{}
	for _, line := range kit {
		if key, ok := kitRenewals()[line.ID]; ok {
			count[key] += float64(max(1, line.Quantity))
		}
	}
	var goods []RenewedGoods
	for _, r := range renewals() {
		if n := count[r.Key]; n > 0 {
			goods = append(goods, RenewedGoods{r.Key, n})
		}
	}
	return goods
}

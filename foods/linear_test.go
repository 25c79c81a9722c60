package foods

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkReaders reads own foods and unknown packs; ten times the rows should take
// about ten times as long.
func BenchmarkReaders(b *testing.B) {
	for _, n := range []int{200, 2_000, 20_000} {
		own := strings.Builder{}
		own.WriteString("ndb,name,group,form,allergens,tags,texture,energy_kcal,protein_g,fat_g,carbohydrate_g\n")
		stock := strings.Builder{}
		stock.WriteString("pack,count,best_before\n")
		for i := range n {
			fmt.Fprintf(&own, "U%05d,own food number %d,milk,ghee,none,none,soft,350,8,2,75\n", i, i)
			fmt.Fprintf(&stock, "no-such-pack-%d,1,\n", i)
		}
		b.Run(fmt.Sprintf("foods/%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := load(b).ReadFoods("own.csv", strings.NewReader(own.String())); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("unknown packs/%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := load(b).ReadStock("stock.csv", strings.NewReader(stock.String())); err == nil {
					b.Fatal("unknown packs were taken")
				}
			}
		})
	}
}

package table_test

import (
	"fmt"
	"strings"

	"rationwright/nutrients/table"
)

func Example() {
	format := table.Format{
		Row:     "price",
		Columns: []table.Column{{Name: "pack", Presence: table.Filled}, {Name: "price", Presence: table.Filled}},
	}
	file := "pack,price\nrice-1kg,2.40\noats-500g,\"1,80\"\n,3\n"
	t, _ := format.Read("prices.csv", strings.NewReader(file))
	for _, row := range t.Rows {
		if price, ok := row.Float("price", 0, 1000); ok {
			fmt.Println(row.Text("pack"), price)
		}
	}
	fmt.Println(t.Err())
	// Output:
	// rice-1kg 2.4
	//  3
	// prices.csv:3:11: price "1,80": not a number: it has a decimal comma; write 1.80
	// prices.csv:4:1: pack "": empty; every price needs it
}

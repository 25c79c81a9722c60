package foods

import "testing"

// What is in a file stays as it was written, byte by byte where no column is new, cell
// by cell where one is; the new row has its cells under the columns of the file.
func TestAddRow(t *testing.T) {
	beans := []Cell{{"name", "beans"}, {"price", ""}, {"grams", "400"}}
	for _, test := range []struct{ name, in, want string }{
		{"a new file", "", "name,grams\nbeans,400\n"},
		{"quotes stay", "\"grams\", Name \n\"500\",\"rice\"\n", "\"grams\", Name \n\"500\",\"rice\"\n400,beans\n"},
		{"no line end at the end", "name,grams\nrice,500", "name,grams\nrice,500\nbeans,400\n"},
		{"CRLF", "name,grams\r\nrice,500", "name,grams\r\nrice,500\r\nbeans,400\r\n"},
		{"byte order mark", "\ufeffname,grams\n", "\ufeffname,grams\nbeans,400\n"},
		{"other columns", "place,grams,name\nattic,500,rice\n", "place,grams,name\nattic,500,rice\n,400,beans\n"},
		{"a new column", "\"name\"\nrice\n", "name,grams\nrice,\nbeans,400\n"},
		{"a new column, CRLF", "\ufeffname\r\nrice\r\n", "\ufeffname,grams\r\nrice,\r\nbeans,400\r\n"},
		{"a new column beside ragged rows", "name,place\nrice\nsalt,attic,500\noats,attic,1,2\n",
			"name,place,grams\nrice,,\nsalt,attic,500\noats,attic,1,2\nbeans,,400\n"},
		{"ragged rows stay", "name,grams\nrice\nsalt,1,2\n", "name,grams\nrice\nsalt,1,2\nbeans,400\n"},
	} {
		got, err := AddRow([]byte(test.in), beans)
		if err != nil || string(got) != test.want {
			t.Errorf("%s: %q, %v, want %q", test.name, got, err, test.want)
		}
	}
	if got, err := AddRow([]byte("name\n"), []Cell{{"name", "beans, dry"}}); err != nil || string(got) != "name\n\"beans, dry\"\n" {
		t.Errorf("a comma: %q, %v", got, err)
	}
	for _, broken := range []string{"\"name\nrice\n", "name\n\"rice\n"} {
		if got, err := AddRow([]byte(broken), beans); err == nil {
			t.Errorf("%q is no CSV, and became %q", broken, got)
		}
	}
}

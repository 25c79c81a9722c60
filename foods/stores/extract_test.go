package stores

import (
	"testing"

	"rationwright/nutrients/table/tabletest"
)

// Every cell that is no source, mark or note is that of the extract in
// testdata, which was taken from the published tables.
func TestTablesEqualTheirExtracts(t *testing.T) {
	tabletest.EqualExtracts(t, files, "../../testdata/stores/extract")
}

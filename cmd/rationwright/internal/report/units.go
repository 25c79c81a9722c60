package report

import (
	"rationwright/cmd/rationwright/internal/sheet"
)

// Units is the system of weights and volumes in tables; see [sheet.Units].
type Units = sheet.Units

package batch

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
)

// mostPlain is how much of an id a file name shows, in bytes.
const mostPlain = 60

// PageName is the name of the file of a household's page. An id of letters, digits,
// hyphens and underscores stands in it as it is; of another only these do, with a
// digest behind, so that two ids never share a file: ids that differ in case alone, as
// some systems' names do, are the same to a register.
func PageName(id string) string {
	const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"
	name := strings.Map(func(c rune) rune {
		if strings.ContainsRune(plain, c) {
			return c
		}
		return -1
	}, id)
	if name != id || len(id) > mostPlain {
		sum := sha256.Sum256([]byte(id))
		name = name[:min(len(name), mostPlain)] + "~" + hex.EncodeToString(sum[:8])
	}
	return "household-" + name + ".html"
}

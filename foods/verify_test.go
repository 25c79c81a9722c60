package foods

import "testing"

func TestVerifyEmbedded(t *testing.T) {
	for _, f := range Verify(load(t)) {
		if f.Severity != Info {
			t.Errorf("%v", f)
		}
	}
}

package linear_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"rationwright/solver/linear"
)

// FuzzReadMPS wants no panic, a located error or a valid problem, and that a
// problem read, written and read again is the same.
func FuzzReadMPS(f *testing.F) {
	for _, name := range []string{"afiro", "galenet", "p0033", "flugpl"} {
		data, err := os.ReadFile(filepath.Join(mpsFolder, name+".mps"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, s := range []string{
		"", "NAME", "\ufeffNAME x\r\nROWS\r\n N c\r\nCOLUMNS\r\n x c 1\r\nENDATA\r\n",
		twoRows + "RHS\n b most 1e30\nRANGES\n r equal -2 most 3\nBOUNDS\n UP b x -1\n BV b y\nENDATA\n",
		"ROWS\n N c\nCOLUMNS\n M 'MARKER' 'INTORG'\n x c 1,5\n M 'MARKER' 'INTEND'\nENDATA\n",
		"* In names of this file %XX stands for the byte with that hexadecimal number.\nNAME a%20b\nROWS\n N c\n L r%0A\nCOLUMNS\n x%2 r%0A 1\nENDATA\n",
		"NAME\nROWS\n" + fixedCard("N", "cost a d", "", "", "", "") + "COLUMNS\n" + fixedCard("", "dry figs", "cost a d", "1.5", "", "") + "ENDATA\n",
		"ROWS\n N c\n L r\nCOLUMNS\n x c 0x1p-2 r 1_000\nBOUNDS\n UP b x nan\n SC b x 1\n UP x\n FR\nENDATA\n",
		"ROWS\n E r\nCOLUMNS\n x r 1\nRHS\n b r -1.00000000000000022\nRANGES\n g r 2.0000000000000006661338147750939\nENDATA\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := linear.ReadMPS(context.Background(), "f", bytes.NewReader(data))
		if err != nil {
			var all linear.SyntaxErrors
			if !errors.As(err, &all) || len(all) == 0 || len(all) > linear.MaxErrors+1 {
				t.Fatalf("not syntax errors: %v", err)
			}
			for _, e := range all {
				if e.Line < 1 || e.Column < 1 || e.Problem == "" || e.Remedy == "" {
					t.Errorf("error without place or remedy: %v", e)
				}
			}
			return
		}
		if err := m.Problem.Validate(); err != nil {
			t.Fatal(err)
		}
		_ = m.Problem.String()
		roundTrip(t, m.Problem)
	})
}

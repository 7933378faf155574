package midi

import (
	"encoding/hex"
	"testing"
)

// Standard MIDI Files 1.0, the table of variable-length quantities.
var varLens = []struct {
	n    uint32
	want string
}{
	{0x00, "00"}, {0x40, "40"}, {0x7F, "7f"}, {0x80, "8100"}, {0x2000, "c000"}, {0x3FFF, "ff7f"}, {0x4000, "818000"},
	{0x100000, "c08000"}, {0x1FFFFF, "ffff7f"}, {0x200000, "81808000"}, {0x8000000, "c0808000"}, {0x0FFFFFFF, "ffffff7f"},
}

func TestVariableLengthQuantities(t *testing.T) {
	for _, c := range varLens {
		written := appendVarLen(nil, c.n)
		if got := hex.EncodeToString(written); got != c.want {
			t.Errorf("%#x is written %s, want %s", c.n, got, c.want)
		}
		n, rest, err := varLen(append(written, 0x55))
		if err != nil || n != int(c.n) || len(rest) != 1 {
			t.Errorf("%s is read as %#x, %d bytes left, %v", c.want, n, len(rest), err)
		}
	}
	if _, _, err := varLen([]byte{0x81, 0x80, 0x80, 0x80, 0x00}); err == nil {
		t.Error("a quantity of five bytes was read")
	}
}

// Standard MIDI Files 1.0: 500,000 microseconds are 120 quarter notes a minute.
func TestTempoEvent(t *testing.T) {
	for tempo, want := range map[float64]string{120: "07a120", 60: "0f4240", 84: "0ae62e"} {
		if got := hex.EncodeToString(tempoBytes(tempo)); got != want {
			t.Errorf("tempo %g is %s, want %s", tempo, got, want)
		}
	}
}

package finger_test

import (
	"errors"
	"testing"

	"heddle/finger"
	"heddle/pitch"
)

func TestParsePickingReadsEachTechnique(t *testing.T) {
	for text, want := range map[string]finger.Picking{
		"alternate": finger.Alternate, " Alternate picking ": finger.Alternate,
		"economy": finger.Economy, "ECONOMY": finger.Economy,
		"legato": finger.Legato,
	} {
		if got, err := finger.ParsePicking(text); got != want || err != nil {
			t.Errorf("%q: %q, %v; want %q", text, got, err, want)
		}
	}
}

func TestParsePickingSuggestsTheNearest(t *testing.T) {
	for text, want := range map[string]string{
		"alternat": "alternate", "altrenate": "alternate", "econmy": "economy", "legatto": "legato",
		"": "", "tremolo": "", "sweep": "",
	} {
		_, err := finger.ParsePicking(text)
		var input *pitch.InputError
		if !errors.As(err, &input) || input.Nearest != want || input.Value != text {
			t.Errorf("%q: %v, want the nearest to be %q", text, err, want)
		}
	}
}

func FuzzParsePicking(f *testing.F) {
	for _, text := range []string{"alternate", "economy picking", "LEGATO", "altrenate", "", "pick\xff"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := finger.ParsePicking(text)
		if (err == nil) == (p == "") {
			t.Fatalf("%q: %q with error %v", text, p, err)
		}
		if err == nil {
			if again, err := finger.ParsePicking(string(p)); again != p || err != nil {
				t.Fatalf("%q: %q does not read back: %q, %v", text, p, again, err)
			}
		}
	})
}

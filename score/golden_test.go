package score

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "write the golden pictures anew; look at each of them afterwards")

// goldenNecks are the cases whose neck is worth a picture of its own.
var goldenNecks = map[string]bool{
	"worked-example": true, "eight-strings": true, "left-handed-dark": true, "four-string-bass": true, "four-scales-over-changes": true,
}

func TestGoldenPictures(t *testing.T) {
	cases := hardCases(t)
	if len(cases) < 12 {
		t.Fatalf("only %d hard cases", len(cases))
	}
	for _, c := range cases {
		golden(t, c.name, Sheet(c.exercise, c.options))
		if goldenNecks[c.name] {
			golden(t, c.name+"-neck", Neck(c.exercise, c.options))
		}
	}
	worked := workedExample(t)
	golden(t, "worked-example-strip", Strip(worked, Options{}))
	pages, err := Pages(worked, Options{Title: "Out and back in G minor"})
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "worked-example-page", pages[0])
}

// golden holds a drawing's SVG to the picture in testdata; a missing picture
// fails.
func golden(t *testing.T, name string, d Drawing) {
	t.Helper()
	var got bytes.Buffer
	if err := WriteSVG(&got, d); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("testdata", "golden", name+".svg")
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Errorf("%v; go test ./score -run Golden -update writes it", err)
		return
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("%s has changed: go test ./score -run Golden -update, then look at it", file)
	}
}

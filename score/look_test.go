package score

import (
	"os"
	"testing"
)

func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("LOOK is not set")
	}
	ex := workedExample(t)
	d := Sheet(ex, Options{})
	f, _ := os.Create(dir + "/sheet.png")
	if err := WritePNG(f, d, 160); err != nil {
		t.Fatal(err)
	}
	f.Close()
	f, _ = os.Create(dir + "/sheet.svg")
	WriteSVG(f, d)
	f.Close()
}

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
	show := func(name string, d Drawing) {
		f, _ := os.Create(dir + "/" + name + ".png")
		if err := WritePNG(f, d, 200); err != nil {
			t.Fatal(err)
		}
		f.Close()
		f, _ = os.Create(dir + "/" + name + ".svg")
		WriteSVG(f, d)
		f.Close()
	}
	show("sheet", Sheet(ex, Options{}))
	show("neck", Neck(ex, Options{}))
	show("neckwhole", Neck(ex, Options{Whole: true, Labels: DegreeLabels}))
	ex.Instrument.Left = true
	show("neckleft", Neck(ex, Options{Theme: BlackAndWhite}))
}

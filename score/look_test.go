package score

import (
	"os"
	"testing"

	"heddle/neck"
	"heddle/pitch"
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
	show("strip", Strip(ex, Options{Width: 240}))
	show("map", Map(ex.Instrument, neck.Near(ex.Instrument, ex.Scales[0].Scale, []pitch.Scale{ex.Scales[1].Scale}, 100), Options{}))
	pages, err := Pages(ex, Options{Title: "Out and back in G minor"})
	if err != nil {
		t.Fatal(err)
	}
	show("page1", pages[0])
	f, _ := os.Create(dir + "/pages.pdf")
	WritePDF(f, pages)
	f.Close()
}

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
	show := func(name string, d Drawing) {
		f, _ := os.Create(dir + "/" + name + ".svg")
		WriteSVG(f, d)
		f.Close()
	}
	for _, c := range hardCases(t) {
		show(c.name, Sheet(c.exercise, c.options))
		show(c.name+"-neck", Neck(c.exercise, c.options))
	}
}

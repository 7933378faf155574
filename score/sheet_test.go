package score

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"heddle/score/internal/examples"
	"heddle/score/surface"
)

// Systems drawn one by one show what the whole sheet shows: each note once, in
// order.
func TestSystemsAreTheSheetInPieces(t *testing.T) {
	ex := examples.Worked(t)
	options := Options{Prefix: "sheet-", Width: 100}
	sheet, systems := Sheet(ex, options), Systems(ex, options)
	if len(systems) < 3 {
		t.Fatalf("%d systems in 100 mm, want several", len(systems))
	}
	height := 0.0
	all := ""
	for _, s := range systems {
		height += s.Height
		var written bytes.Buffer
		if err := surface.WriteSVG(&written, s); err != nil {
			t.Fatal(err)
		}
		all += written.String()
	}
	if d := height - sheet.Height; d > 0.01 || d < -0.01 {
		t.Errorf("the systems are %.2f mm high together, the sheet is %.2f", height, sheet.Height)
	}
	var whole bytes.Buffer
	if err := surface.WriteSVG(&whole, sheet); err != nil {
		t.Fatal(err)
	}
	notes := regexp.MustCompile(`data-note="[0-9]+"`)
	if got, want := strings.Join(notes.FindAllString(all, -1), " "), strings.Join(notes.FindAllString(whole.String(), -1), " "); got != want {
		t.Errorf("the systems show the notes\n%s\nwant\n%s", got, want)
	}
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(all, -1) {
		if ids[m[1]] {
			t.Errorf("the id %s is on the page twice", m[1])
		}
		ids[m[1]] = true
	}
}

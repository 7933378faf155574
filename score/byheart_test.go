package score

import (
	"regexp"
	"strings"
	"testing"

	"heddle/score/fretboard"
	"heddle/score/internal/examples"
	"heddle/score/strip"
	"heddle/score/surface"
)

// By heart, nothing besides the notes gives them away: a page hides the notes, and
// what joins them, until they are heard.
func TestNothingGivesAHiddenLineAway(t *testing.T) {
	ex := examples.Worked(t)
	plain, hidden := Sheet(ex, Options{}), Sheet(ex, Options{ByHeart: true})
	if !strings.Contains(plain.Description, "string 1 fret") {
		t.Fatalf("the open line is described as %q", plain.Description)
	}
	if want := "57 notes, from G minor pentatonic"; !strings.Contains(hidden.Description, want) || strings.Contains(hidden.Description, "fret") || !strings.HasSuffix(hidden.Description, surface.UntilHeard) {
		t.Errorf("the hidden line is described as %q, want %q and no note", hidden.Description, want)
	}
	if strip := strip.Draw(ex, strip.Options{ByHeart: true}); strip.Description != surface.UntilHeard {
		t.Errorf("the hidden strip is described as %q", strip.Description)
	}

	// The strings are whole; otherwise they are broken around each number.
	broken, whole := stringsOf(t, plain), stringsOf(t, hidden)
	systems := strings.Count(svgOf(t, hidden), `class="system"`)
	if len(whole) != 6*systems || len(broken) <= len(whole) {
		t.Errorf("%d strings in %d systems, %d stretches of them with numbers; want 6 in each, unbroken", len(whole), systems, len(broken))
	}

	// Every beam names its notes; every note here has one.
	beamed := map[string]bool{}
	for _, m := range regexp.MustCompile(`class="join" data-note="([0-9 ]+)"`).FindAllStringSubmatch(svgOf(t, hidden), -1) {
		for n := range strings.FieldsSeq(m[1]) {
			beamed[n] = true
		}
	}
	if len(beamed) < len(ex.Notes)-4 { // a last note or one beside a rest has none
		t.Errorf("%d of %d notes have a beam that comes back with them", len(beamed), len(ex.Notes))
	}
	if strings.Contains(svgOf(t, plain), `class="join"`) {
		t.Error("an open line is drawn in more groups than it needs")
	}
}

// stringsOf returns the stretches of the tablature's strings.
func stringsOf(t *testing.T, d surface.Drawing) []string {
	t.Helper()
	var all []string
	for _, m := range regexp.MustCompile(`class="tab">\s*<path d="([^"]+)"`).FindAllStringSubmatch(svgOf(t, d), -1) {
		all = append(all, strings.Split(strings.TrimPrefix(m[1], "M"), "M")...)
	}
	return all
}

func svgOf(t *testing.T, d surface.Drawing) string {
	t.Helper()
	var b strings.Builder
	if err := surface.WriteSVG(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestWhatIsLeftOutIsNotDescribedEither(t *testing.T) {
	ex := examples.Worked(t)
	name := regexp.MustCompile(`\b[A-G][♭♯]?,? string`)
	for _, c := range []struct {
		without       Part
		names, places bool
	}{{0, true, true}, {NoteNames, false, true}, {Tablature, true, false}, {NoteNames | Tablature, false, false}} {
		says := Sheet(ex, Options{Without: c.without}).Description
		if strings.Contains(says, "string") != c.places {
			t.Errorf("without %b the sheet says %q", c.without, says)
		}
		if c.places && name.MatchString(says) != c.names {
			t.Errorf("without %b the sheet says %q", c.without, says)
		}
		if says != strings.TrimSpace(says) {
			t.Errorf("%q has blanks around it", says)
		}
		for _, d := range []surface.Drawing{fretboard.Draw(ex, fretboard.Options{NoNames: !c.names}), strip.Draw(ex, strip.Options{NoNames: !c.names})} {
			if told := name.MatchString(d.Description) || regexp.MustCompile(`^[A-G][♭♯]? `).MatchString(d.Description); told != c.names {
				t.Errorf("without %b %s says %q", c.without, d.Title, d.Description)
			}
		}
	}
	if says := fretboard.Draw(ex, fretboard.Options{Labels: fretboard.NoLabels}).Description; name.MatchString(says) {
		t.Errorf("a neck without labels says %q", says)
	}
}

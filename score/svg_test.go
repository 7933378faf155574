package score

import (
	"bytes"
	"compress/gzip"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"heddle/neck"
	"heddle/pitch"
	"heddle/score/fretboard"
	"heddle/score/internal/examples"
	"heddle/score/strip"
	"heddle/score/surface"
)

// An element of an SVG file: its name and attributes.
type element struct {
	name string
	attr map[string]string
	text string
}

// parseSVG reads a file with the standard library's strict parser.
func parseSVG(t *testing.T, d surface.Drawing) (elements []*element, file []byte) {
	t.Helper()
	var out bytes.Buffer
	if err := surface.WritePageSVG(&out, d); err != nil {
		t.Fatal(err)
	}
	decoder := xml.NewDecoder(bytes.NewReader(out.Bytes()))
	var open []*element
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return elements, out.Bytes()
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := token.(type) {
		case xml.StartElement:
			e := &element{name: tok.Name.Local, attr: map[string]string{}}
			for _, a := range tok.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			elements, open = append(elements, e), append(open, e)
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].text += string(tok)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}

// views returns the four views of an exercise that share a page.
func views(t testing.TB) map[string]surface.Drawing {
	ex := examples.Worked(t)
	pairs := neck.Near(ex.Instrument, ex.Scales[0].Scale, []pitch.Scale{ex.Scales[1].Scale}, 100)
	if len(pairs) == 0 {
		t.Fatal("no pairs of placements")
	}
	return map[string]surface.Drawing{
		"score": Sheet(ex, Options{Prefix: "score-"}),
		"neck":  fretboard.Draw(ex, fretboard.Options{Prefix: "neck-"}),
		"strip": strip.Draw(ex, strip.Options{Prefix: "strip-"}),
		"map":   fretboard.Map(ex.Instrument, pairs, 1, fretboard.Options{Prefix: "map-"}),
	}
}

func TestIdsAreUniqueOverAllViewsOfAPage(t *testing.T) {
	seen := map[string]string{}
	for view, d := range views(t) {
		elements, _ := parseSVG(t, d)
		for _, e := range elements {
			id := e.attr["id"]
			if id == "" {
				continue
			}
			if !strings.HasPrefix(id, d.Prefix) {
				t.Errorf("%s: id %q lacks the prefix", view, id)
			}
			if other := seen[id]; other != "" {
				t.Errorf("id %q is in %s and in %s", id, other, view)
			}
			seen[id] = view
		}
	}
	if seen["score-n0"] == "" || seen["score-n56"] == "" {
		t.Error("the first or the last note has no id")
	}
}

func TestEveryNoteCanBeLitInEveryView(t *testing.T) {
	notes := examples.Worked(t).Notes
	count := len(notes)
	for view, d := range views(t) {
		if view == "map" {
			continue
		}
		lit := map[string]bool{}
		elements, _ := parseSVG(t, d)
		spots := map[string]bool{}
		for _, e := range elements {
			lit[e.attr["data-note"]] = true
			spots[e.attr["id"]] = true
		}
		delete(lit, "")
		if view == "neck" {
			for i, n := range notes {
				if !spots[d.Prefix+fretboard.SpotID(n.Spot)] {
					t.Errorf("the neck has no spot for note %d", i)
				}
			}
			continue
		}
		for n := range count {
			if !lit[strconv.Itoa(n)] {
				t.Errorf("%s: no element has data-note %d", view, n)
			}
		}
		if len(lit) != count {
			t.Errorf("%s lights %d notes of %d", view, len(lit), count)
		}
	}
}

// A page's Content-Security-Policy blocks inline style and script.
func TestNothingIsInline(t *testing.T) {
	for view, d := range views(t) {
		elements, file := parseSVG(t, d)
		for _, e := range elements {
			if e.name == "style" || e.name == "script" || e.name == "foreignObject" {
				t.Errorf("%s holds a %s element", view, e.name)
			}
			for name := range e.attr {
				if name == "style" || strings.HasPrefix(name, "on") {
					t.Errorf("%s: a %s has the attribute %s", view, e.name, name)
				}
			}
		}
		if bytes.Contains(file, []byte("://")) && !bytes.Contains(bytes.ReplaceAll(file, []byte("http://www.w3.org/2000/svg"), nil), []byte("<svg")) {
			t.Errorf("%s refers to another host", view)
		}
	}
}

func TestScreenReadersHearWhatIsShown(t *testing.T) {
	for view, d := range views(t) {
		elements, _ := parseSVG(t, d)
		root := elements[0]
		if root.attr["role"] != "img" {
			t.Errorf("%s: role is %q", view, root.attr["role"])
		}
		byID := map[string]string{}
		for _, e := range elements {
			byID[e.attr["id"]] = e.text
		}
		if byID[root.attr["aria-labelledby"]] == "" || byID[root.attr["aria-describedby"]] == "" {
			t.Errorf("%s has no title or no description", view)
		}
	}
	score := views(t)["score"].Description
	for _, want := range []string{"4/4", "57 notes", "G minor pentatonic and A♭ minor pentatonic", "F string 1 fret 13", "C♭ string 2 fret 12"} {
		if !strings.Contains(score, want) {
			t.Errorf("the score's description lacks %q: %.200s", want, score)
		}
	}
}

// A page may have 100 KB compressed; the pictures may take a third of it.
func TestPicturesAreSmall(t *testing.T) {
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	for _, d := range views(t) {
		if err := surface.WritePageSVG(z, d); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	if size := packed.Len(); size > 33<<10 {
		t.Errorf("score, neck, strip and map take %d bytes compressed", size)
	}
}

func TestTextIsMadeSafe(t *testing.T) {
	ex := examples.Worked(t)
	nasty := "<script>\"&'\x00\xff\x1b </title>"
	d := Sheet(ex, Options{Title: nasty, Prefix: "\"><x "})
	elements, file := parseSVG(t, d)
	for _, e := range elements {
		if e.name == "script" || e.name == "x" {
			t.Errorf("the title or the prefix became a %s element", e.name)
		}
	}
	if bytes.ContainsAny(file, "\x00\x1b") || bytes.Contains(file, []byte{0xff}) {
		t.Error("characters that XML forbids are left")
	}
}

// On a page the style sheet has the colours; the classes must be there for it.
func TestSVGForAPageLeavesColoursToItsStyles(t *testing.T) {
	var page, file bytes.Buffer
	d := fretboard.Draw(examples.Worked(t), fretboard.Options{})
	if err := errors.Join(surface.WritePageSVG(&page, d), surface.WriteSVG(&file, d)); err != nil {
		t.Fatal(err)
	}
	if at := strings.Index(page.String(), `="#`); at >= 0 {
		t.Errorf("a colour is left: %.60s", page.String()[at:])
	}
	extra := regexp.MustCompile(`(?s) (?:fill|stroke|color)="#[0-9a-f]{6}"|<style>.*?</style>\n`)
	if got := extra.ReplaceAllString(file.String(), ""); got != page.String() {
		t.Error("more than colours and letters is left out")
	}
}

// A note's signs, stem and ledger lines are one path; its texts stay texts.
func TestWhatBelongsToANoteIsOnePath(t *testing.T) {
	elements, _ := parseSVG(t, Sheet(examples.Worked(t), Options{Without: Strokes | Roughness}))
	paths, texts, notes := 0, 0, 0
	for _, e := range elements {
		switch {
		case strings.HasPrefix(e.attr["class"], "note "):
			notes++
		case notes > 0 && e.name == "path" && e.attr["fill"] == "" && e.attr["stroke"] == "":
			paths++
		case notes > 0 && e.name == "text" && e.attr["text-anchor"] == "middle":
			texts++
		}
	}
	if beams := paths - notes; notes != 57 || beams < 10 || beams > 60 {
		t.Errorf("%d notes and their beams take %d paths", notes, paths)
	}
	if texts < 4*notes {
		t.Errorf("%d texts beneath %d notes, want fret, finger, name and degree for each", texts, notes)
	}
}

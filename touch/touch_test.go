package touch_test

import (
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/touch"
)

// anyTouch draws a touch that a player can do.
func anyTouch(t *rapid.T) touch.Touch {
	is := func(label string) bool { return rapid.Bool().Draw(t, label) }
	x := touch.Touch{Vibrato: is("vibrato"), Ghost: is("ghost"), Staccato: is("staccato"),
		Bend: rapid.SampledFrom([]touch.Bend{0, touch.Quarter, touch.Half, touch.Whole}).Draw(t, "bend")}
	x.Release = x.Bend > 0 && is("release")
	x.Accent = !x.Ghost && is("accent")
	if x.Bend == 0 {
		x.Slide = rapid.SampledFrom([]touch.Slide{"", touch.Into, touch.Between}).Draw(t, "slide")
	}
	return x
}

func TestATouchReadsBackFromItsWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := anyTouch(t)
		if got, err := touch.Parse(x.String()); err != nil || got != x {
			t.Fatalf("%q reads back as %+v, %v; want %+v", x, got, err, x)
		}
	})
}

func TestWhatNoPlayerCanDoIsNamed(t *testing.T) {
	for what, x := range map[string]touch.Touch{
		"bend":    {Bend: 3},
		"release": {Release: true},
		"slide":   {Slide: "under"},
		"ghost":   {Ghost: true, Accent: true},
	} {
		var input *pitch.InputError
		if err := x.Check(); !errors.As(err, &input) || input.What != what {
			t.Errorf("%+v: %v, want an error about %s", x, err, what)
		}
	}
	for _, text := range []string{"bend 3", "wobble", "release", "bend 1,, vibrato"} {
		if x, err := touch.Parse(text); err == nil {
			t.Errorf("%q is read as %+v", text, x)
		}
	}
}

func TestAStyleIsReadByNameOrAsAList(t *testing.T) {
	for text, want := range map[string]string{
		"plain": "plain", " Blues ": "blues", "vibrato and bends": "bends, vibrato", "ghost  notes, accents,staccato": "funk",
		"ballad, accents": "accents, slides, vibrato", "plain, bends": "bends", "quarter bends": "quarter bends",
	} {
		style, err := touch.ParseStyle(text)
		if err != nil || style.String() != want {
			t.Errorf("%q is %q, %v; want %q", text, style, err, want)
		}
		if again, err := touch.ParseStyle(style.String()); err != nil || again != style {
			t.Errorf("%q reads back as %q, %v", style, again, err)
		}
	}
	var input *pitch.InputError
	if _, err := touch.ParseStyle("bluse"); !errors.As(err, &input) || input.Nearest != "blues" {
		t.Errorf("bluse: %v, want the nearest to be blues", err)
	}
}

// anyLine draws a fingered line in A minor pentatonic at the fifth fret, eighths
// and longer.
func anyLine(t *rapid.T) (touch.Line, []finger.Fingering) {
	scale, err := pitch.ParseScale("A minor pentatonic")
	if err != nil {
		t.Fatal(err)
	}
	in := neck.Guitar()
	var places []neck.Place
	for _, p := range neck.Placements(in, scale) {
		if p.Window.Low == 5 {
			places = p.Places
		}
	}
	l := touch.Line{Scales: []touch.Scale{{Scale: scale, Home: true}}, Meter: line.CommonTime, Instrument: in, Window: neck.Window{Low: 5, High: 8}}
	var start line.Beat
	var played []finger.Fingering
	for range rapid.IntRange(1, 24).Draw(t, "notes") {
		place := rapid.SampledFrom(places).Draw(t, "place")
		d := rapid.SampledFrom([]line.Beat{480, 480, 480, 960, 1920, 240}).Draw(t, "duration")
		if rapid.IntRange(0, 6).Draw(t, "rest") == 0 {
			start += 480
		}
		group := len(l.Notes) / 3
		l.Notes = append(l.Notes, line.Note{Pitch: place.Pitch, Start: start, Duration: d, Group: group, Role: line.PatternRole})
		played = append(played, finger.Fingering{Spot: place.Spot, Finger: place.Fret - 4,
			Stroke: rapid.SampledFrom([]finger.Stroke{finger.Down, finger.Up, finger.HammerOn}).Draw(t, "stroke")})
		start += d
	}
	return l, played
}

func TestTouchesKeepTheirRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, played := anyLine(t)
		text := rapid.SampledFrom([]string{"plain", "blues", "rock", "jazz", "funk", "ballad",
			"accents, bends, quarter bends, slides, vibrato, ghost notes, staccato"}).Draw(t, "style")
		style, err := touch.ParseStyle(text)
		if err != nil {
			t.Fatal(err)
		}
		touches := style.Bend(l)
		for i := range touches { // as the fingering would put them
			if b := touches[i].Bend.Below(); b > 0 {
				played[i].Spot = l.Spots(l.Notes[i].Pitch.MIDI(), touches[i].Bend)[0]
			}
		}
		touches = style.Complete(l, played, touches)
		if text == "plain" {
			if touches != nil {
				t.Fatalf("a plain line has touches %v", touches)
			}
			return
		}
		bentIn := map[line.Beat]bool{}
		for i, x := range touches {
			n := l.Notes[i]
			if err := x.Check(); err != nil {
				t.Fatalf("note %d: %v", i+1, err)
			}
			if x.Bend > 0 {
				if bar := n.Start / l.Meter.Bar(); bentIn[bar] {
					t.Fatalf("note %d is bent, and another in its bar", i+1)
				} else {
					bentIn[bar] = true
				}
				if n.Duration < line.Quarter/2 {
					t.Fatalf("note %d lasts %v and is bent", i+1, n.Duration)
				}
			}
			if x.Bend == touch.Quarter && n.Pitch.Name.String() != "C" {
				t.Fatalf("note %d, %v, is bent by a quarter tone", i+1, n.Pitch)
			}
			if x.Release && (i+1 == len(touches) || l.Notes[i+1].Pitch.MIDI() != n.Pitch.MIDI()-x.Bend.Below()) {
				t.Fatalf("note %d is released to nothing", i+1)
			}
			if x.Vibrato && n.Duration < line.Quarter {
				t.Fatalf("note %d lasts %v and has vibrato", i+1, n.Duration)
			}
			if x.Ghost && n.Start%line.Quarter == 0 {
				t.Fatalf("note %d is on the beat and a ghost note", i+1)
			}
			if x.Slide == touch.Into && (played[i].Finger == 4 || played[i].Stroke == finger.HammerOn) {
				t.Fatalf("note %d is slid into: %+v", i+1, played[i])
			}
		}
	})
}

// Bends of common practice in the fifth position: the third finger takes D on string
// 3 up to E, the fourth takes G on string 2 up to A.
func TestBendsAreWherePlayersBend(t *testing.T) {
	scale, err := pitch.ParseScale("A minor pentatonic")
	if err != nil {
		t.Fatal(err)
	}
	l := touch.Line{Scales: []touch.Scale{{Scale: scale, Home: true}}, Meter: line.CommonTime, Instrument: neck.Guitar(), Window: neck.Window{Low: 5, High: 8}}
	for i, text := range []string{"E4", "D4", "C4", "A3", "A4", "A4", "G4", "E4"} {
		p, err := pitch.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		l.Notes = append(l.Notes, line.Note{Pitch: p, Start: line.Beat(i) * line.Quarter, Duration: line.Quarter, Group: i})
	}
	style, err := touch.ParseStyle("bends")
	if err != nil {
		t.Fatal(err)
	}
	touches := style.Bend(l)
	want := map[int]touch.Touch{0: {Bend: touch.Whole, Release: true}, 4: {Bend: touch.Whole}}
	for i, x := range touches {
		if x != want[i] {
			t.Errorf("note %d, %v: %q, want %q", i+1, l.Notes[i].Pitch, x, want[i])
		}
	}
	for note, spot := range map[int]neck.Spot{0: {String: 3, Fret: 7}, 4: {String: 2, Fret: 8}} {
		if spots := l.Spots(l.Notes[note].Pitch.MIDI(), touch.Whole); !slices.Contains(spots, spot) {
			t.Errorf("note %d can be bent at %v, want %v too", note+1, spots, spot)
		}
	}
}

func TestThePitchArrivesWhereItIsBentTo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := anyTouch(t)
		lengthS := rapid.Float64Range(0.05, 4).Draw(t, "length")
		toNext := 0.0
		if x.Bend == 0 {
			toNext = float64(rapid.IntRange(-4, 4).Draw(t, "slides to"))
		}
		path := x.Path(lengthS, toNext)
		for i := 1; i < len(path); i++ {
			if before := path[i-1]; path[i].AtS < before.AtS+before.OverS-1e-9 {
				t.Fatalf("move %d begins at %v before move %d ends at %v", i, path[i].AtS, i-1, before.AtS+before.OverS)
			}
		}
		near := func(s, want float64) {
			if got := touch.At(path, s); got < want-1e-9 || got > want+1e-9 {
				t.Fatalf("after %v of %v s the pitch is %v above the fret, want %v: %v", s, lengthS, got, want, path)
			}
		}
		if !x.Vibrato && x.Bend > 0 {
			near(0.65*lengthS, float64(x.Bend))
		}
		switch {
		case x.Release:
			near(lengthS, 0)
		case x.Bend > 0:
			near(lengthS, float64(x.Bend))
		default:
			near(lengthS, toNext)
		}
		if x.Slide == touch.Into {
			near(0, -2)
		}
	})
}

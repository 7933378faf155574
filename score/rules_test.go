package score

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/line"
	"heddle/score/internal/examples"
	"heddle/score/notation"
	"heddle/score/surface"
)

// drawSpec draws a spec from all over the tables.
func drawSpec(t *rapid.T) exercise.Spec {
	pick := func(name string, words ...string) string { return rapid.SampledFrom(words).Draw(t, name) }
	s := exercise.Spec{
		Home:       pick("root", "C", "G", "F#", "Eb", "Bb", "E") + " " + pick("type", "minor pentatonic", "dorian", "harmonic minor", "minor blues", "whole tone"),
		Instrument: pick("instrument", "guitar", "bass", "seven-string guitar", "ukulele", "mandolin"),
		Value:      pick("value", "quarter", "eighth", "eighth", "eighth-triplet", "sixteenth", "sixteenth-triplet", "quintuplet"),
		Meter:      pick("meter", "4/4", "4/4", "3/4", "5/4", "6/8", "7/8", "12/8", "2/2"),
		Direction:  pick("direction", "down", "up", "down-up"),
		Picking:    pick("picking", "alternate", "legato"),
		Fret:       rapid.IntRange(1, 14).Draw(t, "fret"),
		Land:       pick("land", "none", "third"),
	}
	if away := pick("away", "", "semitone up", "tritone"); away != "" {
		s.Superimpose = []string{away}
	}
	for range 1 + len(s.Superimpose) {
		s.Groups = append(s.Groups, rapid.IntRange(1, 4).Draw(t, "group"))
	}
	s.Gap = rapid.SampledFrom([]float64{0, 0, 0.5, 1}).Draw(t, "gap")
	s.Pickup = rapid.SampledFrom([]float64{0, 0, 0.5}).Draw(t, "pickup")
	if rapid.Bool().Draw(t, "changes") {
		s.Changes = "Gm7 | C7 | Fmaj7 | Bb7"
	}
	return s
}

// eachSystem lays many exercises out at several widths and checks each.
func eachSystem(t *testing.T, check func(t *rapid.T, l *layout, width float64, systems []*system)) {
	built := 0
	rapid.Check(t, func(t *rapid.T) {
		ex, err := exercise.Build(drawSpec(t))
		if err != nil {
			return // a spec that no neck holds
		}
		built++
		l, width, systems := sheetSystems(ex, Options{Width: rapid.SampledFrom([]float64{95, 180, 271}).Draw(t, "width")})
		check(t, l, width/l.options.space(), systems)
	})
	if built < 20 {
		t.Errorf("only %d of the specs could be built", built)
	}
}

func TestABarThatFitsASystemIsNotSplit(t *testing.T) {
	eachSystem(t, func(t *rapid.T, l *layout, width float64, systems []*system) {
		split := map[int]bool{}
		for i, s := range systems {
			if i > 0 && !s.startsBar() {
				split[s.columns[0].measure] = true
			}
		}
		for m := range split {
			need, first := l.prefix(m == 0), true
			for i, c := range l.columns {
				if c.measure != m {
					continue
				}
				if first {
					need += lead(c) + l.repeatedChordRoom(l.columns, i)
				}
				if !c.barLine {
					need += c.least
				}
				first = false
			}
			if need <= width {
				t.Fatalf("bar %d is split, but takes %.1f spaces of %.1f", m+1, need, width)
			}
		}
	})
}

func TestBeamsKeepToTheirPartOfTheBar(t *testing.T) {
	// Where a beam may not cross, in quarters from the bar line.
	edges := map[string][]float64{"4/4": {2}, "5/4": {3}, "6/8": {1.5}, "7/8": {1, 2}, "12/8": {1.5, 3, 4.5}, "2/2": {2}}
	eachSystem(t, func(t *rapid.T, l *layout, _ float64, systems []*system) {
		for _, s := range systems {
			for _, b := range s.beams {
				first, last := b.heads[0], b.heads[len(b.heads)-1]
				downbeat := l.measures[s.columns[first.column].measure].Downbeat
				for _, edge := range edges[l.exercise.Rhythm.Meter.String()] {
					at := downbeat + line.Beat(edge*float64(line.Quarter))
					if first.event.Tuplet == nil && first.event.Start < at && last.event.Start >= at {
						t.Fatalf("in %s a beam runs from %v to %v", l.exercise.Rhythm.Meter, first.event.Start-downbeat, last.event.Start-downbeat)
					}
				}
			}
		}
	})
}

func TestTupletsStandOutsideTheStaffAndApart(t *testing.T) {
	eachSystem(t, func(t *rapid.T, _ *layout, _ float64, systems []*system) { checkTuplets(t, systems) })
}

// Lines from other programs have rhythms that no line of ours has.
func TestTupletsOfForeignRhythmsStandApart(t *testing.T) {
	pitches := examples.Worked(t)
	rapid.Check(t, func(t *rapid.T) {
		ex := *pitches
		ex.Notes = slices.Clone(pitches.Notes[:rapid.IntRange(1, 40).Draw(t, "notes")])
		ex.Rhythm.Meter = rapid.SampledFrom([]line.Meter{{Beats: 4, Unit: 4}, {Beats: 6, Unit: 8}, {Beats: 7, Unit: 8}}).Draw(t, "meter")
		at := line.Beat(0)
		for i := range ex.Notes {
			n := &ex.Notes[i]
			n.Duration = rapid.SampledFrom([]line.Beat{60, 80, 96, 120, 160, 192, 240, 320, 384, 480, 640, 960}).Draw(t, "duration")
			n.Start = at + rapid.SampledFrom([]line.Beat{0, 0, 160, 192, 480}).Draw(t, "rest")
			at = n.End()
		}
		ex.Length = at
		_, _, systems := sheetSystems(&ex, Options{Width: 180})
		checkTuplets(t, systems)
	})
}

func checkTuplets(t *rapid.T, systems []*system) {
	for _, s := range systems {
		for i, m := range s.tuplets {
			digits := -surface.TupletDigit.Box().MinY
			if base := m.baseline(); base > 0 && base-digits < staffHeight {
				t.Fatalf("the figure of a tuplet is at %.2f, in the staff", base)
			}
			if _, digits := m.numberSigns(); m.bracketed && m.to-m.from < digits+2*tupletFigureGap {
				t.Fatalf("a bracket of %.2f spaces has no room for its figure", m.to-m.from)
			}
			for _, other := range s.tuplets[:i] {
				aFrom, aTo := other.width()
				bFrom, bTo := m.width()
				aTop, aBottom := other.reach()
				bTop, bBottom := m.reach()
				if min(aTo, bTo)-max(aFrom, bFrom) > 0 && min(aBottom, bBottom)-max(aTop, bTop) > 0 {
					t.Fatalf("two tuplets collide at %.1f", bFrom)
				}
			}
		}
	}
}

// width returns the outer edges of the mark, its figure included.
func (m tupletMark) width() (from, to float64) {
	_, digits := m.numberSigns()
	middle := (m.from + m.to) / 2
	from, to = middle-digits/2, middle+digits/2
	if m.bracketed {
		from, to = min(from, m.from), max(to, m.to)
	}
	return from, to
}

func TestThreeHighNotesInARowAreUnderAnOctaveLine(t *testing.T) {
	eachSystem(t, func(t *rapid.T, l *layout, _ float64, systems []*system) {
		for i := range l.octaves {
			row := 0
			for j := max(0, i-2); j < min(len(l.octaves), i+3); j++ {
				if notation.Place(l.exercise.Instrument.Clef(), l.exercise.Notes[j].Pitch) > 10 {
					row++
				} else if row < 3 {
					row = 0
				}
			}
			if row >= 3 && notation.Place(l.exercise.Instrument.Clef(), l.exercise.Notes[i].Pitch) > 10 && !l.octaves[i] {
				t.Fatalf("note %d of three above the third ledger line has no 8va", i)
			}
		}
		drawn := 0
		for _, s := range systems {
			for _, o := range s.octaveLines {
				if o.from+surface.OctaveHigher.Width() > s.right+0.01 {
					t.Fatal("an 8va sticks out of its system")
				}
				drawn += len(slices.Compact(o.notes))
			}
		}
		want := 0
		for _, under := range l.octaves {
			if under {
				want++
			}
		}
		if drawn < want {
			t.Fatalf("%d of %d notes have their 8va drawn", drawn, want)
		}
	})
}

func TestEverySystemBeginsWithItsChord(t *testing.T) {
	eachSystem(t, func(t *rapid.T, l *layout, _ float64, systems []*system) {
		for i, s := range systems {
			c := s.columns[0]
			want := ""
			for j, chord := range l.exercise.Chords {
				if j == 0 || chord.Start < c.event.End {
					want = chord.Display(l.exercise.Naming)
				}
			}
			if got := s.chordOver(c, true); got != want && s.chordAt(c) == "" {
				t.Fatalf("system %d begins with %q, want %q", i+1, got, want)
			}
			from := 0.0
			for k, c := range s.columns {
				symbol := s.chordOver(c, k == 0)
				if symbol == "" {
					continue
				}
				if c.x < from-0.01 {
					t.Fatalf("the chord %s runs into the one before", symbol)
				}
				from = c.x + surface.SerifBold.Width(symbol, chordSize)
			}
		}
	})
}

func TestACourtesyNaturalIsPrintedOnceInABar(t *testing.T) {
	eachSystem(t, func(t *rapid.T, l *layout, _ float64, _ []*system) {
		for i, m := range l.measures {
			seen := map[int]bool{}
			for j, mark := range m.Marks {
				if !mark.Courtesy {
					continue
				}
				place := l.place(m.Events[j].Note)
				if seen[place] || mark.Accidental != 0 {
					t.Fatalf("bar %d has a second courtesy accidental at place %d", i, place)
				}
				seen[place] = true
				if l.accidental(mark) == (accidentalMark{}) {
					t.Fatal("a courtesy natural is not drawn")
				}
			}
		}
		without := *l
		without.options.Without |= CourtesyNaturals
		for _, m := range l.measures {
			for _, mark := range m.Marks {
				if printed := without.accidental(mark).printed; printed != (mark.Printed && !mark.Courtesy) {
					t.Fatal("courtesy naturals can't be left out")
				}
			}
		}
	})
}

func TestSlursAreNotHigherThanTheirCap(t *testing.T) {
	eachSystem(t, func(t *rapid.T, _ *layout, _ float64, systems []*system) {
		for _, s := range systems {
			for _, b := range s.bows {
				if b.height > slurHigh || b.height < -slurHigh {
					t.Fatalf("a bow's handles are %.1f spaces high", b.height)
				}
			}
		}
	})
}

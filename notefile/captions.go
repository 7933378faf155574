package notefile

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/sheet"
)

// WriteVTT writes an exercise as WebVTT captions: a cue for each group with
// its scale's name, and a cue for each note with the note's name in the
// exercise's naming. The scale is shown above the note.
//
// Times are exact to the millisecond at the exercise's tempo and swing. The first
// note sounds delayS seconds in (0 or more), for example after a count-in; a note at
// the head of the file says how long. Cues have the ids group-0 … and note-0 …, and
// the classes home, superimposed, landing and chromatic, so that a page can style
// them.
func WriteVTT(w io.Writer, ex *exercise.Exercise, delayS float64) error {
	c, err := newCaptions(ex, delayS)
	if err != nil {
		return err
	}
	fmt.Fprintf(&c.out, "WEBVTT\n\nNOTE %s\n", cueText(ex.Title()))
	if c.delayMS > 0 {
		fmt.Fprintf(&c.out, "\nNOTE The first note sounds after %.3f seconds, as in the sound with its count-in.\n", float64(c.delayMS)/1000)
	}
	for g, r := range sheet.Runs(ex.Notes) {
		c.vttCue(fmt.Sprintf("group-%d", g), ex.Notes[r.First].Start, ex.Notes[r.Last].End(), scaleLine, r, sheet.ScaleName(ex, r))
		for i := r.First; i <= r.Last; i++ {
			n := ex.Notes[i]
			c.vttCue(fmt.Sprintf("note-%d", i), n.Start, n.End(), noteLine, r, ex.Naming.Name(n.Pitch.Name))
		}
	}
	_, err = w.Write(c.out.Bytes())
	return err
}

// WriteSRT writes an exercise as SubRip captions, for players and video
// editors that do not read WebVTT. Times are those of [WriteVTT]. Many players
// show only one cue at a time, so there is one for each note, with the name of
// its scale on the line above.
func WriteSRT(w io.Writer, ex *exercise.Exercise, delayS float64) error {
	c, err := newCaptions(ex, delayS)
	if err != nil {
		return err
	}
	for _, r := range sheet.Runs(ex.Notes) {
		for i := r.First; i <= r.Last; i++ {
			n := ex.Notes[i]
			fmt.Fprintf(&c.out, "%d\n%s --> %s\n%s\n%s\n\n", i+1, c.stamp(n.Start, ','), c.stamp(n.End(), ','),
				sheet.ScaleName(ex, r), ex.Naming.Name(n.Pitch.Name))
		}
	}
	_, err = w.Write(c.out.Bytes())
	return err
}

// Lines of the picture, counted from the bottom as WebVTT does.
const (
	scaleLine = -2
	noteLine  = -1
)

// captions is a caption file being written.
type captions struct {
	out     bytes.Buffer
	ex      *exercise.Exercise
	origin  line.Beat // where the first note sounds
	delayMS int       // when that is
}

func newCaptions(ex *exercise.Exercise, delayS float64) (*captions, error) {
	if err := sheet.CheckTempo(ex.Tempo); err != nil {
		return nil, err
	}
	if _, _, err := sheet.Extent(ex); err != nil {
		return nil, err
	}
	first := line.Beat(0)
	if len(ex.Notes) > 0 {
		first = ex.Notes[0].Start
	}
	return &captions{ex: ex, origin: ex.Rhythm.Sounding(first), delayMS: int(math.Round(1000 * max(0, delayS)))}, nil
}

// vttCue writes one WebVTT cue between two written positions.
func (c *captions) vttCue(id string, from, to line.Beat, row int, r sheet.Run, text string) {
	fmt.Fprintf(&c.out, "\n%s\n%s --> %s line:%d\n<c.%s>%s</c>\n", id, c.stamp(from, '.'), c.stamp(to, '.'), row, cueClass(c.ex, r), cueText(text))
}

// stamp returns the time of a written position. WebVTT puts a point before the
// milliseconds, SubRip a comma.
func (c *captions) stamp(b line.Beat, point rune) string {
	ms := c.delayMS + milliseconds(c.ex.Rhythm.Sounding(b)-c.origin, c.ex.Tempo)
	return fmt.Sprintf("%02d:%02d:%02d%c%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, point, ms%1000)
}

// milliseconds returns how long a stretch lasts at a tempo in quarter notes a
// minute, to the nearest millisecond.
func milliseconds(b line.Beat, tempo float64) int {
	const perBeat = 60_000 / float64(line.Quarter)
	return int(math.Round(float64(b) * perBeat / tempo))
}

// cueClass returns the style class of a run.
func cueClass(ex *exercise.Exercise, r sheet.Run) string {
	s, ok := sheet.ScaleOf(ex, r)
	switch {
	case !ok:
		return sheet.ScaleName(ex, r)
	case s.Home:
		return "home"
	}
	return "superimposed"
}

// cueText escapes the characters that mean something in WebVTT.
func cueText(s string) string {
	return cueEscapes.Replace(s)
}

var cueEscapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", "\n", " ", "\r", " ")

package notefile

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"heddle/exercise"
	"heddle/line"
)

// WriteVTT writes an exercise as WebVTT captions: for each group a cue with
// its scale's name, for each note a cue with the note's name in the exercise's
// naming, the scale above the note.
//
// Times are exact to the millisecond at the exercise's tempo and swing; the
// line, with its pickup, begins delayS seconds in (0 or more), as after a
// count-in. Cues bear the ids group-0 … and
// note-0 …, and the classes home, superimposed, landing and chromatic, so that a page can
// style them.
func WriteVTT(w io.Writer, ex *exercise.Exercise, delayS float64) error {
	if err := checkTempo(ex.Tempo); err != nil {
		return err
	}
	first, _, err := extent(ex)
	if err != nil {
		return err
	}
	c := captions{ex: ex, origin: ex.Rhythm.Sounding(first), delayMS: int(math.Round(1000 * max(0, delayS)))}
	c.out.WriteString("WEBVTT\n\nNOTE " + cueText(titleOf(ex)) + "\n")
	runs := runsOf(ex.Notes)
	for g, r := range runs {
		c.cue(fmt.Sprintf("group-%d", g), ex.Notes[r.First].Start, ex.Notes[r.Last].End(), scaleLine, r, scaleNameOf(ex, r))
		for i := r.First; i <= r.Last; i++ {
			n := ex.Notes[i]
			c.cue(fmt.Sprintf("note-%d", i), n.Start, n.End(), noteLine, r, ex.Naming.Name(n.Pitch.Name))
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
	origin  line.Beat // where the line begins
	delayMS int       // when that is
}

// cue writes one cue between two written positions.
func (c *captions) cue(id string, from, to line.Beat, row int, r run, text string) {
	fmt.Fprintf(&c.out, "\n%s\n%s --> %s line:%d\n<c.%s>%s</c>\n", id, c.stamp(from), c.stamp(to), row, cueClass(c.ex, r), cueText(text))
}

// stamp returns the time of a written position.
func (c *captions) stamp(b line.Beat) string {
	ms := c.delayMS + milliseconds(c.ex.Rhythm.Sounding(b)-c.origin, c.ex.Tempo)
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}

// milliseconds returns how long a stretch lasts at a tempo in quarter notes a
// minute, to the nearest millisecond.
func milliseconds(b line.Beat, tempo float64) int {
	const perBeat = 60_000 / float64(quarter)
	return int(math.Round(float64(b) * perBeat / tempo))
}

// cueClass names what a run is for styles.
func cueClass(ex *exercise.Exercise, r run) string {
	s, ok := scaleOf(ex, r)
	switch {
	case !ok:
		return scaleNameOf(ex, r)
	case s.Home:
		return "home"
	}
	return "superimposed"
}

// cueText escapes what WebVTT gives a meaning to.
func cueText(s string) string {
	return cueEscapes.Replace(s)
}

var cueEscapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", "\n", " ", "\r", " ")

package sound

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
	"heddle/sound/groove"
)

// A passKind says what sounds during one time through the form.
type passKind string

// The kinds of pass.
const (
	linePass     passKind = "line"     // line and vamp
	responsePass passKind = "response" // vamp alone, for the player to answer
	silentPass   passKind = "silent"   // click alone
	endingPass   passKind = "ending"   // one last beat, which rings out
)

// A pass is one time through the form at one tempo.
type pass struct {
	number int // counted over the file from 0
	loop   int // a call and its response are one loop
	kind   passKind
	tempo  float64
	before float64 // tempo of what comes before, in which a pickup is played
	start  float64 // in samples, not rounded, so that rounding never adds up
	end    float64
}

// A form is how the passes follow one another in time.
type form struct {
	rate     int
	rhythm   line.Rhythm
	meter    line.Meter
	bars     int       // in one pass
	beats    int       // felt in one bar
	beat     line.Beat // length of one
	pickup   line.Beat
	countIn  int
	lead     float64 // samples before the first pass
	passes   []pass
	seamless bool
	total    int64 // samples in the file
}

// ringOutS is how long the last chord rings in seconds: long enough for the
// ride cymbal to fade out of notice.
const ringOutS = 2.5

// newForm lays out the passes that settled options ask for.
func newForm(ex *exercise.Exercise, o Options) (*form, error) {
	m, err := meterOf(ex.Rhythm)
	if err != nil {
		return nil, err
	}
	f := &form{rate: o.SampleRate, rhythm: ex.Rhythm, meter: m, countIn: o.CountIn, seamless: o.Seamless}
	f.beats, f.beat = groove.Beats(m)
	f.measure(ex)
	if err := f.bound(o); err != nil {
		return nil, err
	}
	tempo := o.Ladder.at(0, o.Tempo)
	lead := line.Beat(o.CountIn) * m.Bar()
	if !o.Seamless {
		lead = max(lead, f.pickup)
	}
	f.lead = f.samples(lead, tempo)
	at, before := f.lead, tempo
	for loop := range o.Loops {
		tempo = o.Ladder.at(loop, o.Tempo)
		for _, kind := range kindsOf(o, loop) {
			end := at + f.samples(f.length(), tempo)
			f.passes = append(f.passes, pass{len(f.passes), loop, kind, tempo, before, at, end})
			at, before = end, tempo
		}
	}
	if o.Seamless {
		f.passes[0].before = before
	} else {
		at += ringOutS * float64(f.rate)
	}
	f.total = round(at)
	if o.Seamless {
		f.total += f.total % 2 // the room runs at half the rate, and must come round with the loop
	}
	return f, nil
}

// kindsOf returns what the passes of one loop are.
func kindsOf(o Options, loop int) []passKind {
	kinds := []passKind{linePass}
	if o.CallAndResponse {
		kinds = append(kinds, responsePass)
	}
	if o.SilentEveryOther && loop%2 == 1 {
		for i := range kinds {
			kinds[i] = silentPass
		}
	}
	return kinds
}

// measure finds the pickup and how many whole bars a pass needs: the line,
// and room for the next pass's pickup after its last note.
func (f *form) measure(ex *exercise.Exercise) {
	end := ex.Length
	for _, n := range ex.Notes {
		f.pickup = max(f.pickup, -n.Start)
		end = max(end, n.Start+n.Duration)
	}
	lastNote := line.Beat(0)
	if k := len(ex.Notes); k > 0 {
		lastNote = ex.Notes[k-1].Start + ex.Notes[k-1].Duration
	}
	bar := f.meter.Bar()
	end = max(end, lastNote+f.pickup, 1)
	f.bars = int((end + bar - 1) / bar)
}

// length returns the length of a pass.
func (f *form) length() line.Beat { return line.Beat(f.bars) * f.meter.Bar() }

// samples returns how many samples a length lasts at a tempo.
func (f *form) samples(b line.Beat, tempo float64) float64 {
	return b.Quarters() * 60 / tempo * float64(f.rate)
}

// bound refuses forms that would take too long, before they are laid out.
func (f *form) bound(o Options) error {
	seconds, longest := 0.0, 0.0
	for loop := range o.Loops {
		once := f.length().Quarters() * 60 / o.Ladder.at(loop, o.Tempo)
		longest = max(longest, once)
		seconds += once * float64(len(kindsOf(o, loop)))
	}
	if longest > mostPassMinute*60 {
		return &pitch.InputError{What: "bars", Value: strconv.Itoa(f.bars),
			Want: fmt.Sprintf("a line of at most %d minutes; at this tempo it lasts %s", mostPassMinute, clock(longest))}
	}
	if seconds > mostMinutes*60 {
		what, value := "loops", strconv.Itoa(o.Loops)
		if o.Ladder.loops() == o.Loops {
			what, value = "ladder", o.Ladder.String()
		}
		return &pitch.InputError{What: what, Value: value,
			Want: fmt.Sprintf("at most %d minutes of sound; this would be %s", mostMinutes, clock(seconds))}
	}
	return nil
}

// clock writes a length of time to the second.
func clock(seconds float64) string {
	return time.Duration(math.Round(seconds) * 1e9).String()
}

// sounding returns when a written position sounds.
func (f *form) sounding(b line.Beat) line.Beat { return f.rhythm.Swing.Sounding(b, f.meter) }

// at returns the sample at which a written position of a pass sounds. What
// lies before the pass is played in the tempo that goes before.
func (f *form) at(p pass, b line.Beat) float64 { return f.plain(p, f.sounding(b)) }

// plain returns the sample of a position of a pass that is already sounding.
func (f *form) plain(p pass, b line.Beat) float64 {
	tempo := p.tempo
	if b < 0 {
		tempo = p.before
	}
	return p.start + f.samples(b, tempo)
}

// pass returns a pass by number. A seamless loop has passes before the first and
// after the last without end: the same music, whole loops away.
func (f *form) pass(number int) (pass, bool) {
	n := len(f.passes)
	if number >= 0 && number < n {
		return f.passes[number], true
	}
	if !f.seamless && number == n {
		last := f.passes[n-1]
		return pass{n, last.loop, endingPass, last.tempo, last.tempo, last.end, float64(f.total)}, true
	}
	if !f.seamless {
		return pass{}, false
	}
	within := ((number % n) + n) % n
	p, shift := f.passes[within], float64((number-within)/n)*float64(f.total)
	p.start += shift
	p.end += shift
	return p, true
}

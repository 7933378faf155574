package exercise

import (
	"slices"

	"heddle/finger"
	"heddle/line"
	"heddle/line/landing"
	"heddle/neck"
	"heddle/pitch"
	"heddle/touch"
)

// Build turns a spec into everything known about its notes. It is pure: the same
// spec gives the same exercise. Every error is a *pitch.InputError that names
// the field.
func Build(s Spec) (*Exercise, error) {
	p, err := read(s)
	if err != nil {
		return nil, err
	}
	scales, err := p.place()
	if err != nil {
		return nil, err
	}
	if p.phrased {
		return p.buildPhrase(scales)
	}
	pattern, err := p.pattern()
	if err != nil {
		return nil, err
	}
	ex := p.exercise(scales)
	end, err := p.end(pattern)
	if err != nil {
		return nil, err
	}
	ex.setChords(p, end)
	ending, endings, err := p.land(ex, pattern)
	if err != nil {
		return nil, err
	}
	if err := ex.setNotes(p, pattern, ending); err != nil {
		return nil, err
	}
	if err := ex.setEndings(p, pattern, endings); err != nil {
		return nil, err
	}
	ex.trim()
	return ex, ex.cutNotes(p)
}

// trim ends the exercise with the bar in which its last note ends: a line may land
// sooner than its other endings.
func (ex *Exercise) trim() {
	if len(ex.Endings) == 0 {
		return
	}
	bar := ex.Rhythm.Meter.Bar()
	end := (ex.Notes[len(ex.Notes)-1].End() + bar - 1) / bar * bar
	if end >= ex.Length {
		return
	}
	ex.Length = end
	for i, c := range ex.Chords {
		if c.End >= end {
			ex.Chords[i].End = end
			ex.Chords = ex.Chords[:i+1]
			return
		}
	}
}

// exercise sets everything that does not depend on the notes.
func (p *plan) exercise(scales []Scale) *Exercise {
	ex := &Exercise{
		Instrument: p.instrument, Naming: p.naming, Rhythm: p.rhythm, Tempo: p.spec.Tempo, Scales: scales,
		Cycle: line.CycleOf(p.spec.Groups, p.rhythm), Remarks: append(p.remarks(), p.dropped...), heard: make(map[heardKey]float64),
	}
	plain := make([]pitch.Scale, len(scales))
	for i, s := range scales {
		plain[i] = s.Scale
	}
	ex.Collection = pitch.Collect(plain[0], plain[1:]...)
	return ex
}

// pattern builds the line and fills in its start.
func (p *plan) pattern() ([]line.Note, error) {
	request := line.Request{Sections: p.placed, Direction: p.direction, Follow: p.follow, Run: line.IsRun(p.spec.Groups), Repeats: p.repeats, Rhythm: p.rhythm, Bars: p.spec.Bars}
	if p.spec.Start != "" {
		start, err := pitch.Parse(p.spec.Start)
		if err != nil {
			return nil, named("start", err)
		}
		request.Start = &start
	}
	notes, err := line.Build(request)
	if err != nil {
		return nil, err
	}
	for i := range notes {
		notes[i].Scale = p.scaleOf[notes[i].Scale]
	}
	p.spec.Start = p.startOf(notes[0], p.placed[0].Sources[0].Placement).String()
	return notes, nil
}

// startOf returns the note that group 0 starts on: its step 1, which an order may play
// later or leave out.
func (p *plan) startOf(first line.Note, home neck.Placement) pitch.Pitch {
	at := slices.IndexFunc(home.Places, func(place neck.Place) bool { return place.Pitch == first.Pitch })
	if p.direction == line.Down || p.direction == line.DownUp {
		return home.Places[at+first.Step-1].Pitch
	}
	return home.Places[at-first.Step+1].Pitch
}

// end returns where the last bar of a pattern and its landing ends.
func (p *plan) end(pattern []line.Note) (line.Beat, error) {
	bar := p.rhythm.Meter.Bar()
	last := pattern[len(pattern)-1]
	end := max(bar, (last.Start+last.Duration+bar-1)/bar*bar)
	if p.spec.Bars > 0 {
		end = line.Beat(p.spec.Bars) * bar
	}
	if len(p.targets) > 0 {
		beats, err := p.landingBeats(pattern)
		if err != nil {
			return 0, err
		}
		end = (beats[len(beats)-1]/bar + 1) * bar
	}
	return end, nil
}

// setNotes puts pattern and ending together, fingers them and says what each
// note is to its chord.
func (ex *Exercise) setNotes(p *plan, pattern []line.Note, ending *landing.Ending) error {
	notes, lands := pattern, pattern[len(pattern)-1].Start
	ex.Pattern = len(pattern)
	if ending != nil {
		lands = ending.At
		ex.Pattern -= ending.Replaced
		notes = slices.Concat(pattern[:ex.Pattern], ending.Notes)
	}
	played, hand, err := ex.play(p, notes)
	if err != nil {
		return err
	}
	ex.Hand = hand
	ex.Notes = ex.analyse(p, notes, played, 0, lands)
	ex.Spec, ex.Phrases = p.spec, p.phrases()
	ex.Sentence = sentenceOf(ex.Phrases)
	return nil
}

func (p *plan) technique() finger.Technique {
	return finger.Technique{Picking: p.picking, ReachMM: p.spec.Reach}
}

// A played note is how the hands play a note.
type played struct {
	finger.Fingering
	touch touch.Touch
}

// play fingers notes in the position, with the touch that the spec asks for.
func (ex *Exercise) play(p *plan, notes []line.Note) ([]played, finger.Hand, error) {
	l := ex.touchLine(notes, ex.window())
	touches := p.touch.Bend(l)
	fingerings, hand, err := finger.Assign(ex.Instrument, ex.candidates(notes, &l, touches), p.technique())
	if err != nil {
		return nil, hand, err
	}
	return join(fingerings, p.touch.Complete(l, fingerings, touches)), hand, nil
}

// join puts fingerings and touches together; no touches are plain ones.
func join(fingerings []finger.Fingering, touches []touch.Touch) []played {
	list := make([]played, len(fingerings))
	for i, f := range fingerings {
		list[i].Fingering = f
		if touches != nil {
			list[i].touch = touches[i]
		}
	}
	return list
}

// touchLine returns what the rules of touch need to know of notes.
func (ex *Exercise) touchLine(notes []line.Note, window neck.Window) touch.Line {
	l := touch.Line{Notes: notes, Meter: ex.Rhythm.Meter, Instrument: ex.Instrument, Window: window, Scales: make([]touch.Scale, len(ex.Scales))}
	for i, s := range ex.Scales {
		l.Scales[i] = touch.Scale{Scale: s.Scale, Home: s.Home}
	}
	return l
}

// candidates lists where each note may be played: in the position, which is
// the window that holds all the placements, or one fret outside it for a
// chromatic note that does not lie in it. A bent note is stopped below its pitch.
func (ex *Exercise) candidates(notes []line.Note, l *touch.Line, touches []touch.Touch) []finger.Note {
	list := make([]finger.Note, len(notes))
	window := l.Window
	beside := neck.Window{Low: max(0, window.Low-1), High: min(ex.Instrument.LastFret(), window.High+1)}
	for i, n := range notes {
		key := n.Pitch.MIDI()
		list[i] = finger.Note{Start: n.Start, Duration: n.Duration, MIDI: key, Group: n.Group}
		if touches != nil && touches[i].Bend > 0 {
			bend := touches[i].Bend
			list[i].Bend, list[i].MIDI = float64(bend), key-bend.Below()
			list[i].Spots = l.Spots(key, bend)
		} else if list[i].Spots = ex.Instrument.SpotsIn(key, window); len(list[i].Spots) == 0 {
			list[i].Spots = ex.Instrument.SpotsIn(key, beside)
		}
		if n.Scale != line.Chromatic {
			at, ok := ex.Scales[n.Scale].Placement.At(list[i].MIDI)
			if ok && (list[i].Bend == 0 || slices.Contains(list[i].Spots, at.Spot)) {
				list[i].Preferred = at.Spot
			}
		}
	}
	return list
}

// window is the span of frets that holds every placement.
func (ex *Exercise) window() neck.Window {
	w := ex.Scales[0].Placement.Window
	for _, s := range ex.Scales[1:] {
		w.Low, w.High = min(w.Low, s.Placement.Window.Low), max(w.High, s.Placement.Window.High)
	}
	return w
}

// analyse adds the degree, function and roughness of each note over its chord. The
// target of a landing is heard against the chord of the beat that it lands on, also if
// it comes early.
func (ex *Exercise) analyse(p *plan, notes []line.Note, played []played, first int, lands line.Beat) []Note {
	list := make([]Note, len(notes))
	for i, n := range notes {
		at := n.Start
		if n.Role == line.LandingRole && i == len(notes)-1 {
			at = lands
		}
		chord := ex.ChordAt(at)
		var from pitch.Scale
		if n.Scale != line.Chromatic {
			from = ex.Scales[n.Scale].Scale
		}
		list[i] = Note{
			Note: n, Fingering: played[i].Fingering, Touch: played[i].touch, Index: first + i,
			Degree:    chord.Degree(n.Pitch.Name, from),
			Function:  chord.Function(n.Pitch.Name, p.homeAt(at)),
			Roughness: ex.roughness(chord, n.Pitch.MIDI()),
		}
	}
	return list
}

// A heard key is a MIDI key over a chord. A line returns to the same few keys, and
// a look-up is cheaper than the model.
type heardKey struct {
	symbol string
	key    int
}

func (ex *Exercise) roughness(chord Chord, key int) float64 {
	at := heardKey{chord.Symbol, key}
	r, known := ex.heard[at]
	if !known {
		r = chord.hearing.Roughness(key)
		ex.heard[at] = r
	}
	return r
}

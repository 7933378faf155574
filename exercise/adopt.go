package exercise

import (
	"slices"
	"strconv"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/touch"
)

// A Given is a line from outside.
type Given struct {
	Title  string
	Notes  []GivenNote   // one after another, never overlapping
	Chords []GivenChord  // in time; none if the source has none
	Tempo  float64       // quarter notes a minute, 0 if not known
	Rhythm line.Rhythm   // metre, pickup and swing; the value is not used
	Open   []pitch.Pitch // tuning without the capo, string 1 first, if known
	Capo   int

	// Spec is what the source says of the instrument, the hands and the time; it
	// fills what the player leaves open.
	Spec Spec

	// Grouped says that the source has groups: Group and Role of the notes are
	// kept.
	Grouped bool
}

// A GivenNote is a note and what is known about how it is played. String is 0,
// Finger 0 and Stroke empty if unknown.
type GivenNote struct {
	line.Note
	finger.Fingering // of a bent note, where the string is stopped
	Touch            touch.Touch
	From             string // the scale that the source names for it, or ""
}

// A GivenChord is a chord symbol and where it begins.
type GivenChord struct {
	Start  line.Beat
	Symbol string
}

// maxGiven bounds a given line: nobody practises eight minutes of sixteenths at
// 120 as one exercise.
const maxGiven = 4096

// Adopt names, analyses and fingers a line made elsewhere. Of the spec it
// uses home, superimpose, chord or changes, the instrument and the hands. What
// the spec leaves open comes from the line: its tempo, its metre, its chords, the
// scales that it names, or those of the regular pattern that makes it, and otherwise
// as home the scale that leaves the fewest of its notes outside. Notes out of the
// instrument's reach are moved by octaves.
// Fields that make a pattern may not be set. Strings, frets, fingers
// and strokes that the source gives are kept; note names are too.
func Adopt(g Given, s Spec) (*Exercise, error) {
	if len(g.Notes) == 0 || len(g.Notes) > maxGiven {
		return nil, &pitch.InputError{What: "line", Value: strconv.Itoa(len(g.Notes)) + " notes", Want: "1 to " + strconv.Itoa(maxGiven) + " notes"}
	}
	if err := refusePattern(s); err != nil {
		return nil, err
	}
	filled := s
	if err := g.fill(&filled); err != nil {
		return nil, err
	}
	ex, err := g.adopt(filled)
	if err != nil && len(s.Superimpose) == 0 && len(filled.Superimpose) > 0 {
		filled.Superimpose = nil // scales of the source that no hand joins
		ex, err = g.adopt(filled)
	}
	return ex, err
}

// adopt builds the exercise from a spec that is filled in.
func (g Given) adopt(s Spec) (*Exercise, error) {
	p, err := read(s)
	if err != nil {
		return nil, err
	}
	p.rhythm.Pickup, p.rhythm.Swing = g.Rhythm.Pickup, g.Rhythm.Swing
	p.spec.Pickup, p.spec.Feel = p.rhythm.Pickup.Quarters(), p.rhythm.Swing.String()
	return g.exercise(p)
}

// patternFields are the fields that shape a pattern. A given line is not one.
var patternFields = []string{"groups", "order", "follow", "direction", "start", "value", "pickup", "feel", "gap", "bars", "repeats", "land", "land-beat", "ending"}

func refusePattern(s Spec) error {
	for _, f := range fields {
		if slices.Contains(patternFields, f.Name) && len(f.Get(s)) > 0 {
			return &pitch.InputError{What: f.Name, Value: f.Get(s)[0], Want: "nothing: the line is given and keeps its own notes"}
		}
	}
	return nil
}

// sourceFields are the fields that a source's own spec fills.
var sourceFields = []string{"tempo", "meter", "fret", "instrument", "tuning", "frets", "scale", "reach", "capo", "left", "picking", "names"}

// fill takes what the spec leaves open from the line.
func (g Given) fill(s *Spec) error {
	for _, f := range fields {
		if !slices.Contains(sourceFields, f.Name) || len(f.Get(*s)) > 0 {
			continue
		}
		for _, value := range f.Get(g.Spec) {
			if err := f.Set(s, value); err != nil {
				return err
			}
		}
	}
	if s.Tempo == 0 && g.Tempo >= SlowestTempo && g.Tempo <= FastestTempo {
		s.Tempo = g.Tempo
	}
	if s.Meter == "" && g.Rhythm.Meter.Beats > 0 {
		s.Meter = g.Rhythm.Meter.String()
	}
	if s.Tuning == "" && len(g.Open) > 0 {
		s.Tuning = neck.FormatTuning(g.Open)
	}
	if s.Capo == 0 {
		s.Capo = g.Capo
	}
	if s.Chord == "" && s.Changes == "" && len(g.Chords) > 0 {
		s.Chord = g.Chords[0].Symbol
	}
	if names := g.namedScales(); s.Home == "" && len(names) > 0 {
		s.Home = names[0]
		if len(s.Superimpose) == 0 {
			s.Superimpose = names[1:]
		}
	}
	if s.Home == "" && len(s.Superimpose) == 0 {
		var err error
		if s.Home, s.Superimpose, err = g.woven(s.Chord); err != nil {
			return err
		}
	}
	if s.Home == "" {
		scale, err := g.likelyHome(s.Chord)
		if err != nil {
			return err
		}
		s.Home = scale.Name()
	}
	return nil
}

// homeTypes are the scales that players are likely to call home, the likeliest first
// (common practice).
var homeTypes = []string{
	"minor pentatonic", "major pentatonic", "minor blues", "major blues", "dorian", "mixolydian", "major", "minor",
	"lydian", "phrygian", "harmonic minor", "melodic minor",
}

// likelyHome returns the scale that leaves the least time outside. In a tie, it is the
// one with the fewest unused notes, then the one whose root is the chord's, or the
// line's last note without a chord.
func (g Given) likelyHome(chord string) (pitch.Scale, error) {
	var time [12]line.Beat
	for _, n := range g.Notes {
		time[n.Pitch.Name.Class()] += n.Duration
	}
	root := g.Notes[len(g.Notes)-1].Pitch.Name
	if chord != "" {
		c, err := pitch.ParseChord(chord)
		if err != nil {
			return pitch.Scale{}, named("chord", err)
		}
		root = c.Root
	}
	var best pitch.Scale
	var bestRank [3]int
	for _, name := range g.names(root) {
		for _, typeName := range homeTypes {
			t, err := pitch.FindType(typeName)
			if err != nil {
				return pitch.Scale{}, err
			}
			scale := pitch.NewScale(name, t)
			rank := fitRank(scale, time, root)
			if best.Notes == nil || slices.Compare(rank[:], bestRank[:]) < 0 {
				best, bestRank = scale, rank
			}
		}
	}
	return best, nil
}

// names returns the note names of the line, the likely root first.
func (g Given) names(root pitch.Name) []pitch.Name {
	names := []pitch.Name{root}
	for _, n := range g.Notes {
		if !slices.Contains(names, n.Pitch.Name) {
			names = append(names, n.Pitch.Name)
		}
	}
	return names
}

// fitRank says how badly a scale fits: time outside it, notes of it unused,
// and whether its root differs from the likely one.
func fitRank(scale pitch.Scale, time [12]line.Beat, root pitch.Name) (rank [3]int) {
	for class, t := range time {
		_, in := scale.Named(class)
		switch {
		case !in:
			rank[0] += int(t)
		case t == 0:
			rank[1]++
		}
	}
	if scale.Root != root {
		rank[2] = 1
	}
	return rank
}

// exercise puts the line on the neck and analyses its notes.
func (g Given) exercise(p *plan) (*Exercise, error) {
	remark := g.intoReach(p.instrument)
	readings, err := g.read(p.spans[0].scales, p.spec.Chord)
	if err != nil {
		return nil, err
	}
	notes := make([]line.Note, len(g.Notes))
	for i, n := range g.Notes {
		notes[i] = n.Note
		if !g.Grouped {
			notes[i].Role = line.PatternRole
		}
	}
	g.group(notes, p.spans[0].scales)
	fingerings, touches, hand, err := g.play(p, notes)
	if err != nil {
		return nil, err
	}
	if p.spec.Fret == 0 {
		p.spec.Fret = middleFret(fingerings)
	}
	scales, err := p.place()
	if err != nil {
		return nil, err
	}
	ex := p.exercise(scales)
	ex.Given, ex.Readings = true, readings
	if remark != "" {
		ex.Remarks = append(ex.Remarks, remark)
	}
	end, err := p.end(notes)
	if err != nil {
		return nil, err
	}
	ex.setChords(p, end)
	if p.spec.Changes == "" && len(g.Chords) > 0 {
		if err := ex.giveChords(g.Chords); err != nil {
			return nil, err
		}
	}
	ex.Hand, ex.Pattern = hand, len(notes)
	ex.Notes = ex.analyse(p, notes, join(fingerings, touches), 0, 0)
	p.spec.Start = notes[0].Pitch.String()
	ex.Spec = p.spec
	ex.Phrases = p.givenPhrases(g.Title, len(notes))
	ex.Sentence = sentenceOf(ex.Phrases)
	return ex, ex.cutNotes(p)
}

// play fingers the line and gives it the touch that the spec asks for. What the source
// says of a note goes before both.
func (g Given) play(p *plan, notes []line.Note) ([]finger.Fingering, []touch.Touch, finger.Hand, error) {
	in := p.instrument
	l := touch.Line{Notes: notes, Meter: p.rhythm.Meter, Instrument: in, Window: neck.Window{High: in.LastFret()}}
	for i, s := range p.spans[0].scales {
		l.Scales = append(l.Scales, touch.Scale{Scale: s, Home: i == 0})
	}
	touches := p.touch.Bend(l)
	if touches == nil {
		touches = make([]touch.Touch, len(notes))
	}
	for i, n := range g.Notes {
		if err := n.Touch.Check(); err != nil {
			return nil, nil, finger.Hand{}, named("note "+strconv.Itoa(i+1)+" touch", err)
		}
		if n.Touch != (touch.Touch{}) || n.String > 0 {
			touches[i] = n.Touch
		}
	}
	candidates, err := g.candidates(&l, touches)
	if err != nil {
		return nil, nil, finger.Hand{}, err
	}
	fingerings, hand, err := finger.Assign(in, candidates, p.technique())
	if err != nil {
		return nil, nil, hand, err
	}
	for i, n := range g.Notes {
		if n.Stroke != "" {
			fingerings[i].Stroke = n.Stroke
		}
	}
	touches = p.touch.Complete(l, fingerings, touches)
	for i, n := range g.Notes {
		if n.Touch != (touch.Touch{}) {
			touches[i] = n.Touch
		}
	}
	return fingerings, touches, hand, nil
}

// candidates returns the spots for each note: the source's, or any on the neck.
func (g Given) candidates(l *touch.Line, touches []touch.Touch) ([]finger.Note, error) {
	in := l.Instrument
	list := make([]finger.Note, len(g.Notes))
	for i, n := range g.Notes {
		bend := touches[i].Bend
		key := n.Pitch.MIDI() - bend.Below()
		spots := in.SpotsOf(key)
		if bend > 0 {
			spots = slices.DeleteFunc(spots, func(s neck.Spot) bool { return s.Fret == 0 })
		}
		list[i] = finger.Note{Start: n.Start, Duration: n.Duration, MIDI: key, Bend: float64(bend), Spots: spots}
		if slices.Contains(spots, n.Spot) {
			list[i].Spots = []neck.Spot{n.Spot}
			if n.Fret > 0 {
				list[i].Given = n.Finger
			}
		} else if can := l.Spots(n.Pitch.MIDI(), bend); bend > 0 && len(can) > 0 {
			list[i].Spots = can
		}
		if len(spots) == 0 {
			return nil, &pitch.InputError{What: "note " + strconv.Itoa(i+1) + " bend", Value: n.Pitch.String(), Want: "a note that the " + in.Name + " has a fret below for"}
		}
	}
	return list, nil
}

// middleFret returns where the hand is most of the time: the median fret of the
// first finger.
func middleFret(fingerings []finger.Fingering) int {
	var frets []int
	for _, f := range fingerings {
		if f.Fret > 0 {
			frets = append(frets, max(1, f.Fret-max(0, f.Finger-1)))
		}
	}
	if len(frets) == 0 {
		return 1
	}
	slices.Sort(frets)
	return frets[len(frets)/2]
}

// giveChords puts the source's own chords over the line.
func (ex *Exercise) giveChords(given []GivenChord) error {
	ex.Chords = nil
	for i, g := range given {
		chord, err := pitch.ParseChord(g.Symbol)
		if err != nil {
			return named("chord", err)
		}
		end := ex.Length
		if i+1 < len(given) {
			end = given[i+1].Start
		}
		if end > g.Start {
			ex.Chords = append(ex.Chords, ex.voiced(chord, g.Start, end))
		}
	}
	return nil
}

// givenPhrases describes a given line in a sentence.
func (p *plan) givenPhrases(title string, notes int) []Phrase {
	w := &sentence{plan: p}
	w.say("Over ")
	w.field("chord", p.spans[0].chord.Display(p.naming))
	w.say(", " + title + ": " + countWord(notes) + plural(notes, " note") + " heard against ")
	w.field("home", p.scaleNames(0))
	for i := range p.spans[0].scales[1:] {
		w.say(" and ")
		w.nth("superimpose", p.scaleNames(i+1), i)
	}
	w.say(", at ")
	w.field("tempo", number(p.spec.Tempo))
	w.cut()
	w.say(".")
	return w.phrases
}

package exercise

import (
	"slices"
	"strconv"

	"heddle/line"
	"heddle/line/landing"
	"heddle/pitch"
)

// land finds the endings of the pattern and picks the one that the spec asks
// for; there is none if the line is not to land.
func (p *plan) land(ex *Exercise, pattern []line.Note) (*landing.Ending, []landing.Ending, error) {
	if len(p.targets) == 0 {
		if p.spec.Ending != 1 {
			return nil, nil, &pitch.InputError{What: "ending", Value: strconv.Itoa(p.spec.Ending), Want: "1, since land is none"}
		}
		return nil, nil, nil
	}
	request := landing.Request{Line: pattern, Sections: p.placed, Instrument: p.instrument, Rhythm: p.rhythm}
	beats, err := p.landingBeats(pattern)
	if err != nil {
		return nil, nil, err
	}
	for _, at := range beats {
		request.Goals = append(request.Goals, p.goal(at, ex.ChordAt(at)))
	}
	endings := landing.Find(request)
	if len(endings) == 0 {
		return nil, nil, &pitch.InputError{What: "land", Value: p.spec.Land, Want: "a degree that the hand reaches from the end of the pattern, or none"}
	}
	if p.spec.Ending > len(endings) {
		return nil, nil, &pitch.InputError{What: "ending", Value: strconv.Itoa(p.spec.Ending), Want: "1 to " + strconv.Itoa(len(endings)) + ", as many as there are"}
	}
	for _, e := range endings {
		for i := range e.Notes {
			if e.Notes[i].Scale != line.Chromatic {
				e.Notes[i].Scale = p.scaleOf[e.Notes[i].Scale]
			}
		}
	}
	return &endings[p.spec.Ending-1], endings, nil
}

// goal returns what it means to land at a time.
func (p *plan) goal(at line.Beat, chord Chord) landing.Goal {
	g := landing.Goal{At: at}
	for _, d := range chord.Degrees {
		g.Chord = append(g.Chord, (chord.Root.Class()+d.Class())%12)
	}
	for _, t := range p.targets {
		name := chord.Target(t.degree)
		g.Targets = append(g.Targets, landing.Target{Name: name, Degree: chord.Degree(name, pitch.Scale{})})
	}
	return g
}

// landingBeats returns the beats where the pattern may land, the one asked for last.
func (p *plan) landingBeats(pattern []line.Note) ([]line.Beat, error) {
	beats, err := landing.Beats(pattern[len(pattern)-1].End(), p.rhythm.Meter, p.spec.LandBeat, p.spec.Bars)
	return beats, named("land-beat", err)
}

// handMemory is how many notes before an alternative ending are fingered with it, so
// that the hand begins where the line leaves it.
const handMemory = 4

// setEndings fingers and names each ending.
func (ex *Exercise) setEndings(p *plan, pattern []line.Note, endings []landing.Ending) error {
	ex.Endings = make([]Ending, len(endings))
	for i, e := range endings {
		kept := len(pattern) - e.Replaced
		reached := e.Notes[len(e.Notes)-1]
		chord := ex.ChordAt(e.At)
		asked := slices.IndexFunc(p.targets, func(t target) bool { return chord.Target(t.degree) == reached.Pitch.Name })
		ex.Endings[i] = Ending{Replaced: e.Replaced, Target: p.targets[asked].word, At: e.At, Kind: e.Kind.String(), Cost: e.Cost}
		if i == p.spec.Ending-1 {
			ex.Endings[i].Notes = slices.Clone(ex.Notes[kept:])
			continue
		}
		from := max(0, kept-handMemory)
		notes := slices.Concat(pattern[from:kept], e.Notes)
		played, _, err := ex.play(p, notes)
		if err != nil {
			return err
		}
		ex.Endings[i].Notes = ex.analyse(p, e.Notes, played[kept-from:], kept, e.At)
	}
	return nil
}

// BarBeat says where in the metre a time is: "bar 8, beat 1".
func (ex *Exercise) BarBeat(at line.Beat) string {
	bar := ex.Rhythm.Meter.Bar()
	return "bar " + strconv.Itoa(int(at/bar)+1) + ", beat " + number(1+float64(at%bar)/float64(ex.Rhythm.Meter.Beat()))
}

package exercise

import (
	"slices"
	"strconv"

	"heddle/finger"
	"heddle/line"
	"heddle/pitch"
)

// land finds the endings of the pattern and picks the one that the spec asks
// for; there is none if the line is not to land.
func (p *plan) land(ex *Exercise, pattern []line.Note) (*line.Ending, []line.Ending, error) {
	if len(p.targets) == 0 {
		if p.spec.Ending != 1 {
			return nil, nil, &pitch.InputError{What: "ending", Value: strconv.Itoa(p.spec.Ending), Want: "1, since land is none"}
		}
		return nil, nil, nil
	}
	at, err := p.landingBeat(pattern)
	if err != nil {
		return nil, nil, err
	}
	chord := ex.ChordAt(at)
	var targets []line.Target
	for _, t := range p.targets {
		name := chord.Target(t.degree)
		targets = append(targets, line.Target{Name: name, Degree: chord.Degree(name, pitch.Scale{})})
	}
	endings := line.Land(line.LandRequest{
		Line: pattern, At: at, Targets: targets, Sections: p.placed, Instrument: p.instrument, Rhythm: p.rhythm,
	})
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

// landingBeat returns when the pattern lands.
func (p *plan) landingBeat(pattern []line.Note) (line.Beat, error) {
	last := pattern[len(pattern)-1]
	at, err := line.LandingBeat(last.Start+last.Duration, p.rhythm.Meter, p.spec.LandBeat, p.spec.Bars)
	return at, named("land-beat", err)
}

// handMemory is how many notes before an alternative ending are fingered with it, so
// that the hand begins where the line leaves it.
const handMemory = 4

// setEndings fingers and names each ending.
func (ex *Exercise) setEndings(p *plan, pattern []line.Note, endings []line.Ending) error {
	ex.Endings = make([]Ending, len(endings))
	for i, e := range endings {
		kept := len(pattern) - e.Replaced
		reached := e.Notes[len(e.Notes)-1]
		chord := ex.ChordAt(reached.Start)
		asked := slices.IndexFunc(p.targets, func(t target) bool { return chord.Target(t.degree) == reached.Pitch.Name })
		ex.Endings[i] = Ending{Replaced: e.Replaced, Target: p.targets[asked].word, Cost: e.Cost}
		if i == p.spec.Ending-1 {
			ex.Endings[i].Notes = slices.Clone(ex.Notes[kept:])
			continue
		}
		from := max(0, kept-handMemory)
		notes := slices.Concat(pattern[from:kept], e.Notes)
		fingerings, _, err := finger.Assign(ex.Instrument, ex.candidates(notes), p.technique())
		if err != nil {
			return err
		}
		ex.Endings[i].Notes = ex.analyse(p, e.Notes, fingerings[kept-from:], kept)
	}
	return nil
}

// Package pluck sounds plucked strings: a waveguide for each string, the pick
// and the pick-up that set it going, and the amplifier or body it is heard
// through. Guitar, bass, ukulele and mandolin differ only in figures.
//
// A string is in tune within one cent of equal temperament at A4 = 440 Hz, at
// every fret.
package pluck

import (
	"math"
	"slices"

	"heddle/finger"
	"heddle/pitch"
	"heddle/sound/dsp"
	"heddle/sound/mixer"
)

// A Note is one note for a strung instrument.
type Note struct {
	Index   int // of the exercise's note; for marks
	At, Off int64
	String  int // from 0
	Open    float64
	Fret    float64
	Stroke  finger.Stroke
	Force   float64 // 0 to 1
	Mute    float64 // how firmly the palm rests on the string, 0 to 1
	Shift   float64 // mm that the hand moves along the string just before
	Glide   int64   // samples a slide takes; 0 for none
	Bound   bool    // a slide follows that takes this note along
	Path    []Move  // how the pitch moves while the note sounds
	Dice    dsp.Dice

	on *vibration
	id int
}

// A Move takes a note's pitch along a smooth step to some semitones from where
// it is fretted. A bend is one move, a release a second one, and vibrato a chain of
// them, each half a turn.
type Move struct {
	At, Over  int64 // samples after the note's own At, and how long the way takes
	Semitones float64
}

// Key returns the key the note sounds.
func (n *Note) Key() float64 { return n.Open + n.Fret }

// An action is the moment at which a hand does something.
type action struct {
	at   int64
	kind actionKind
	note *Note
	move Move
}

// What hands do. At one moment they do it in this order.
type actionKind int

const (
	letGo actionKind = iota
	rub
	slideOff
	strike
	move
)

// voicesPerString lets a string that is struck again before the last sound of
// it has died away keep that sound for a moment.
const voicesPerString = 3

// An Instrument plays a strung instrument.
type Instrument struct {
	kind    Strung
	scaleMM float64
	rate    float64
	stage   *stage
	rubbed  rubbing
	knocked knock
	place   mixer.Place

	strings [][voicesPerString]*vibration
	turn    []int // of each string: the voice that sounds last
	owner   map[*vibration]int
	ids     int
	actions []action
	mono    []float32
	room    []float32 // for a moment
}

// New returns an instrument at rest. Open are the keys of its open
// strings.
func New(kind Strung, open []float64, scaleMM, rate float64, pl mixer.Place) *Instrument {
	p := &Instrument{kind: kind, scaleMM: scaleMM, rate: rate, stage: newStage(kind.out, rate), place: pl,
		owner: map[*vibration]int{}, turn: make([]int, len(open)), mono: make([]float32, mixer.BlockLength), room: make([]float32, mixer.BlockLength)}
	for _, key := range open {
		var voices [voicesPerString]*vibration
		for i := range voices {
			voices[i] = newVibration(key, rate, kind.planes)
		}
		p.strings = append(p.strings, voices)
	}
	return p
}

// Queue takes in notes to play, but for those that begin before from.
func (p *Instrument) Queue(notes []Note, from int64) {
	for i := range notes {
		n := &notes[i]
		if n.At-n.Glide < from {
			continue
		}
		p.ids++
		n.id = p.ids
		if n.Glide > 0 {
			p.act(n.At-n.Glide, slideOff, n)
		} else {
			p.act(n.At, strike, n)
		}
		if n.Shift > 0 && n.Open < p.kind.plainFrom && n.Glide == 0 {
			p.act(max(n.At-int64(rubS*p.rate), from), rub, n)
		}
		for _, m := range n.Path {
			p.actions = append(p.actions, action{n.At + m.At, move, n, m})
		}
		if !n.Bound {
			p.act(n.Off, letGo, n)
		}
	}
	slices.SortStableFunc(p.actions, func(a, b action) int {
		if a.at != b.at {
			return int(a.at - b.at)
		}
		return int(a.kind - b.kind)
	})
}

// act adds something for the hands to do.
func (p *Instrument) act(at int64, kind actionKind, n *Note) {
	p.actions = append(p.actions, action{at: at, kind: kind, note: n})
}

// Play adds a block of the instrument to the mix.
func (p *Instrument) Play(b *mixer.Block) {
	n := len(b.Left)
	mono := p.mono[:n]
	clear(mono)
	played := false
	for at := 0; at < n; {
		for len(p.actions) > 0 && p.actions[0].at <= b.From+int64(at) {
			p.do(p.actions[0])
			p.actions = p.actions[1:]
		}
		end := n
		if len(p.actions) > 0 {
			end = int(min(int64(end), p.actions[0].at-b.From))
		}
		played = p.sound(mono[at:end]) || played
		at = end
	}
	if p.stage.play(mono, played) {
		b.Add(mono, p.place)
	}
}

// sound adds every string to out.
func (p *Instrument) sound(out []float32) (played bool) {
	for _, voices := range p.strings {
		for _, v := range voices {
			if v.playing {
				v.sound(out)
				played = true
			}
		}
	}
	p.knocked.sound(out, p.room)
	return p.rubbed.sound(out) || played
}

// do carries out an action.
func (p *Instrument) do(a action) {
	n := a.note
	switch a.kind {
	case letGo:
		if n.on != nil && p.owner[n.on] == n.id {
			n.on.damp(p.kind.dampS)
		}
	case rub:
		p.rubbed = newRubbing(n, p.kind.rub, p.rate)
	case slideOff:
		if v := p.strings[n.String][p.turn[n.String]]; v.playing && v.fade == 0 {
			n.on, p.owner[v] = v, n.id
			v.moveTo(n.Key(), int(n.Glide))
			return
		}
		p.strike(n)
	case strike:
		p.strike(n)
	case move:
		if n.on != nil && p.owner[n.on] == n.id {
			n.on.moveTo(n.Key()+a.move.Semitones, int(a.move.Over))
		}
	}
}

// struckAgainS is how fast a string that is struck again loses what it had.
const struckAgainS = 0.02

// strike plucks a string.
func (p *Instrument) strike(n *Note) {
	s := n.String
	old := p.strings[s][p.turn[s]]
	old.damp(struckAgainS)
	p.turn[s] = (p.turn[s] + 1) % voicesPerString
	v := p.strings[s][p.turn[s]]
	period := p.rate / pitch.Frequency(n.Key())
	openS := 1 / pitch.Frequency(n.Open) // of travel along the whole string and back
	pu := pickup{travelS: openS * p.kind.pickupMM / p.scaleMM, depth: p.kind.depth, tones: p.kind.tones}
	l, b := p.kind.strung(n.Open, n.Fret)
	t := p.touchOf(n, openS*p.rate)
	if t.scrape > 0 { // a stroke, not the other hand
		p.knocked = newKnock(n, p.kind.knock*t.strength, p.rate)
	}
	v.start(n.Key(), l.muted(n.Mute), b, pu.pushOf(t, period, p.rate, &n.Dice))
	n.on, p.owner[v] = v, n.id
}

// touchOf returns how a note's stroke touches the string, whose whole length
// and back takes the wave a number of samples.
func (p *Instrument) touchOf(n *Note, length float64) touch {
	k := p.kind
	width := k.softS + (k.hardS-k.softS)*n.Force
	width *= 1 + n.Mute // the palm is near the pick
	t := touch{strength: strengthOf(n.Force), place: length * k.pickMM / p.scaleMM, widthS: width, scrape: k.scrape}
	if n.Open < k.plainFrom {
		t.scrape *= woundScrape // the pick runs over the windings
	}
	switch n.Stroke {
	case finger.Up: // a little lighter, and the pick's edge brighter
		t.strength *= 0.94
		t.widthS *= 0.9
	case finger.HammerOn: // the string is struck at the fret, by flesh
		t.strength *= 0.75
		t.widthS, t.scrape = 2.2*k.softS, 0
		t.place = 0.5 * length
	case finger.PullOff:
		t.strength *= 0.72
		t.widthS, t.scrape = 1.6*k.softS, 0
		t.place = 0.3 * length
	case finger.Slide:
		t.strength *= 0.7
		t.widthS, t.scrape = 1.6*k.softS, 0
	}
	return t
}

// woundScrape is how much louder a pick is on a wound string.
const woundScrape = 1.6

// strengthOf turns force into amplitude: 18 dB from the softest stroke to
// the hardest.
func strengthOf(force float64) float64 { return 0.25 * math.Pow(10, 18.0/20*(force-1)) }

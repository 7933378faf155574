package sound

import (
	"math"
	"slices"

	"heddle/finger"
	"heddle/pitch"
)

// A pluckedNote is one note for a strung instrument.
type pluckedNote struct {
	index   int // of the exercise's note; for marks
	at, off int64
	string  int // from 0
	open    float64
	fret    float64
	stroke  finger.Stroke
	force   float64 // 0 to 1
	glide   int64   // samples a slide takes; 0 for none
	bound   bool    // a slide follows that takes this note along
	dice    dice

	on *vibration
	id int
}

// key returns the key the note sounds.
func (n *pluckedNote) key() float64 { return n.open + n.fret }

// An action is the moment at which a hand does something.
type action struct {
	at   int64
	kind actionKind
	note *pluckedNote
}

// What hands do. At one moment they do it in this order.
type actionKind int

const (
	letGo actionKind = iota
	slideOff
	strike
)

// voicesPerString lets a string that is struck again before the last sound of
// it has died away keep that sound for a moment.
const voicesPerString = 3

// A plucked plays a strung instrument.
type plucked struct {
	kind    strung
	scaleMM float64
	rate    float64
	amp     *amp
	place   place
	notes   func(pass) []pluckedNote

	strings [][voicesPerString]*vibration
	turn    []int // of each string: the voice that sounds last
	owner   map[*vibration]int
	ids     int
	actions []action
	mono    []float32
}

// newPlucked returns an instrument at rest. Open are the keys of its open
// strings.
func newPlucked(kind strung, open []float64, scaleMM, rate float64, pl place, notes func(pass) []pluckedNote) *plucked {
	p := &plucked{kind: kind, scaleMM: scaleMM, rate: rate, amp: newAmp(kind.amp, rate), place: pl, notes: notes,
		owner: map[*vibration]int{}, turn: make([]int, len(open)), mono: make([]float32, blockLength)}
	for _, key := range open {
		var voices [voicesPerString]*vibration
		for i := range voices {
			voices[i] = newVibration(key, rate)
		}
		p.strings = append(p.strings, voices)
	}
	return p
}

// feed takes in the notes of a pass.
func (p *plucked) feed(ps pass, from int64) {
	notes := p.notes(ps)
	for i := range notes {
		n := &notes[i]
		if n.at-n.glide < from {
			continue
		}
		p.ids++
		n.id = p.ids
		if n.glide > 0 {
			p.actions = append(p.actions, action{n.at - n.glide, slideOff, n})
		} else {
			p.actions = append(p.actions, action{n.at, strike, n})
		}
		if !n.bound {
			p.actions = append(p.actions, action{n.off, letGo, n})
		}
	}
	slices.SortStableFunc(p.actions, func(a, b action) int {
		if a.at != b.at {
			return int(a.at - b.at)
		}
		return int(a.kind - b.kind)
	})
}

// play adds a block of the instrument to the mix.
func (p *plucked) play(b *block) {
	n := len(b.left)
	mono := p.mono[:n]
	clear(mono)
	played := false
	for at := 0; at < n; {
		for len(p.actions) > 0 && p.actions[0].at <= b.from+int64(at) {
			p.do(p.actions[0])
			p.actions = p.actions[1:]
		}
		end := n
		if len(p.actions) > 0 {
			end = int(min(int64(end), p.actions[0].at-b.from))
		}
		played = p.sound(mono[at:end]) || played
		at = end
	}
	if p.amp.play(mono, played, p.rate) {
		b.add(mono, p.place)
	}
}

// sound adds every string to out.
func (p *plucked) sound(out []float32) (played bool) {
	for _, voices := range p.strings {
		for _, v := range voices {
			if v.playing {
				v.sound(out)
				played = true
			}
		}
	}
	return played
}

// do carries out an action.
func (p *plucked) do(a action) {
	n := a.note
	switch a.kind {
	case letGo:
		if n.on != nil && p.owner[n.on] == n.id {
			n.on.damp(p.kind.dampS)
		}
	case slideOff:
		if v := p.strings[n.string][p.turn[n.string]]; v.playing && v.fade == 0 {
			n.on, p.owner[v] = v, n.id
			v.losses = p.kind.losses(n.open, n.fret)
			v.slide(n.key(), int(n.glide))
			return
		}
		p.strike(n)
	case strike:
		p.strike(n)
	}
}

// struckAgainS is how fast a string that is struck again loses what it had.
const struckAgainS = 0.02

// strike sets a string going anew.
func (p *plucked) strike(n *pluckedNote) {
	s := n.string
	old := p.strings[s][p.turn[s]]
	old.damp(struckAgainS)
	p.turn[s] = (p.turn[s] + 1) % voicesPerString
	v := p.strings[s][p.turn[s]]
	period := p.rate / pitch.Frequency(n.key())
	openS := 1 / pitch.Frequency(n.open) // of travel along the whole string and back
	pu := pickup{travelS: openS * p.kind.pickupMM / p.scaleMM, depth: p.kind.depth, tones: p.kind.tones}
	v.start(n.key(), p.kind.losses(n.open, n.fret), pu.pushOf(p.touchOf(n, openS*p.rate), period, p.rate, &n.dice))
	n.on, p.owner[v] = v, n.id
}

// touchOf returns how a note's stroke touches the string, whose whole length
// and back takes the wave a number of samples.
func (p *plucked) touchOf(n *pluckedNote, length float64) touch {
	k := p.kind
	width := k.softS + (k.hardS-k.softS)*n.force
	t := touch{strength: strengthOf(n.force), place: length * k.pickMM / p.scaleMM, widthS: width, scrape: k.scrape}
	switch n.stroke {
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

// strengthOf turns force into amplitude: 18 dB from the softest stroke to
// the hardest.
func strengthOf(force float64) float64 { return 0.25 * math.Pow(10, 18.0/20*(force-1)) }

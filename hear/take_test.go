package hear

import (
	"math"
	"math/rand/v2"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// A played note is the truth of one sound in a rendered take.
type played struct {
	onS, offS float64
	key       int
	velocity  int
	legato    bool // sounds by a change of pitch, without a stroke
	index     int  // the exercise's note it stands for, −1 for an extra one
	undone    bool // a later attempt replaces it
}

// A take is an exercise, what the player made of it, and what a fair teacher
// would say.
type take struct {
	name     string
	exercise *exercise.Exercise
	played   []played
	verdicts []string // by exercise note: right, wrong, missed
	mistake  []string // by exercise note: what was done on purpose, or ""
	extras   int
	cents    float64 // how far the whole guitar is out of tune
	program  int
	tempo    float64
	touch    string
	blind    []Heard // what is heard of it without its exercise
}

// A player is how a take is played; all of it is drawn from a seed.
type player struct {
	tempo      float64
	value      line.Value
	program    int
	touch      string // picked, staccato, overlapped, ringing, hammered
	unevenS    float64
	drift      float64 // relative tempo change from start to end
	cents      float64
	loud, soft int
	mistakes   float64 // share of notes with a mistake
	restart    bool
	stop       bool
}

var touches = []string{"picked", "picked", "staccato", "overlapped", "ringing", "hammered"}

func drawPlayer(r *rand.Rand, program int) player {
	p := player{
		tempo: 60 + 140*r.Float64(), value: []line.Value{line.Eighth, line.EighthTriplet, line.Sixteenth}[r.IntN(3)],
		program: program, touch: touches[r.IntN(len(touches))],
		unevenS: 0.002 + 0.010*r.Float64(), drift: 0.04 * (r.Float64() - 0.5),
		cents: 80*r.Float64() - 40, loud: 90 + r.IntN(30), soft: 55 + r.IntN(20),
		mistakes: 0.12 * r.Float64(), restart: r.IntN(5) == 0, stop: r.IntN(8) == 0,
	}
	if program == mutedGuitar && p.touch == "hammered" {
		p.touch = "picked" // a muted string is silent before a second finger falls
	}
	if program >= mutedGuitar && p.touch == "ringing" {
		p.touch = "staccato" // with gain, two strings at once are mud: players damp
	}
	return p
}

// The General MIDI programs are nylon, steel, jazz, clean, muted, overdriven
// and distorted guitar, from 24 on.
const mutedGuitar = 28

// perform plays an exercise as the player would, mistakes and all.
func perform(r *rand.Rand, ex *exercise.Exercise, p player) take {
	t := take{exercise: ex, cents: p.cents, program: p.program, tempo: p.tempo, touch: p.touch}
	n := len(ex.Notes)
	t.verdicts, t.mistake = make([]string, n), make([]string, n)
	quarterS := 60 / p.tempo
	startS := 0.15 + 0.6*r.Float64()
	stop := n
	if p.stop {
		stop = n/2 + r.IntN(n/2)
	}
	restartAt := -1
	if p.restart && stop > 12 {
		restartAt = 6 + r.IntN(stop-8)
	}
	total := float64(ex.Notes[n-1].Start) / 960
	shift := 0.0
	for i := 0; i < stop; i++ {
		note := ex.Notes[i]
		beat := note.Start.Quarters()
		lengthS := note.Duration.Quarters() * quarterS
		warped := beat * (1 + p.drift*(beat/total-0.5))
		onS := startS + shift + warped*quarterS + clamp(r.NormFloat64()*p.unevenS, 0.2*lengthS)
		t.playNote(r, p, i, onS, lengthS)
		if i == restartAt {
			restartAt = -1
			back := r.IntN(i)
			if r.IntN(2) == 0 {
				back = 0
			}
			for k := range t.played {
				t.played[k].undone = t.played[k].undone || t.played[k].index >= back
			}
			for k := back; k <= i; k++ {
				t.verdicts[k], t.mistake[k] = "", ""
			}
			pauseS := 0.4 + 1.2*r.Float64()
			backBeat := ex.Notes[back].Start.Quarters()
			backWarped := backBeat * (1 + p.drift*(backBeat/total-0.5))
			shift += (warped-backWarped)*quarterS + lengthS + pauseS
			i = back - 1
		}
	}
	for i := range n {
		if t.verdicts[i] == "" {
			t.verdicts[i] = "missed"
		}
	}
	t.finish(r, p)
	return t
}

func clamp(x, limit float64) float64 { return max(-limit, min(limit, x)) }

// playNote plays one note, perhaps with a mistake, and enters the verdict it
// deserves.
func (t *take) playNote(r *rand.Rand, p player, i int, onS, lengthS float64) {
	key := t.exercise.Notes[i].Pitch.MIDI()
	t.verdicts[i] = "right"
	if r.Float64() < p.mistakes && i > 0 {
		kinds := []string{"wrong", "octave", "missed", "early", "late"}
		if lengthS > 0.16 {
			kinds = append(kinds, "extra")
		}
		kind := kinds[r.IntN(len(kinds))]
		switch kind {
		case "wrong":
			for _, by := range r.Perm(4) {
				wrong := key + []int{-2, -1, 1, 2}[by]
				if wrong != t.lastKey() && (i+1 >= len(t.exercise.Notes) || wrong != t.exercise.Notes[i+1].Pitch.MIDI()) {
					key = wrong
					t.verdicts[i] = "wrong"
					break
				}
			}
			if t.verdicts[i] != "wrong" {
				kind = ""
			}
		case "octave":
			if key >= 53 && (key > 76 || r.IntN(2) == 0) {
				key -= 12
			} else {
				key += 12
			}
			t.verdicts[i] = "wrong"
		case "missed":
			t.verdicts[i] = "missed"
			t.mistake[i] = kind
			return
		case "early":
			onS -= min(0.3*lengthS, 0.08)
		case "late":
			onS += min(0.3*lengthS, 0.08)
		case "extra":
			extra := key + []int{-3, -1, 0, 1, 2, 4}[r.IntN(6)]
			t.played = append(t.played, played{onS: onS + lengthS/2, key: extra, index: -1})
			t.extras++
			// the extra one is placed after the note below
			defer func() {
				last := len(t.played) - 1
				t.played[last-1], t.played[last] = t.played[last], t.played[last-1]
			}()
		}
		t.mistake[i] = kind
	}
	t.played = append(t.played, played{onS: onS, key: key, index: i})
}

func (t *take) lastKey() int {
	if len(t.played) == 0 {
		return -1
	}
	return t.played[len(t.played)-1].key
}

// finish gives each note its length, loudness and touch.
func (t *take) finish(r *rand.Rand, p player) {
	inLegato := 0
	for i := range t.played {
		n := &t.played[i]
		n.velocity = p.soft + r.IntN(p.loud-p.soft)
		nextS := n.onS + 0.6
		if i+1 < len(t.played) {
			nextS = t.played[i+1].onS
		}
		gap := min(nextS-n.onS, 1.2)
		switch p.touch {
		case "staccato":
			n.offS = n.onS + gap*(0.45+0.2*r.Float64())
		case "overlapped":
			n.offS = n.onS + gap + 0.015 + 0.045*r.Float64()
		case "ringing":
			n.offS = n.onS + min(2.2*gap, gap+0.1+0.3*r.Float64()) // at most two strings ring on
		default:
			n.offS = n.onS + gap*(0.85+0.13*r.Float64())
		}
		if p.touch == "hammered" {
			n.offS = n.onS + gap
			jump := 99
			if i > 0 {
				jump = int(math.Abs(float64(n.key - t.played[i-1].key)))
			}
			if i > 0 && jump >= 1 && jump <= 4 && inLegato < 3 && n.onS-t.played[i-1].onS < 0.8 && r.IntN(3) > 0 {
				n.legato = true
				inLegato++
				t.played[i-1].offS = n.onS
			} else {
				inLegato = 0
			}
		}
	}
}

// events writes the take as MIDI. Each stroke has a channel of its own, so
// that a bend moves one string only.
func (t *take) events() []midiEvent {
	const channels = 8
	var events []midiEvent
	for c := range channels {
		events = append(events, program(c, t.program))
		events = append(events, bendSetup(c)...)
	}
	tune := t.cents / 100
	channel, struck := 0, 0
	for i, n := range t.played {
		if n.legato {
			events = append(events, bend(n.onS, channel, tune+float64(n.key-struck)))
		} else {
			channel, struck = (channel+1)%channels, n.key
			events = append(events, bend(n.onS-0.0005, channel, tune), noteOn(n.onS, channel, n.key, n.velocity))
		}
		if i+1 == len(t.played) || !t.played[i+1].legato {
			events = append(events, noteOff(n.offS, channel, struck))
		}
	}
	return events
}

// The keys and the shifts that random exercises are drawn from.
var (
	drawnRoots  = []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	drawnScales = []string{"minor pentatonic", "major pentatonic", "blues", "dorian", "melodic minor"}
	drawnShifts = []string{"semitone up", "semitone down", "tritone", "minor third up", "tone up", "fourth up", "major third up"}
)

// longestExercise is where long exercises are cut, so that fast and slow ones
// weigh alike.
const longestExercise = 60

// randomExercise builds an exercise in any key and position. Specs that no
// hand can play are drawn again.
func randomExercise(t testing.TB, r *rand.Rand, p player) *exercise.Exercise {
	t.Helper()
	for range 100 {
		size := 2 + r.IntN(3)
		ex, err := exercise.Build(exercise.Spec{
			Home:        drawnRoots[r.IntN(len(drawnRoots))] + " " + drawnScales[r.IntN(len(drawnScales))],
			Superimpose: []string{drawnShifts[r.IntN(len(drawnShifts))]},
			Groups:      []int{size, size},
			Direction:   []string{"down", "up", "down-up", "up-down"}[r.IntN(4)],
			Follow:      []string{"first", "last"}[r.IntN(2)],
			Fret:        r.IntN(14),
			Value:       string(p.value),
			Tempo:       math.Round(p.tempo * (0.9 + 0.2*r.Float64())),
		})
		if err == nil && len(ex.Notes) >= 20 {
			ex.Notes = ex.Notes[:min(len(ex.Notes), longestExercise)]
			return ex
		}
	}
	t.Fatal("no exercise could be drawn")
	return nil
}

func spelled(key int) pitch.Pitch {
	names := []string{"C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"}
	p, err := pitch.Parse(names[key%12] + string(rune('0'+key/12-1)))
	if err != nil {
		panic(err)
	}
	return p
}

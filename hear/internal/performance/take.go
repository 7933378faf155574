package performance

import (
	"math"
	"math/rand/v2"

	"heddle/exercise"
	"heddle/hear"
)

// A Note is the truth of one sound in a rendered take.
type Note struct {
	OnS, OffS float64
	Key       int
	Velocity  int
	Legato    bool // sounds by a change of pitch, without a stroke
	Index     int  // of the exercise's note, −1 for an extra one
}

// A Take is an exercise, what the player made of it, and what a fair teacher
// would say.
type Take struct {
	Name     string
	Exercise *exercise.Exercise
	Played   []Note
	Verdicts []hear.Verdict // deserved, by exercise note
	Mistakes []string       // made on purpose, by exercise note, or ""
	Extras   int
	Cents    float64 // how far the whole guitar is out of tune
	Program  int     // of General MIDI
	Tempo    float64
	Touch    string
}

// Perform plays an exercise as the player would, mistakes and all.
func Perform(r *rand.Rand, ex *exercise.Exercise, p Player) Take {
	t := Take{Exercise: ex, Cents: p.Cents, Program: p.Program, Tempo: p.Tempo, Touch: p.Touch}
	n := len(ex.Notes)
	t.Verdicts, t.Mistakes = make([]hear.Verdict, n), make([]string, n)
	quarterS := 60 / p.Tempo
	startS := 0.15 + 0.6*r.Float64()
	stop := n
	if p.Stop {
		stop = n/2 + r.IntN(n/2)
	}
	restartAt := -1
	if p.Restart && stop > 12 {
		restartAt = 6 + r.IntN(stop-8)
	}
	total := float64(ex.Notes[n-1].Start) / 960
	shift := 0.0
	for i := 0; i < stop; i++ {
		note := ex.Notes[i]
		beat := note.Start.Quarters()
		lengthS := note.Duration.Quarters() * quarterS
		warped := beat * (1 + p.Drift*(beat/total-0.5))
		onS := startS + shift + warped*quarterS + clamp(r.NormFloat64()*p.unevenS, 0.2*lengthS)
		t.playNote(r, p, i, onS, lengthS)
		if i == restartAt {
			restartAt = -1
			back := r.IntN(i)
			if r.IntN(2) == 0 {
				back = 0
			}
			for k := back; k <= i; k++ {
				t.Verdicts[k], t.Mistakes[k] = "", ""
			}
			pauseS := 0.4 + 1.2*r.Float64()
			backBeat := ex.Notes[back].Start.Quarters()
			backWarped := backBeat * (1 + p.Drift*(backBeat/total-0.5))
			shift += (warped-backWarped)*quarterS + lengthS + pauseS
			i = back - 1
		}
	}
	for i := range n {
		if t.Verdicts[i] == "" {
			t.Verdicts[i] = hear.Missed
		}
	}
	t.finish(r, p)
	return t
}

func clamp(x, limit float64) float64 { return max(-limit, min(limit, x)) }

// playNote plays one note, perhaps with a mistake, and enters the verdict it
// deserves.
func (t *Take) playNote(r *rand.Rand, p Player, i int, onS, lengthS float64) {
	key := t.Exercise.Notes[i].Pitch.MIDI()
	t.Verdicts[i] = hear.Right
	if r.Float64() < p.Mistakes && i > 0 {
		kinds := []string{"wrong", "octave", "missed", "early", "late"}
		if lengthS > 0.16 {
			kinds = append(kinds, "extra")
		}
		kind := kinds[r.IntN(len(kinds))]
		switch kind {
		case "wrong":
			for _, by := range r.Perm(4) {
				wrong := key + []int{-2, -1, 1, 2}[by]
				if wrong != t.lastKey() && (i+1 >= len(t.Exercise.Notes) || wrong != t.Exercise.Notes[i+1].Pitch.MIDI()) {
					key = wrong
					t.Verdicts[i] = hear.Wrong
					break
				}
			}
			if t.Verdicts[i] != hear.Wrong {
				kind = ""
			}
		case "octave":
			if key >= 53 && (key > 76 || r.IntN(2) == 0) {
				key -= 12
			} else {
				key += 12
			}
			t.Verdicts[i] = hear.Wrong
		case "missed":
			t.Verdicts[i] = hear.Missed
			t.Mistakes[i] = kind
			return
		case "early":
			onS -= min(0.3*lengthS, 0.08)
		case "late":
			onS += min(0.3*lengthS, 0.08)
		case "extra":
			extra := key + []int{-3, -1, 0, 1, 2, 4}[r.IntN(6)]
			t.Played = append(t.Played, Note{OnS: onS + lengthS/2, Key: extra, Index: -1})
			t.Extras++
			// the extra one is placed after the note below
			defer func() {
				last := len(t.Played) - 1
				t.Played[last-1], t.Played[last] = t.Played[last], t.Played[last-1]
			}()
		}
		t.Mistakes[i] = kind
	}
	t.Played = append(t.Played, Note{OnS: onS, Key: key, Index: i})
}

func (t *Take) lastKey() int {
	if len(t.Played) == 0 {
		return -1
	}
	return t.Played[len(t.Played)-1].Key
}

// finish gives each note its length, loudness and touch.
func (t *Take) finish(r *rand.Rand, p Player) {
	inLegato := 0
	for i := range t.Played {
		n := &t.Played[i]
		n.Velocity = p.soft + r.IntN(p.loud-p.soft)
		nextS := n.OnS + 0.6
		if i+1 < len(t.Played) {
			nextS = t.Played[i+1].OnS
		}
		gap := min(nextS-n.OnS, 1.2)
		switch p.Touch {
		case "staccato":
			n.OffS = n.OnS + gap*(0.45+0.2*r.Float64())
		case "overlapped":
			n.OffS = n.OnS + gap + 0.015 + 0.045*r.Float64()
		case "ringing":
			n.OffS = n.OnS + min(2.2*gap, gap+0.1+0.3*r.Float64()) // at most two strings ring on
		default:
			n.OffS = n.OnS + gap*(0.85+0.13*r.Float64())
		}
		if p.Touch == "hammered" {
			n.OffS = n.OnS + gap
			jump := 99
			if i > 0 {
				jump = int(math.Abs(float64(n.Key - t.Played[i-1].Key)))
			}
			if i > 0 && jump >= 1 && jump <= 4 && inLegato < 3 && n.OnS-t.Played[i-1].OnS < 0.8 && r.IntN(3) > 0 {
				n.Legato = true
				inLegato++
				t.Played[i-1].OffS = n.OnS
			} else {
				inLegato = 0
			}
		}
	}
}

package touch

// A Move takes a note's pitch along a smooth step to so many semitones from the note
// at its fret.
type Move struct {
	AtS, OverS float64 // seconds after the note begins, and how long the way takes; 0 jumps
	Semitones  float64
}

// How players move the pitch, in seconds and semitones. The figures are heddle's
// own.
const (
	bendWaitS   = 0.03 // before a string is pushed
	bendS       = 0.16 // to push it by a semitone or a tone
	releaseS    = 0.14
	slideRestS  = 0.01 // before a slide into a note begins
	slideIntoS  = 0.07
	slideS      = 0.06 // to the next note
	vibratoHz   = 5.5
	vibratoWide = 0.35 // it only raises the pitch, as a pushed string does
	vibratoFrom = 0.25 // of the note, after which it begins
)

// curlFrom and curlTo are the shares of a note between which a quarter-tone bend
// rises.
const curlFrom, curlTo = 0.2, 0.6

// Path returns how the pitch of a note moves, in the order of time. LengthS is how
// long it lasts; toNext how many semitones it slides to the next note, or 0.
func (t Touch) Path(lengthS, toNext float64) []Move {
	var path []Move
	rest, until := 0.0, lengthS // where vibrato is centred, and where it ends
	from := vibratoFrom * lengthS
	switch {
	case t.Bend >= Half:
		wait := min(bendWaitS, lengthS/8)
		push := min(bendS, lengthS/3)
		path = append(path, Move{wait, push, float64(t.Bend)})
		rest, from = float64(t.Bend), max(from, wait+push)
	case t.Bend == Quarter:
		path = append(path, Move{curlFrom * lengthS, (curlTo - curlFrom) * lengthS, float64(Quarter)})
		rest, from = float64(Quarter), curlTo*lengthS
	case t.Slide == Into:
		rests, over := min(slideRestS, lengthS/8), min(slideIntoS, lengthS/3)
		path = append(path, Move{0, 0, -slideFrets}, Move{rests, over, 0})
		from = max(from, rests+over)
	}
	if t.Release {
		until -= min(releaseS, lengthS/4)
	}
	if toNext != 0 {
		until -= min(slideS, lengthS/4)
	}
	if t.Vibrato {
		path = append(path, vibrato(rest, from, until)...)
	}
	if t.Release {
		path = append(path, Move{until, lengthS - until, 0})
	} else if toNext != 0 {
		path = append(path, Move{until, lengthS - until, toNext})
	}
	return path
}

// vibrato returns whole turns of vibrato over a pitch: each goes up and comes back.
func vibrato(rest, fromS, untilS float64) (path []Move) {
	const half = 0.5 / vibratoHz
	for at := fromS; at+2*half <= untilS; at += 2 * half {
		path = append(path, Move{at, half, rest + vibratoWide}, Move{at + half, half, rest})
	}
	return path
}

// At returns how many semitones from the note at its fret the pitch is at a time.
func At(path []Move, s float64) (semitones float64) {
	for _, m := range path {
		if s < m.AtS {
			break
		}
		way := 1.0
		if s < m.AtS+m.OverS {
			way = (s - m.AtS) / m.OverS
			way *= way * (3 - 2*way)
		}
		semitones += (m.Semitones - semitones) * way
	}
	return semitones
}

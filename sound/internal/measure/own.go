package main

import (
	"heddle/finger"
	"heddle/sound/mixer"
	"heddle/sound/pluck"
)

// ownSets renders our tones.
func ownSets() []set {
	guitar := []float64{64, 59, 55, 50, 45, 40}
	return []set{
		ownSet(electric, "ours", pluck.ElectricClean, guitar, 648),
		ownSet(steel, "ours", pluck.SteelAcoustic, guitar, 648),
		ownSet(nylon, "ours", pluck.Nylon, guitar, 648),
		ownSet(bass, "ours", pluck.BassGuitar, []float64{43, 38, 33, 28}, 864),
	}
}

// ownSet plays the family's keys on the string that gives the lowest fret.
func ownSet(family, name string, kind pluck.Strung, open []float64, scaleMM float64) set {
	s := set{family: family, name: name, ours: true, notes: map[int]note{}}
	for _, key := range keysOf(family) {
		s.notes[key] = note{key, fromOnset(ownNote(kind, open, scaleMM, key), ownRate), ownRate}
	}
	return s
}

const ownRate = 48000

// ownNote plays one key.
func ownNote(kind pluck.Strung, open []float64, scaleMM float64, key int) []float32 {
	p := pluck.New(kind, open, scaleMM, ownRate, mixer.Place{Left: 1})
	n := pluck.Note{At: ownRate / 10, Off: 3.6 * ownRate, Stroke: finger.Down, Force: 0.8}
	for i, o := range open {
		if n.String, n.Open, n.Fret = i, o, float64(key)-o; n.Fret >= 0 {
			break
		}
	}
	p.Queue([]pluck.Note{n}, 0)
	out := make([]float32, 4*ownRate)
	for at := 0; at < len(out); at += mixer.BlockLength {
		size := min(mixer.BlockLength, len(out)-at)
		p.Play(&mixer.Block{From: int64(at), Left: out[at : at+size], Right: make([]float32, size), Send: make([]float32, size)})
	}
	return out
}

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"

	"heddle/audio"
)

// fluidFont is where Debian's fluid-soundfont-gm puts its bank.
const fluidFont = "/usr/share/sounds/sf2/FluidR3_GM.sf2"

// fluidPrograms lists General MIDI programs, counted from 0.
var fluidPrograms = []struct {
	family  string
	program byte
}{{electric, 26}, {electric, 27}, {steel, 25}, {nylon, 24}, {bass, 33}, {bass, 34}}

// fluidSets plays FluidR3's instruments, dry.
func fluidSets() ([]set, error) {
	var sets []set
	for _, p := range fluidPrograms {
		notes, err := fluidNotes(p.program, keysOf(p.family))
		if err != nil {
			return sets, err
		}
		sets = append(sets, set{family: p.family, name: fmt.Sprintf("FluidR3 program %d", p.program), notes: notes})
	}
	return sets, nil
}

// keysOf returns the keys that are rendered for a family: every third from its
// lowest note up, and those of the tables.
func keysOf(family string) []int {
	low, high := 40, 81
	if family == bass {
		low, high = 28, 55
	}
	var keys []int
	for key := low; key <= high; key += 3 {
		keys = append(keys, key)
	}
	for _, f := range families {
		if f.name == family {
			keys = append(keys, f.keys...)
		}
	}
	return keys
}

// gapS lies between one note of a file and the next.
const gapS = 4

// fluidNotes plays keys one after another and cuts the sound into notes.
func fluidNotes(program byte, keys []int) (map[int]note, error) {
	dir, err := os.MkdirTemp("", "heddle")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	mid, wav := filepath.Join(dir, "notes.mid"), filepath.Join(dir, "notes.wav")
	if err := os.WriteFile(mid, midiOf(program, keys), 0o600); err != nil {
		return nil, err
	}
	cmd := exec.Command("fluidsynth", "-ni", "-q", "-g", "0.5", "-r", "48000", "-R", "0", "-C", "0",
		"-o", "synth.dynamic-sample-loading=1", "-T", "wav", "-O", "s24", "-F", wav, fluidFont, mid)
	if said, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%w\n%s", err, said)
	}
	file, err := os.ReadFile(wav)
	if err != nil {
		return nil, err
	}
	x, hz, err := audio.Samples(file, 0)
	if err != nil {
		return nil, err
	}
	rate := float64(hz)
	notes := map[int]note{}
	for i, key := range keys {
		from := int(float64(gapS*i) * rate)
		to := min(len(x), from+int((gapS-0.1)*rate))
		if from < to {
			notes[key] = note{key, fromOnset(x[from:to], rate), rate}
		}
	}
	return notes, nil
}

// midiOf returns a Standard MIDI File of one track at 120 quarters a minute
// and 480 ticks a quarter, in which each key sounds for 3.5 of every 4 s.
func midiOf(program byte, keys []int) []byte {
	track := []byte{0, 0xc0, program}
	for i, key := range keys {
		wait := []byte{0}
		if i > 0 {
			wait = []byte{0x83, 0x60} // 480 ticks, half a second
		}
		track = append(append(track, wait...), 0x90, byte(key), 100)
		track = append(track, 0x9a, 0x20, 0x80, byte(key), 0) // 3360 ticks, 3.5 s
	}
	track = append(track, 0, 0xff, 0x2f, 0)
	n := len(track)
	head := []byte{'M', 'T', 'h', 'd', 0, 0, 0, 6, 0, 0, 0, 1, 1, 0xe0, 'M', 'T', 'r', 'k', byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)}
	return append(head, track...)
}

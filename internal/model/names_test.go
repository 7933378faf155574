package model

import (
	"slices"
	"strings"
)

type scaleName struct{ root, kind string }

// kinds gives scales as semitones above the root, from memory (common practice).
var kinds = map[string][]int{
	"minor pentatonic": {0, 3, 5, 7, 10}, "major pentatonic": {0, 2, 4, 7, 9},
	"major": {0, 2, 4, 5, 7, 9, 11}, "dorian": {0, 2, 3, 5, 7, 9, 10}, "phrygian": {0, 1, 3, 5, 7, 8, 10}, "lydian": {0, 2, 4, 6, 7, 9, 11},
	"mixolydian": {0, 2, 4, 5, 7, 9, 10}, "natural minor": {0, 2, 3, 5, 7, 8, 10}, "locrian": {0, 1, 3, 5, 6, 8, 10},
	"melodic minor": {0, 2, 3, 5, 7, 9, 11}, "harmonic minor": {0, 2, 3, 5, 7, 8, 11}, "lydian dominant": {0, 2, 4, 6, 7, 9, 10},
	"harmonic major": {0, 2, 4, 5, 7, 8, 11}, "phrygian dominant": {0, 1, 4, 5, 7, 8, 10},
	"altered": {0, 1, 3, 4, 6, 8, 10}, "whole tone": {0, 2, 4, 6, 8, 10}, "augmented": {0, 3, 4, 7, 8, 11},
	"octatonic half-whole": {0, 1, 3, 4, 6, 7, 9, 10}, "octatonic whole-half": {0, 2, 3, 5, 6, 8, 9, 11},
	"blues": {0, 3, 5, 6, 7, 10}, "minor triad": {0, 3, 7}, "major triad": {0, 4, 7}, "minor seventh arpeggio": {0, 3, 7, 10},
	"1 b3 4 #5 b7": {0, 3, 5, 8, 10},
}

var homeKinds = func() (names []string) {
	for name := range kinds {
		names = append(names, name)
	}
	slices.Sort(names)
	return append(names, "minor pentatonic", "minor pentatonic", "minor pentatonic", "blues", "major pentatonic")
}()

// byLetter lists the kinds in which every degree has its own letter, with the
// steps of their letters above the root's.
var byLetter = map[string][]int{
	"minor pentatonic": {0, 2, 3, 4, 6}, "major pentatonic": {0, 1, 2, 4, 5},
	"minor triad": {0, 2, 4}, "major triad": {0, 2, 4}, "minor seventh arpeggio": {0, 2, 4, 6},
}

func init() {
	for _, kind := range []string{"major", "dorian", "phrygian", "lydian", "mixolydian", "natural minor", "locrian", "melodic minor",
		"harmonic minor", "lydian dominant", "harmonic major", "phrygian dominant"} {
		byLetter[kind] = []int{0, 1, 2, 3, 4, 5, 6}
	}
}

const letters = "CDEFGAB"

var naturals = [7]int{0, 2, 4, 5, 7, 9, 11}

// letterOf returns a name's letter as a step above C, and its accidental in
// semitones.
func letterOf(name string) (letter, accidental int) {
	accidentals := name[1:]
	return strings.IndexByte(letters, name[0]), strings.Count(accidentals, "#") - strings.Count(accidentals, "b")
}

func pitchClass(name string) int {
	letter, accidental := letterOf(name)
	return mod(naturals[letter]+accidental, 12)
}

func mod(a, n int) int { return (a%n + n) % n }

// spell names a pitch class by a letter.
func spell(letter, pc int) (name string, accidental int) {
	letter = mod(letter, 7)
	accidental = mod(pc-naturals[letter]+6, 12) - 6
	if accidental < 0 {
		return letters[letter:letter+1] + strings.Repeat("b", -accidental), accidental
	}
	return letters[letter:letter+1] + strings.Repeat("#", accidental), accidental
}

// spelled names a scale of one letter a degree. doubles counts its double
// accidentals.
func spelled(root, kind string) (names []string, doubles, accidentals int) {
	letter, _ := letterOf(root)
	for i, semis := range kinds[kind] {
		name, accidental := spell(letter+byLetter[kind][i], pitchClass(root)+semis)
		names = append(names, name)
		if accidental > 1 || accidental < -1 {
			doubles++
		}
		accidentals += max(accidental, -accidental)
	}
	return names, doubles, accidentals
}

func doubleAccidentals(names []string) (n int) {
	for _, name := range names {
		if _, a := letterOf(name); a > 1 || a < -1 {
			n++
		}
	}
	return n
}

func checkNames(f *faults, b *built) {
	wanted := []scaleName{b.home}
	for _, o := range b.over {
		kind := o.kind
		if kind == "" {
			kind = b.home.kind
		}
		wanted = append(wanted, scaleName{kind: kind})
	}
	if len(b.Scales) != len(wanted) {
		f.add("each scale is listed once", b, "%d scales", len(b.Scales))
		return
	}
	homePC := pitchClass(b.home.root)
	for i, s := range b.Scales {
		kind, rootPC := wanted[i].kind, homePC
		if i > 0 {
			rootPC = mod(homePC+b.over[i-1].semis, 12)
		}
		var pcs []int
		for _, name := range s.Notes {
			pcs = append(pcs, pitchClass(name))
		}
		for _, semis := range kinds[kind] {
			if !slices.Contains(pcs, mod(rootPC+semis, 12)) || len(pcs) != len(kinds[kind]) {
				f.add("a scale has the notes of its kind", b, "%s: %v", s.Name, s.Notes)
				break
			}
		}
		if pitchClass(s.Notes[0]) != rootPC {
			f.add("a scale begins on its root", b, "%s: %v", s.Name, s.Notes)
			continue
		}
		checkSpelling(f, b, i, kind, s.Notes)
		for _, p := range s.Placement.Spots {
			if !slices.Contains(s.Notes, p.Name) {
				f.add("a spot has its scale's name", b, "%s has no %s", s.Name, p.Name)
			}
		}
	}
	for _, n := range b.Notes {
		checkNoteName(f, b, n)
	}
	for i, o := range b.over {
		if strings.HasSuffix(o.words, "down") && (!strings.Contains(b.Sentence, o.words) || !strings.HasSuffix(b.Spec.Superimpose[i], o.words)) {
			f.add("down stays down", b, "%s is worded %q in %q", o.words, b.Spec.Superimpose[i], b.Sentence)
		}
	}
}

// checkSpelling checks the names of one scale.
func checkSpelling(f *faults, b *built, i int, kind string, names []string) {
	root := names[0]
	if byLetter[kind] != nil {
		want, doubles, _ := spelled(root, kind)
		if len(names) < 5 && doubles > 0 { // not a seven-note scale, not a pentatonic
			if doubleAccidentals(names) > 0 {
				f.add("no double accidentals where they can be avoided", b, "%v", names)
			}
		} else if !slices.Equal(names, want) {
			f.add("one letter for each degree", b, "%v, want %v", names, want)
		}
		typed := i == 0 || b.over[i-1].named
		other, _ := enharmonic(root)
		if _, doubles, _ := spelled(root, kind); doubles > 0 && !typed && other != "" {
			if _, others, _ := spelled(other, kind); others == 0 {
				f.add("a root that needs no double accidentals is preferred", b, "%v", names)
			}
		}
		if i > 0 && !typed {
			checkIntervalLetter(f, b, b.over[i-1], kind, names)
		}
		_ = steps
		return
	}
	if doubles := doubleAccidentals(names); doubles > 0 {
		f.add("no double accidentals where they can be avoided", b, "%v", names)
	}
	letter := func(semis int) int {
		for _, name := range names {
			if mod(pitchClass(name)-pitchClass(root), 12) == semis {
				l, _ := letterOf(name)
				from, _ := letterOf(root)
				return mod(l-from, 7)
			}
		}
		return -1
	}
	plain := func(step, semis int) bool { // can be named by that letter without a double accidental
		from, _ := letterOf(root)
		_, a := spell(from+step, pitchClass(root)+semis)
		return a >= -1 && a <= 1
	}
	switch kind {
	case "blues":
		if plain(4, 6) && letter(6) != 4 || !plain(4, 6) && letter(6) != 3 {
			f.add("blues has a flat fifth, or a sharp fourth where that would be double", b, "%v", names)
		}
	case "altered":
		if plain(2, 4) && letter(4) != 2 {
			f.add("the altered scale's third is a third", b, "%v", names)
		}
	}
}

// flats counts the flats of a scale of one letter a degree.
func flats(root, kind string) (n int) {
	names, _, _ := spelled(root, kind)
	for _, name := range names {
		if _, a := letterOf(name); a < 0 {
			n++
		}
	}
	return n
}

// enharmonic returns the other usual name of a root: "" if there is none.
func enharmonic(root string) (string, int) {
	letter, _ := letterOf(root)
	best, fewest := "", 2
	for _, step := range []int{-1, 1} {
		if name, a := spell(letter+step, pitchClass(root)); a >= -1 && a <= 1 && max(a, -a) < fewest {
			best, fewest = name, max(a, -a)
		}
	}
	return best, fewest
}

// checkIntervalLetter checks the letter of a root given by interval.
func checkIntervalLetter(f *faults, b *built, o overlay, kind string, names []string) {
	home, _ := letterOf(b.home.root)
	pc := mod(pitchClass(b.home.root)+o.semis, 12)
	if o.words == "tritone" {
		up, upAcc := spell(home+3, pc)
		down, downAcc := spell(home+4, pc)
		_, upDoubles, upAll := spelled(up, kind)
		_, downDoubles, downAll := spelled(down, kind)
		if max(upAcc, -upAcc) > 1 || max(downAcc, -downAcc) > 1 || upDoubles > 0 || downDoubles > 0 {
			return
		}
		want := up
		if downAll < upAll || downAll == upAll && flats(down, kind) > flats(up, kind) {
			want = down
		}
		if names[0] != want {
			f.add("a tritone takes fewer accidentals, or flats", b, "%v, want root %s", names, want)
		}
		return
	}
	want, accidental := spell(home+o.steps, pc)
	if max(accidental, -accidental) > 1 {
		return
	}
	if _, doubles, _ := spelled(want, kind); doubles == 0 && names[0] != want {
		f.add("a root given by interval has the interval's letter", b, "%s: %v, want root %s", o.words, names, want)
	}
}

func checkNoteName(f *faults, b *built, n note) {
	letter, accidental := letterOf(n.Name)
	if naturals[letter]+accidental+12*(n.Octave+1) != n.MIDI {
		f.add("a name and its octave are the pitch", b, "%s%d is not %d", n.Name, n.Octave, n.MIDI)
	}
	if n.Scale >= 0 && !slices.Contains(b.Scales[n.Scale].Notes, n.Name) {
		f.add("a note has its scale's name", b, "note %d: %s is not in %v", n.Index, n.Name, b.Scales[n.Scale].Notes)
	}
}

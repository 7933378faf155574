package exercise

import (
	"slices"
	"strconv"

	"heddle/line"
	"heddle/neck"
	"heddle/phrase"
	"heddle/pitch"
	"heddle/touch"
)

// Bounds of the tempo in quarter notes a minute.
const (
	SlowestTempo = 20
	FastestTempo = 400
)

// Bounds that keep one exercise to what a player can use and a machine can
// draw.
const (
	maxBars    = 64
	maxScales  = 6
	maxQuarter = 16 // pickup and gap, in quarter notes
	maxEnding  = 16
	maxChoice  = 20
	maxCells   = phrase.MostDips
)

// fields is the table of fields, in canonical order. Nobody writes to it.
var fields = []Field{
	{Key: Key{Name: "chord", Label: "Chord", Group: "harmony", Example: "Gm7", Default: "the home scale's own chord",
		Meaning: "the chord it sounds over"}, at: func(s *Spec) any { return &s.Chord }},
	{Key: Key{Name: "changes", Label: "Chord changes, or a form", Group: "harmony", Example: "Gm7 C7 | Fmaj7 | %",
		Meaning: "bars of chords instead of one chord, or a form such as blues in A"}, Rare: true, at: func(s *Spec) any { return &s.Changes }},
	{Key: Key{Name: "home", Label: "Home scale", Group: "harmony", Example: "G minor pentatonic",
		Meaning: "the home scale"}, at: func(s *Spec) any { return &s.Home }},
	{Key: Key{Name: "superimpose", Label: "Scale laid over it", Group: "harmony", Example: "semitone up", Repeats: true,
		Meaning: "a scale to lay over it, or how far away the same scale lies"}, at: func(s *Spec) any { return &s.Superimpose }},
	{Key: Key{Name: "form", Label: "Form", Group: "harmony", Example: "phrase", Default: "line",
		Meaning: "a line, or a phrase inside home with dips outside",
		Choices: []Choice{{"line", "a line"}, {"phrase", "a phrase"}}}, Rare: true, at: func(s *Spec) any { return &s.Form }},

	{Key: Key{Name: "groups", Label: "Notes from scale", Group: "pattern", Example: "3,3", Default: "2 for each scale",
		Meaning: "how many notes from each scale in turn, or run for the plain run through them all", Choices: groupSizes()}, at: func(s *Spec) any { return &s.Groups }},
	{Key: Key{Name: "order", Label: "Order in the group", Group: "pattern", Example: "1 3 2", Default: "straight",
		Meaning: "the digital pattern of each group, or straight"}, Rare: true, at: func(s *Spec) any { return &s.Order }},
	{Key: Key{Name: "follow", Label: "Each group starts beside the", Group: "pattern", Example: "first", Default: "first",
		Meaning: "each group starts beside the first or the last note of the one before",
		Choices: []Choice{{"first", "first"}, {"last", "last"}}}, at: func(s *Spec) any { return &s.Follow }},
	{Key: Key{Name: "direction", Label: "Direction", Group: "pattern", Example: "down", Default: "down",
		Meaning: "where the line goes: down, up, down-up or up-down",
		Choices: []Choice{{"down", "falling"}, {"up", "rising"}, {"down-up", "falling, then rising"}, {"up-down", "rising, then falling"}}},
		at: func(s *Spec) any { return &s.Direction }},
	{Key: Key{Name: "fret", Label: "Fret of the first finger", Group: "pattern", Example: "10", Default: "the nearest placements, in the middle of the neck",
		Meaning: "where the first finger should be; 0 for the open position"}, zero: OpenPosition, High: 36, at: func(s *Spec) any { return &s.Fret }},
	{Key: Key{Name: "start", Label: "First note", Group: "pattern", Example: "F5", Default: "the outermost note of the home placement",
		Meaning: "the first note"}, Rare: true, at: func(s *Spec) any { return &s.Start }},

	{Key: Key{Name: "value", Label: "Note value", Group: "time", Example: "eighth", Default: "eighth",
		Meaning: "the note value: quarter, eighth, eighth-triplet, sixteenth, sixteenth-triplet or quintuplet",
		Choices: []Choice{{"quarter", "quarters"}, {"eighth", "eighths"}, {"eighth-triplet", "eighth triplets"}, {"sixteenth", "sixteenths"},
			{"sixteenth-triplet", "sixteenth triplets"}, {"quintuplet", "quintuplets"}}}, at: func(s *Spec) any { return &s.Value }},
	{Key: Key{Name: "meter", Label: "Time signature", Group: "time", Example: "4/4", Default: "4/4",
		Meaning: "the time signature",
		Choices: []Choice{{"4/4", ""}, {"3/4", ""}, {"2/4", ""}, {"6/8", ""}, {"12/8", ""}, {"5/4", ""}, {"7/4", ""}, {"7/8", ""}, {"9/8", ""}}},
		Rare: true, at: func(s *Spec) any { return &s.Meter }},
	{Key: Key{Name: "pickup", Label: "Pickup, quarter notes", Group: "time", Example: "0.5", Default: "0",
		Meaning: "how many quarter notes before the first bar line it begins"}, Rare: true, High: maxQuarter, at: func(s *Spec) any { return &s.Pickup }},
	{Key: Key{Name: "feel", Label: "Feel", Group: "time", Example: "swing 2:1", Default: "straight",
		Meaning: "straight eighths, or swing and its ratio",
		Choices: []Choice{{"straight", "straight"}, {"swing 3:2", "swing 3:2, light"}, {"swing 2:1", "swing 2:1, triplets"}, {"swing 3:1", "swing 3:1, hard"}}},
		Rare: true, at: func(s *Spec) any { return &s.Feel }},
	{Key: Key{Name: "gap", Label: "Rest between groups, quarter notes", Group: "time", Example: "0.5", Default: "0",
		Meaning: "rest between groups, in quarter notes"}, Rare: true, High: maxQuarter, at: func(s *Spec) any { return &s.Gap }},
	{Key: Key{Name: "tempo", Label: "Tempo, quarter notes a minute", Group: "time", Example: "84", Default: "80",
		Meaning: "tempo in quarter notes a minute"}, Low: SlowestTempo, High: FastestTempo, at: func(s *Spec) any { return &s.Tempo }},
	{Key: Key{Name: "bars", Label: "Bars at the most", Group: "time", Example: "4", Default: "0",
		Meaning: "the most bars; 0 for as long as the neck allows"}, Rare: true, High: maxBars, at: func(s *Spec) any { return &s.Bars }},

	{Key: Key{Name: "repeats", Label: "Notes that repeat the one before", Group: "pattern", Example: "skip", Default: "keep",
		Meaning: "keep or skip a group's first note where it repeats the note before",
		Choices: []Choice{{"keep", "kept"}, {"skip", "left out"}}}, Rare: true, at: func(s *Spec) any { return &s.Repeats }},

	{Key: Key{Name: "dips", Label: "Dips", Group: "phrase", Example: "1", Default: "1",
		Meaning: "of a phrase: how many trips outside"}, Rare: true, High: phrase.MostDips, zero: NoDips, at: func(s *Spec) any { return &s.Dips }},
	{Key: Key{Name: "busy", Label: "Busy", Group: "phrase", Example: "medium", Default: "medium",
		Meaning: "of a phrase: how much is played, sparse, medium or busy",
		Choices: []Choice{{"sparse", "sparse"}, {"medium", "medium busy"}, {"busy", "busy"}}}, Rare: true, at: func(s *Spec) any { return &s.Busy }},
	{Key: Key{Name: "choice", Label: "Choice", Group: "phrase", Example: "1", Default: "1",
		Meaning: "of a phrase: which one, 1 for the best"}, Rare: true, Low: 1, High: maxChoice, at: func(s *Spec) any { return &s.Choice }},
	{Key: Key{Name: "cell", Label: "Cell", Group: "phrase", Example: "home=G+minor+pentatonic&superimpose=semitone+up&cut=3-6", Repeats: true,
		Meaning: "of a phrase: a cell to use as a dip, as in the address of a line that is cut; the command also takes its number on the shelf"}, Rare: true, at: func(s *Spec) any { return &s.Cell }},

	{Key: Key{Name: "cut", Label: "Only notes", Group: "time", Example: "5-10", Default: "the whole line",
		Meaning: "only these notes of the line, counted from 1"}, Rare: true, at: func(s *Spec) any { return &s.Cut }},

	{Key: Key{Name: "land", Label: "Landing", Group: "landing", Example: "third", Default: "none",
		Meaning: "the degrees to land on, or none",
		Choices: []Choice{{"none", "nothing in particular"}, {"root", "the root"}, {"third", "the third"}, {"fifth", "the fifth"}, {"seventh", "the seventh"},
			{"ninth", "the ninth"}, {"root,third,fifth", "root, third or fifth"}}}, at: func(s *Spec) any { return &s.Land }},
	{Key: Key{Name: "land-beat", Label: "Beat to land on", Group: "landing", Example: "1", Default: "1",
		Meaning: "the beat of the bar to land on"}, Rare: true, Low: 1, High: 32, at: func(s *Spec) any { return &s.LandBeat }},
	{Key: Key{Name: "ending", Label: "Ending", Group: "landing", Example: "1", Default: "1",
		Meaning: "which ending to play, 1 for the best"}, Low: 1, High: maxEnding, at: func(s *Spec) any { return &s.Ending }},

	{Key: Key{Name: "instrument", Label: "Instrument", Group: "instrument", Example: "guitar", Default: "guitar",
		Meaning: "the instrument: guitar, bass, ukulele, mandolin and others", Choices: instruments()}, Rare: true, at: func(s *Spec) any { return &s.Instrument }},
	{Key: Key{Name: "tuning", Label: "Tuning, lowest first", Group: "instrument", Example: "E2 A2 D3 G3 B3 E4", Default: "the instrument's own",
		Meaning: "the open strings, lowest first, or a name such as drop D, DADGAD or open G"}, Rare: true, at: func(s *Spec) any { return &s.Tuning }},
	{Key: Key{Name: "frets", Label: "Frets", Group: "instrument", Example: "22", Default: "the instrument's own",
		Meaning: "how many frets the neck has"}, Rare: true, Low: 1, High: 36, at: func(s *Spec) any { return &s.Frets }},
	{Key: Key{Name: "scale", Label: "String length, mm", Group: "instrument", Example: "648", Default: "the instrument's own",
		Meaning: "length of the open string in mm"}, Rare: true, Low: 200, High: 1200, at: func(s *Spec) any { return &s.Scale }},
	{Key: Key{Name: "reach", Label: "Reach of the hand, mm", Group: "instrument", Example: "100", Default: "100",
		Meaning: "reach between first and fourth finger in mm"}, Rare: true, Low: 40, High: 200, at: func(s *Spec) any { return &s.Reach }},
	{Key: Key{Name: "capo", Label: "Capo at fret", Group: "instrument", Example: "3", Default: "0",
		Meaning: "the fret a capo sits behind; 0 for none"}, Rare: true, High: 24, at: func(s *Spec) any { return &s.Capo }},
	{Key: Key{Name: "left", Label: "Left-handed", Group: "instrument", Example: "true", Switch: true,
		Meaning: "a left-handed neck"}, Rare: true, at: func(s *Spec) any { return &s.Left }},
	{Key: Key{Name: "picking", Label: "Picking", Group: "instrument", Example: "alternate", Default: "alternate",
		Meaning: "the picking: alternate, economy or legato",
		Choices: []Choice{{"alternate", "alternate"}, {"economy", "economy"}, {"legato", "legato"}}}, Rare: true, at: func(s *Spec) any { return &s.Picking }},
	{Key: Key{Name: "touch", Label: "Touch", Group: "instrument", Example: "blues", Default: "plain",
		Meaning: "bends, slides, vibrato, ghost notes, accents and staccato: a style, or any of them, such as bends, vibrato",
		Choices: touchStyles()}, Rare: true, at: func(s *Spec) any { return &s.Touch }},
	{Key: Key{Name: "names", Label: "Note names", Group: "instrument", Example: "english", Default: "english",
		Meaning: "note names in english, german or solfege",
		Choices: []Choice{{"english", "English: B♭, B"}, {"german", "German: B, H"}, {"solfege", "fixed do: Si♭, Si"}}}, Rare: true, at: func(s *Spec) any { return &s.Names }},
}

func groupSizes() []Choice {
	sizes := make([]Choice, line.MostInGroup, line.MostInGroup+1)
	for i := range sizes {
		sizes[i] = Choice{strconv.Itoa(i + 1), countWord(i + 1)}
	}
	return append(sizes, Choice{line.FormatGroups([]int{line.Run}), "a run"})
}

// touchStyles lists the named styles and the parts that a style may have.
func touchStyles() []Choice {
	var list []Choice
	for _, name := range slices.Concat(touch.Styles(), touch.Parts()) {
		list = append(list, Choice{Value: name})
	}
	return list
}

func instruments() []Choice {
	var list []Choice
	for _, name := range neck.Instruments() {
		list = append(list, Choice{name, name})
	}
	return list
}

// distances are the usual ways to say how far a scale lies from home.
var distances = []string{
	"semitone up", "semitone down", "whole tone up", "whole tone down", "minor third up", "minor third down",
	"major third up", "major third down", "fourth up", "fourth down", "tritone",
}

// chordKinds are the chords that are suggested on a root.
var chordKinds = []string{"m7", "7", "maj7", "m7b5", "m6", "6", "9", "m9", "13", "7#9", "7sus4", "dim7", "mMaj7"}

// Suggested lists what is usually typed for the field, with chords and scales
// on each of the roots. Other values may be accepted too.
func (f Field) Suggested(roots ...string) []string {
	var list, kinds []string
	switch f.Name {
	case "chord":
		for _, root := range roots {
			for _, kind := range chordKinds {
				list = append(list, root+kind)
			}
		}
		return list
	case "changes":
		for _, root := range roots {
			for _, f := range forms {
				list = append(list, f.name+" in "+root)
			}
		}
		return list
	case "superimpose":
		list = distances[:len(distances):len(distances)]
		fallthrough
	case "home":
		for _, t := range pitch.Types() {
			kinds = append(kinds, t.Name)
		}
	default:
		return f.Values()
	}
	for _, root := range roots {
		for _, kind := range kinds {
			list = append(list, root+" "+kind)
		}
	}
	return list
}

package hear

import (
	"bytes"
	"context"
	"fmt"
	"heddle/audio"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
)

// A fineTally adds up what the summary of the evaluation hides: how far extra
// notes are believed, what is heard without knowing the exercise, and how each
// kind of mistake is marked.
type fineTally struct {
	truth                            int
	blindHeard, blindPaired          int
	extraTrue, extraSaid, extraFound int
	kinds                            map[string]*kindTally
}

// A kindTally counts the notes with one kind of deliberate mistake.
type kindTally struct {
	notes, asDeserved, calledRight int
	timed, timedRightly            int
}

// timingShownMS is how early or late a note must be shown to count as shown.
const timingShownMS = 10

func (y *fineTally) add(tk take, rep *Report) {
	if y.kinds == nil {
		y.kinds = map[string]*kindTally{}
	}
	y.truth += len(tk.played)
	y.blindHeard += len(tk.blind)
	y.blindPaired += paired(matchNotes(tk.played, tk.cents, tk.blind))
	y.addExtras(tk, rep)
	for i, deserved := range tk.verdicts {
		kind := tk.mistake[i]
		switch {
		case kind == "" && deserved == string(Missed):
			kind = "stopped"
		case kind == "":
			kind = "none"
		}
		if y.kinds[kind] == nil {
			y.kinds[kind] = &kindTally{}
		}
		y.kinds[kind].add(kind, deserved, rep.Marks[i])
	}
}

// addExtras pairs the extra notes that were played with those that were
// reported, by the rule for notes.
func (y *fineTally) addExtras(tk take, rep *Report) {
	var truth []played
	for _, n := range tk.played {
		if n.index < 0 {
			truth = append(truth, n)
		}
	}
	var said []Heard
	for _, j := range rep.Extra {
		said = append(said, rep.Heard[j])
	}
	y.extraTrue += len(truth)
	y.extraSaid += len(said)
	y.extraFound += paired(matchNotes(truth, tk.cents, said))
}

func (k *kindTally) add(kind, deserved string, mark NoteMark) {
	k.notes++
	if string(mark.Verdict) == deserved {
		k.asDeserved++
	}
	if mark.Verdict == Right {
		k.calledRight++
	}
	if (kind == "early" || kind == "late") && mark.Verdict == Right {
		k.timed++
		if kind == "early" && mark.TimingMS <= -timingShownMS || kind == "late" && mark.TimingMS >= timingShownMS {
			k.timedRightly++
		}
	}
}

func (y *fineTally) String() string {
	return fmt.Sprintf("extras %3d said %3d true  precision %5.1f%%  recall %5.1f%%  blind F %.4f",
		y.extraSaid, y.extraTrue, percent(y.extraFound, y.extraSaid), percent(y.extraFound, y.extraTrue),
		fMeasure(y.blindPaired, y.truth, y.blindHeard))
}

func percent(part, whole int) float64 {
	if whole == 0 {
		return math.NaN()
	}
	return 100 * float64(part) / float64(whole)
}

// byKind is a table with a row for each kind of mistake.
func (y *fineTally) byKind() string {
	var b strings.Builder
	fmt.Fprintln(&b, "mistake    notes  as deserved  called right  timing shown")
	for _, kind := range slices.Sorted(maps.Keys(y.kinds)) {
		k := y.kinds[kind]
		fmt.Fprintf(&b, "%-9s  %5d  %9.2f%%  %11.2f%%", kind, k.notes, percent(k.asDeserved, k.notes), percent(k.calledRight, k.notes))
		if k.timed > 0 {
			fmt.Fprintf(&b, "  %11.1f%%", percent(k.timedRightly, k.timed))
		}
		fmt.Fprintln(&b)
	}
	return b.String()
}

// hearBlind is what Hear gives that knows neither exercise nor instrument.
func hearBlind(t testing.TB, file []byte) []Heard {
	t.Helper()
	source, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	heard, _, err := Hear(context.Background(), source, Options{})
	if err != nil {
		return nil // what is refused holds no notes
	}
	return heard
}

func TestFineTallyHoldsItsTerms(t *testing.T) {
	tk := take{
		played:   []played{{onS: 1, key: 60}, {onS: 1.2, key: 66, index: -1}, {onS: 1.5, key: 62, index: 1}},
		verdicts: []string{"right", "right", "missed"}, mistake: []string{"", "late", ""},
		blind: []Heard{{OnsetS: 1, MIDI: 60}},
	}
	rep := &Report{
		Heard: []Heard{{OnsetS: 1, MIDI: 60}, {OnsetS: 1.21, MIDI: 66}, {OnsetS: 1.3, MIDI: 70}, {OnsetS: 1.5, MIDI: 62}},
		Extra: []int{1, 2},
		Marks: []NoteMark{{Verdict: Right}, {Index: 1, Verdict: Right, Heard: 3, TimingMS: 30}, {Index: 2, Verdict: Missed, Heard: -1}},
	}
	var y fineTally
	y.add(tk, rep)
	if want := "extras   2 said   1 true  precision  50.0%  recall 100.0%  blind F 0.5000"; y.String() != want {
		t.Errorf("got  %s\nwant %s", y.String(), want)
	}
	want := "mistake    notes  as deserved  called right  timing shown\n" +
		"late           1     100.00%       100.00%        100.0%\n" +
		"none           1     100.00%       100.00%\n" +
		"stopped        1     100.00%         0.00%\n"
	if y.byKind() != want {
		t.Errorf("got\n%swant\n%s", y.byKind(), want)
	}
}

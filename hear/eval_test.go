package hear

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"heddle/audio"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var (
	evalTakes = flag.Int("eval", 0, "takes in each set of the evaluation")
	evalKeep  = flag.String("eval.keep", "", "folder that keeps the rendered takes")
	evalSeed  = flag.Uint64("eval.seed", 1, "1 for the open part, others are held out")
	evalShow  = flag.Int("eval.show", 0, "1 to show takes below the mark, 2 to show their notes")
	evalFont  = flag.String("eval.font", fluidFont, "sound font of the guitars")
	evalNotes = flag.String("eval.notes", "", "folder of recorded notes (A2.wav, Cs3.mp3) that are the guitar, instead of the font")
	evalChain = flag.Bool("eval.chain", false, "send takes through amplifiers, compressors, laptop microphones and MP3 coders")
)

var evalSettings = []string{"clean", "room", "noise", "bleed"}

// takeFile renders a take in a setting and returns the WAV.
func takeFile(t testing.TB, g guitar, tk take, setting string, r *rand.Rand) []byte {
	t.Helper()
	key := ""
	if *evalKeep != "" {
		key = filepath.Join(*evalKeep, tk.name+"-"+g.voice(tk)+"-"+setting+".wav")
		if b, err := os.ReadFile(key); err == nil {
			return b
		}
	}
	x := g.play(t, tk, r)
	var through chain
	if *evalChain {
		through = drawChain(r, tk.touch == "ringing")
	}
	x = through.amplifier(x)
	switch setting {
	case "room":
		x = room(x, r, 0.3+0.4*r.Float64(), 4+4*r.Float64())
	case "noise":
		x = noisy(x, r, 20)
	case "bleed":
		x = mixed(x, fluidsynth(t, fluidFont, vamp(r, tk.tempo, float64(len(x))/renderRate)), 12)
	}
	x = through.microphone(t, x)
	b := wavFile(levelled(x, 0.15+0.7*float32(r.Float64())), renderRate)
	if key != "" {
		if err := os.WriteFile(key, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func drawTake(t testing.TB, seed uint64) (take, *rand.Rand) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 6))
	p := drawPlayer(r, 24+int(seed%7))
	tk := perform(r, randomExercise(t, r, p), p)
	tk.name = fmt.Sprintf("take-%d", seed)
	return tk, r
}

// A tally adds up what the evaluation counts.
type tally struct {
	truth, heard, paired    int
	aubioHeard, aubioPaired int
	aubioPrompt             int // paired when its delay is taken off
	lateMS, offTune         []float64
	marked                  map[string]map[Verdict]int // by the verdict deserved
	extraTrue, extraMarked  int
	fine                    fineTally
}

func (y *tally) add(tk take, rep *Report, aubio []Heard) {
	if y.marked == nil {
		y.marked = map[string]map[Verdict]int{"right": {}, "wrong": {}, "missed": {}}
	}
	y.truth += len(tk.played)
	y.heard += len(rep.Heard)
	for i, j := range matchNotes(tk.played, tk.cents, rep.Heard) {
		if j >= 0 {
			y.paired++
			y.lateMS = append(y.lateMS, 1000*(rep.Heard[j].OnsetS-tk.played[i].onS))
		}
	}
	y.aubioHeard += len(aubio)
	y.aubioPaired += paired(matchNotes(tk.played, 0, aubio))
	y.aubioPrompt += paired(matchNotes(tk.played, 0, prompt(tk.played, aubio)))
	for i, deserved := range tk.verdicts {
		y.marked[deserved][rep.Marks[i].Verdict]++
	}
	y.extraTrue += tk.extras
	y.extraMarked += len(rep.Extra)
	y.offTune = append(y.offTune, math.Abs(rep.TuningCents-tk.cents))
	y.fine.add(tk, rep)
}

// others is the share of notes that deserved a verdict and got another.
func (y *tally) others(deserved Verdict) (share float64, of int) {
	for _, n := range y.marked[string(deserved)] {
		of += n
	}
	return 1 - float64(y.marked[string(deserved)][deserved])/float64(max(of, 1)), of
}

// passed is the share of notes that deserved a verdict but were called right.
func (y *tally) passed(deserved Verdict) (share float64, of int) {
	_, of = y.others(deserved)
	return float64(y.marked[string(deserved)][Right]) / float64(max(of, 1)), of
}

func (y *tally) f() float64 { return fMeasure(y.paired, y.truth, y.heard) }

func (y *tally) medianMS() float64 {
	late := make([]float64, len(y.lateMS))
	for i, l := range y.lateMS {
		late[i] = math.Abs(l)
	}
	return median(late)
}

const tallyHead = "set         takes' notes  note F  aubio F (prompt)  onset ms (bias)  right lost    wrong caught  missed caught  extra (true)  tuning c"

func (y *tally) String() string {
	lost, rights := y.others(Right)
	wrongs, wrongOf := y.passed(Wrong)
	missed, missedOf := y.passed(Missed)
	return fmt.Sprintf("%6d        %.4f  %.4f  (%.4f)   %4.1f (%+.1f)      %.2f%% of %-5d %.1f%% of %-4d %.1f%% of %-4d  %4d (%d)  %12.1f",
		y.truth, y.f(), fMeasure(y.aubioPaired, y.truth, y.aubioHeard), fMeasure(y.aubioPrompt, y.truth, y.aubioHeard), y.medianMS(), median(y.lateMS),
		100*lost, rights, 100*(1-wrongs), wrongOf, 100*(1-missed), missedOf, y.extraMarked, y.extraTrue, quantile(y.offTune, 0.9))
}

func markFile(t testing.TB, file []byte, tk take) *Report {
	t.Helper()
	src, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	heard, tuning, err := Hear(context.Background(), src, OptionsFor(tk.exercise))
	if err != nil {
		t.Error(tk.name, err)
	}
	return Mark(heard, tuning, tk.exercise, TakeOptions{})
}

// aubionotes is the note finder of Debian's aubio-tools, with a buffer long
// enough for E2, which its own default is not, and else as it is set up by
// default. It prints the key, the onset and the offset of each note.
func aubionotes(t testing.TB, file []byte) []Heard {
	t.Helper()
	if _, err := exec.LookPath("aubionotes"); err != nil {
		return nil
	}
	path := filepath.Join(t.TempDir(), "take.wav")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("aubionotes", "-B", "2048", "-H", "256", "-i", path).Output()
	if err != nil {
		t.Fatal("aubionotes:", err)
	}
	var notes []Heard
	for _, line := range strings.Split(string(out), "\n") {
		var h Heard
		if n, _ := fmt.Sscan(line, &h.MIDI, &h.OnsetS, &h.OffsetS); n == 3 {
			notes = append(notes, h)
		}
	}
	return notes
}

func paired(pairs []int) (count int) {
	for _, j := range pairs {
		if j >= 0 {
			count++
		}
	}
	return count
}

// prompt takes off the delay with which aubionotes names a note, the median
// over the take: it waits until the pitch has settled.
func prompt(truth []played, heard []Heard) []Heard {
	var delays []float64
	for _, n := range truth {
		for _, h := range heard {
			if d := h.OnsetS - n.onS; int(math.Round(h.MIDI)) == n.key && d > 0 && d < 0.3 {
				delays = append(delays, d)
				break
			}
		}
	}
	return shifted(heard, -median(delays))
}

// evaluate marks so many takes in a setting, and enters each in the tallies.
func evaluate(t *testing.T, g guitar, setting int, takes int, tallies func(take) []*tally) {
	t.Helper()
	for k := range takes {
		tk, r := drawTake(t, *evalSeed*100000+uint64(setting)*10000+uint64(k))
		file := takeFile(t, g, tk, evalSettings[setting], r)
		tk.blind = hearBlind(t, file)
		rep, aubio := markFile(t, file, tk), aubionotes(t, file)
		for _, y := range tallies(tk) {
			y.add(tk, rep, aubio)
		}
		show(tk, evalSettings[setting], rep)
	}
}

// TestEval prints the table of the evaluation, by setting, by program and by
// touch.
func TestEval(t *testing.T) {
	if *evalTakes == 0 {
		t.Skip("the evaluation runs with -eval TAKES")
	}
	g := chosenGuitar(t)
	by := map[string]*tally{}
	var whole tally
	fmt.Println(tallyHead)
	for s, setting := range evalSettings {
		evaluate(t, g, s, *evalTakes, func(tk take) []*tally {
			rows := []*tally{&whole}
			for _, key := range []string{setting, g.voice(tk), tk.touch} {
				if by[key] == nil {
					by[key] = &tally{}
				}
				rows = append(rows, by[key])
			}
			return rows
		})
		fmt.Printf("%-11s %v\n", setting, by[setting])
	}
	rows := slices.Sorted(maps.Keys(by))
	for _, key := range rows {
		if !slices.Contains(evalSettings, key) {
			fmt.Printf("%-11s %v\n", key, by[key])
		}
	}
	fmt.Println()
	for _, key := range rows {
		fmt.Printf("%-11s %v\n", key, &by[key].fine)
	}
	fmt.Printf("\n%s", whole.fine.byKind())
}

// A few takes of the evaluation are marked in every run of the tests. The
// bounds are looser than the evaluation's own, for a few hundred notes.
func TestRecordedGuitarsAreMarked(t *testing.T) {
	if testing.Short() {
		t.Skip("rendering takes some seconds")
	}
	needFluidsynth(t)
	var all tally
	for s := range evalSettings {
		evaluate(t, soundFont(*evalFont), s, 2, func(take) []*tally { return []*tally{&all} })
	}
	t.Logf("\n%s\n            %v", tallyHead, &all)
	lost, _ := all.others(Right)
	passed, _ := all.passed(Wrong)
	if all.f() < 0.95 || lost > 0.04 || passed > 0.1 || all.medianMS() > 8 {
		t.Errorf("%v", &all)
	}
}

func needFluidsynth(t testing.TB) {
	t.Helper()
	if _, err := exec.LookPath("fluidsynth"); err != nil {
		t.Skip("no fluidsynth here to render recorded guitars with")
	}
	if _, err := os.Stat(*evalFont); err != nil {
		t.Skip("no sound font here to render recorded guitars with:", *evalFont)
	}
}

func show(tk take, setting string, rep *Report) {
	if *evalShow == 0 {
		return
	}
	var one tally
	one.add(tk, rep, nil)
	lost, _ := one.others(Right)
	passed, _ := one.passed(Wrong)
	if lost == 0 && passed == 0 && one.f() > 0.985 {
		return
	}
	fmt.Printf("%s %s program %d %s tempo %.0f %s\n            %v\n", setting, tk.name, tk.program, tk.touch, tk.tempo, tk.exercise.Rhythm.Value, &one)
	if *evalShow < 2 {
		return
	}
	for i, want := range tk.verdicts {
		if m := rep.Marks[i]; string(m.Verdict) != want {
			at, key := -1.0, 0
			for _, p := range tk.played {
				if p.index == i {
					at, key = p.onS, p.key
				}
			}
			got := ""
			if m.Heard >= 0 {
				got = fmt.Sprintf("%.3f %.2f conf %.2f", rep.Heard[m.Heard].OnsetS, rep.Heard[m.Heard].MIDI-tk.cents/100, rep.Heard[m.Heard].Confidence)
			}
			fmt.Printf("   note %d (%d) want %s (%s) got %s; played %.3f %d heard %s\n", i, tk.exercise.Notes[i].Pitch.MIDI(), want, tk.mistake[i], m.Verdict, at, key, got)
		}
	}
	for i, j := range matchNotes(tk.played, tk.cents, rep.Heard) {
		if j < 0 {
			p := tk.played[i]
			fmt.Printf("   lost %.3f key %d vel %d index %d legato %v:", p.onS, p.key, p.velocity, p.index, p.legato)
			for _, h := range rep.Heard {
				if math.Abs(h.OnsetS-p.onS) < 0.1 {
					fmt.Printf(" %+.0f:%.2f", 1000*(h.OnsetS-p.onS), h.MIDI-tk.cents/100)
				}
			}
			fmt.Println()
		}
	}
}

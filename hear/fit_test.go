package hear

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/exercise"
)

var (
	fit    = flag.Bool("fit", false, "fit the judge to takes of several guitars, so many of each in each setting as -eval says")
	fitTo  = flag.String("fit.o", "", "file that the fitted weights are written to, as weights.go")
	fitSee = flag.Bool("fit.held", false, "fit to all guitars but one, for each, and count mistakes on that one")
)

// A lesson is a candidate of a take's moment and whether a note of its pitch
// began there.
type lesson struct {
	guitar, setting, moment int
	live                    bool
	signs                   [signCount]float32
	note                    float32
}

// mostMoments is more than any take has.
const mostMoments = 10000

// TestFit fits the judge. It starts from the weights that stand, for it learns
// from what they decide before each note.
func TestFit(t *testing.T) {
	if !*fit {
		t.Skip("the judge is fitted with -fit -eval TAKES")
	}
	guitars := fitGuitars(t)
	all := readLessons(t, guitars)
	if *fitSee {
		for gi, g := range guitars {
			fmt.Println("held out:", g.name)
			countMistakes(guitars, all, learn(without(heardLive(all, false), gi)), gi)
		}
	}
	whole, early := learn(heardLive(all, false)), learn(heardLive(all, true))
	for gi := range guitars {
		countMistakes(guitars, all, whole, gi)
	}
	if *fitTo != "" {
		if err := os.WriteFile(*fitTo, []byte(weightsFile(whole, early)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// A page is what there is to learn from one take.
type page struct {
	guitar, setting, take int
	lessons               []lesson
}

// read renders and hears a page's take, as a recording and live. The guitar
// after the last is a sound without notes.
func (p *page) read(t testing.TB, guitars []fitGuitar) {
	tk, x := take{exercise: &exercise.Exercise{}}, []float32(nil)
	if p.guitar == len(guitars) {
		x = noTake(p.take)
	} else {
		seed := *evalSeed*1000000 + uint64(p.guitar)*100000 + uint64(p.setting)*10000 + uint64(p.take)
		tk, x = fitTake(t, guitars[p.guitar], seed, p.take, evalSettings[p.setting])
	}
	for half, live := range []bool{false, true} {
		for _, l := range lessons(tk, x, live) {
			l.guitar, l.setting, l.live, l.moment = p.guitar, p.setting, live, l.moment+half*mostMoments
			p.lessons = append(p.lessons, l)
		}
	}
}

// readLessons reads the pages of all takes, several at once, and puts their lessons
// in order.
func readLessons(t *testing.T, guitars []fitGuitar) (all []lesson) {
	var pages []*page
	for g := range len(guitars) + 1 {
		for s := range evalSettings {
			for k := range *evalTakes {
				if g < len(guitars) || s == 0 {
					pages = append(pages, &page{guitar: g, setting: s, take: k})
				}
			}
		}
	}
	t.Run("takes", func(t *testing.T) {
		for i, p := range pages {
			t.Run(strconv.Itoa(i), func(t *testing.T) {
				t.Parallel()
				p.read(t, guitars)
			})
		}
	})
	for i, p := range pages {
		for _, l := range p.lessons {
			l.moment += 2 * i * mostMoments
			all = append(all, l)
		}
	}
	fmt.Println(len(all), "lessons")
	return all
}

func heardLive(all []lesson, live bool) (some []lesson) {
	for _, l := range all {
		if l.live == live {
			some = append(some, l)
		}
	}
	return some
}

func without(all []lesson, guitar int) (rest []lesson) {
	for _, l := range all {
		if l.guitar != guitar {
			rest = append(rest, l)
		}
	}
	return rest
}

// lessons hears a take and says of each candidate whether it was a note.
// Several moments may show the same note: the likeliest stands for it, and
// nothing is learnt from the others.
func lessons(tk take, x []float32, live bool) (all []lesson) {
	moments := momentsOf(tk, x, live)
	type place struct{ moment, candidate int }
	of := map[place]bool{}
	shown := map[place]bool{}
	for _, p := range tk.played {
		best, top := place{-1, -1}, math.Inf(-1)
		for i := range moments {
			m := &moments[i]
			if math.Abs(m.onsetS-p.onS) > onsetWithinS {
				continue
			}
			for c := range m.candidates {
				at := place{i, c}
				if math.Abs(m.candidates[c].midi-float64(p.key)-tk.cents/100) > pitchWithinKeys {
					continue
				}
				shown[at] = true
				worth := m.candidates[c].odds - 3*math.Abs(m.onsetS-p.onS)/onsetWithinS
				if !of[at] && worth > top {
					best, top = at, worth
				}
			}
		}
		if best.moment >= 0 {
			of[best] = true
		}
	}
	for i := range moments {
		for c := range moments[i].candidates {
			at := place{i, c}
			if shown[at] && !of[at] {
				continue
			}
			l := lesson{moment: i, signs: moments[i].candidates[c].signs}
			if of[at] {
				l.note = 1
			}
			all = append(all, l)
		}
	}
	return repeated(all)
}

// introTimes is how often a lesson from before a take's first note is given: a
// count-in is short, but each of its beeps that is taken for a note is one note
// too many in a flawless take.
const introTimes = 5

// repeated gives the lessons from before the first note several times. A take
// without notes has none.
func repeated(all []lesson) (more []lesson) {
	first := 0
	for _, l := range all {
		if l.note == 1 {
			first = l.moment
			break
		}
	}
	for _, l := range all {
		more = append(more, l)
		for n := 1; n < introTimes && l.moment < first; n++ {
			more = append(more, l)
		}
	}
	return more
}

// momentsOf returns every moment of a take, as it is judged at first when
// live, and else as in the end.
func momentsOf(tk take, x []float32, live bool) (moments []moment) {
	opts := Options{}
	if len(tk.exercise.Notes) > 0 {
		opts = OptionsFor(tk.exercise)
	}
	t := newTranscript(opts)
	t.ear.live = live
	if live {
		t.ear.reachAhead = livePeakReach
	}
	t.ear.report = func(m moment) int {
		moments = append(moments, m)
		return t.take(m)
	}
	t.ear.hear(audio.NewResampler(renderRate, rate).Feed(nil, x))
	t.ear.hear(make([]float32, int(flushS*rate)))
	usual := newReference(moments)
	for i := range moments {
		usual.apply(&moments[i])
	}
	return moments
}

// countMistakes prints how often a judge misses a note, takes another pitch
// for it, and takes for a note what is none, in percent of the notes.
func countMistakes(guitars []fitGuitar, all []lesson, j *judge, guitar int) {
	var of []lesson
	for _, l := range all {
		if l.guitar == guitar && !l.live {
			of = append(of, l)
		}
	}
	for s, setting := range evalSettings {
		var notes, missed, swapped, invented float64
		for i := 0; i < len(of); {
			best, top, true_, end := -1, math.Inf(-1), -1, i
			for ; end < len(of) && of[end].moment == of[i].moment; end++ {
				if odds := j.odds(&of[end].signs); odds > top {
					best, top = end, odds
				}
				if of[end].note == 1 {
					true_ = end
				}
			}
			if of[i].setting == s {
				switch {
				case true_ < 0 && top > 0:
					invented++
				case true_ >= 0 && top < 0:
					missed++
				case true_ >= 0 && best != true_:
					swapped++
				}
				if true_ >= 0 {
					notes++
				}
			}
			i = end
		}
		fmt.Printf("%-9s %-6s notes %6.0f  missed %.2f%%  other pitch %.2f%%  invented %.2f%%\n",
			guitars[guitar].name, setting, notes, 100*missed/notes, 100*swapped/notes, 100*invented/notes)
	}
}

// weightsFile is the judges as Go.
func weightsFile(whole, early *judge) string {
	var b strings.Builder
	b.WriteString("package hear\n")
	write := func(comment, name string, j *judge) {
		fmt.Fprintf(&b, "\n// %s\nvar %s = judge{\n\thidden: [hiddenCount][signCount + 1]float32{\n", comment, name)
		for h := range j.hidden {
			writeRow(&b, j.hidden[h][:])
		}
		b.WriteString("\t},\n\tout: [hiddenCount + 1]float32")
		writeRow(&b, j.out[:])
		b.WriteString("}\n")
	}
	write("The judge of every candidate of a moment that is wholly heard, as TestFit\n// fitted it.", "wholeJudge", whole)
	write("The judge of moments that have just begun, live, as TestFit fitted it.", "earlyJudge", early)
	return b.String()
}

// weightsInLine keeps the lines of weights short.
const weightsInLine = 12

func writeRow(b *strings.Builder, weights []float32) {
	b.WriteString("\t\t{")
	for i, w := range weights {
		if i%weightsInLine == 0 {
			b.WriteString("\n\t\t\t")
		}
		fmt.Fprintf(b, "%.4g, ", w)
	}
	b.WriteString("\n\t\t},\n")
}

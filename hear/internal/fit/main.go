// Command fit fits the classifiers of notes to takes of several guitars and writes
// their weights as JSON:
//
//	go run ./hear/internal/fit -takes 72 -o hear/internal/listen/weights.json
//
// It starts from the weights in use, because what they decide before a note is
// among its features. It needs fluidsynth with the fonts FluidR3 and TimGM6mb, the
// electric guitar of hear/testdata/guitars (npm ci there) and ffmpeg. Without -o it
// prints how often the classifier is wrong on each guitar; with -held it fits to
// all guitars but one and tries that on the one left out, for each in turn.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync"

	"heddle/hear/internal/listen"
	"heddle/hear/internal/performance"
)

// A fitting is what is fitted to.
type fitting struct {
	takes   int // of each guitar in each setting
	seed    uint64
	keep    string // folder that keeps rendered takes, "" for none
	guitars []fitGuitar
}

func main() {
	var f fitting
	flag.IntVar(&f.takes, "takes", 72, "takes of each guitar in each setting")
	flag.Uint64Var(&f.seed, "seed", 1, "chooses the takes")
	flag.StringVar(&f.keep, "keep", "", "folder that keeps the rendered takes for another run")
	hear := flag.String("hear", "hear", "folder of package hear")
	held := flag.Bool("held", false, "fit to all guitars but one and try that one, for each in turn")
	to := flag.String("o", "", "file that the weights are written to")
	flag.Parse()
	if err := f.run(*hear, *held, *to); err != nil {
		fmt.Fprintln(os.Stderr, "fit:", err)
		os.Exit(1)
	}
}

func (f *fitting) run(hear string, held bool, to string) (err error) {
	if f.guitars, err = readGuitars(hear); err != nil {
		return err
	}
	all, err := f.examples()
	if err != nil {
		return err
	}
	fmt.Println(len(all), "examples")
	recorded := only(all, func(e example) bool { return !e.live })
	if held {
		for g := range f.guitars {
			fmt.Println("held out:", f.guitars[g].name)
			f.printMistakes(os.Stdout, recorded, fit(only(recorded, func(e example) bool { return e.guitar != g })), g)
		}
	}
	whole := fit(recorded)
	for g := range f.guitars {
		f.printMistakes(os.Stdout, recorded, whole, g)
	}
	if to == "" {
		return nil
	}
	early := fit(only(all, func(e example) bool { return e.live }))
	file, err := weightsFile(listen.Classifiers{Whole: *whole, Early: *early})
	if err != nil {
		return err
	}
	return os.WriteFile(to, file, 0o644)
}

func only(all []example, which func(example) bool) (some []example) {
	for _, e := range all {
		if which(e) {
			some = append(some, e)
		}
	}
	return some
}

// examples renders and hears all takes, several at once, and returns their examples
// in order. The guitar after the last is sound without notes.
func (f *fitting) examples() (all []example, err error) {
	type job struct {
		guitar, setting, take int
		examples              []example
		err                   error
	}
	var jobs []*job
	for g := range len(f.guitars) + 1 {
		for s := range performance.Settings {
			for k := range f.takes {
				if g < len(f.guitars) || s == 0 {
					jobs = append(jobs, &job{guitar: g, setting: s, take: k})
				}
			}
		}
	}
	var wait sync.WaitGroup
	turns := make(chan struct{}, runtime.NumCPU())
	for _, j := range jobs {
		wait.Go(func() {
			turns <- struct{}{}
			defer func() { <-turns }()
			j.examples, j.err = f.examplesOf(j.guitar, j.setting, j.take)
		})
	}
	wait.Wait()
	for i, j := range jobs {
		if j.err != nil {
			return nil, j.err
		}
		for _, e := range j.examples {
			e.moment += 2 * i * mostMoments
			all = append(all, e)
		}
	}
	return all, nil
}

// printMistakes prints how often a classifier misses a note, takes another pitch
// for it, and takes for a note what is none, in percent of the notes.
func (f *fitting) printMistakes(w io.Writer, all []example, c *listen.Classifier, guitar int) {
	of := only(all, func(e example) bool { return e.guitar == guitar })
	for s, setting := range performance.Settings {
		var notes, missed, swapped, invented float64
		for i := 0; i < len(of); {
			best, top, truth, end := -1, -1e9, -1, i
			for ; end < len(of) && of[end].moment == of[i].moment; end++ {
				if odds := c.LogOdds(&of[end].features); odds > top {
					best, top = end, odds
				}
				if of[end].note == 1 {
					truth = end
				}
			}
			if of[i].setting == s {
				switch {
				case truth < 0 && top > 0:
					invented++
				case truth >= 0 && top < 0:
					missed++
				case truth >= 0 && best != truth:
					swapped++
				}
				if truth >= 0 {
					notes++
				}
			}
			i = end
		}
		fmt.Fprintf(w, "%-9s %-6s notes %6.0f  missed %.2f%%  other pitch %.2f%%  invented %.2f%%\n",
			f.guitars[guitar].name, setting, notes, 100*missed/notes, 100*swapped/notes, 100*invented/notes)
	}
}

// weightsFile is the classifiers as JSON, a row of weights to a line.
func weightsFile(c listen.Classifiers) ([]byte, error) {
	text, err := json.Marshal(c)
	return append(bytes.ReplaceAll(text, []byte("],"), []byte("],\n")), '\n'), err
}

package takes_test

import (
	"bytes"
	"errors"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/hear"
	"heddle/pitch"
)

// thursday is an evening in a zone two hours ahead of UTC.
var thursday = time.Date(2026, 7, 16, 20, 22, 11, 0, time.FixedZone("", 2*60*60))

// tone is half a second of a note that dies away, on a grid of 16 bits.
func tone(rate int) []float32 {
	x := make([]float32, rate/2)
	for i := range x {
		at := float64(i) / float64(rate)
		x[i] = float32(math.Round(math.Exp(-3*at)*math.Sin(2*math.Pi*196*at)*30000)) / 32768
	}
	return x
}

func source(t testing.TB, rate int, x []float32) *audio.Source {
	t.Helper()
	s, err := audio.Decode(bytes.NewReader(audiotest.WAV(rate, x)))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// played is a take of a short line: all right but one note wrong, one missed,
// and one too many.
func played(t testing.TB) *takes.Take {
	t.Helper()
	spec, err := exercise.ParseQuery("home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&bars=2")
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	var heard []hear.Heard
	for i, n := range ex.Notes {
		at, key := n.Start.Quarters()*60/ex.Tempo+1, float64(n.Pitch.MIDI())
		switch i {
		case 3:
			key++
		case 5:
			continue
		}
		heard = append(heard, hear.Heard{OnsetS: at, OffsetS: at + 0.3, MIDI: key, Confidence: 1, Level: -20})
	}
	heard = append(heard, hear.Heard{OnsetS: 30, OffsetS: 30.3, MIDI: 60, Confidence: 1, Level: -20})
	firstBarS := 1.0
	report := hear.Mark(heard, 0, ex, hear.TakeOptions{Clicked: true, ClickS: firstBarS})
	return &takes.Take{
		Taken: thursday, Spec: ex.Spec, Sentence: ex.Sentence, Label: "Ann, second try", Written: takes.Keys(ex), FirstBarS: &firstBarS,
		Report: report,
	}
}

// keep keeps a take with half a second of sound.
func keep(t testing.TB, f *takes.Folder, take *takes.Take) (name string) {
	t.Helper()
	draft, err := f.Draft(take.Taken)
	if err != nil {
		t.Fatal(err)
	}
	defer draft.Drop()
	if err := draft.Record(source(t, 48000, tone(48000))); err != nil {
		t.Fatal(err)
	}
	if name, err = draft.Keep(take); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestATakeIsReadAsItWasKept(t *testing.T) {
	f, take := takes.In(t.TempDir()), played(t)
	name := keep(t, f, take)
	if name != "20260716-182211" {
		t.Errorf("the take is called %q, want when it was taken, in UTC", name)
	}
	got, err := f.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	want := *take
	want.Rate, want.LengthS = 48000, 0.5
	if diff := cmp.Diff(&want, got, cmpopts.IgnoreUnexported(hear.Report{}, hear.Heard{}), cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("kept − read +\n%s", diff)
	}
	if got.Report.Summary.Wrong != 1 || got.Report.Summary.Missed != 1 || got.Report.Summary.Extra != 1 || len(got.Report.Advice) == 0 {
		t.Errorf("the summary is %+v with the advice %q", got.Report.Summary, got.Report.Advice)
	}
	if _, offset := got.Taken.Zone(); offset != 2*60*60 {
		t.Errorf("the clock it was taken by is lost: %v", got.Taken)
	}
	if ex, err := got.Exercise(); err != nil || len(ex.Notes) != len(got.Report.Marks) {
		t.Errorf("its exercise: %v", err)
	}
}

func TestNamesNeverCollide(t *testing.T) {
	data, take := t.TempDir(), played(t)
	const programs, each = 2, 6
	var names [programs * each]string
	var all sync.WaitGroup
	for i := range names {
		all.Go(func() {
			draft, err := takes.In(data).Draft(thursday)
			if err != nil {
				t.Error(err)
				return
			}
			defer draft.Drop()
			if err := draft.Record(source(t, 8000, tone(8000))); err != nil {
				t.Error(err)
			}
			if names[i], err = draft.Keep(take); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	listed, more, err := takes.In(data).Names("", 100)
	if err != nil || more {
		t.Fatal(err, more)
	}
	slices.Sort(names[:])
	slices.Reverse(names[:])
	if !slices.Equal(listed, names[:]) || len(slices.Compact(listed)) != len(names) {
		t.Errorf("%d takes are called %v and listed as %v", len(names), names, listed)
	}
	for _, name := range listed {
		if _, err := takes.In(data).Open(name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestTheNewestAreListedFirstPageByPage(t *testing.T) {
	f, take := takes.In(t.TempDir()), played(t)
	if names, more, err := f.Names("", 3); len(names) > 0 || more || err != nil {
		t.Errorf("a folder that is not there holds %v, %v, %v", names, more, err)
	}
	for _, days := range []int{3, 1, 2, 0} {
		take.Taken = thursday.AddDate(0, 0, days)
		keep(t, f, take)
	}
	for _, stray := range []string{"20260716", "notes", "20269999-000000-1"} {
		if err := os.Mkdir(filepath.Join(f.Dir(), stray), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	first, more, err := f.Names("", 3)
	if want := []string{"20260719-182211", "20260718-182211", "20260717-182211"}; err != nil || !more || !slices.Equal(first, want) {
		t.Errorf("first %v, %v, %v, want %v and more", first, more, err, want)
	}
	rest, more, err := f.Names(first[2], 3)
	if want := []string{"20260716-182211"}; err != nil || more || !slices.Equal(rest, want) {
		t.Errorf("then %v, %v, %v, want %v", rest, more, err, want)
	}
}

func TestADeletedTakeIsGone(t *testing.T) {
	f := takes.In(t.TempDir())
	name, other := keep(t, f, played(t)), keep(t, f, played(t))
	if err := f.Delete(name); err != nil {
		t.Fatal(err)
	}
	if err := f.Delete(name); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("deleted again: %v", err)
	}
	if _, err := f.Open(name); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("opened: %v", err)
	}
	entries, err := os.ReadDir(f.Dir())
	if err != nil || len(entries) != 1 || entries[0].Name() != other {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}

// A name comes from an address: nothing outside the folder is reached by one.
func TestOnlyNamesOfTakesAreReached(t *testing.T) {
	data := t.TempDir()
	f := takes.In(data)
	keep(t, f, played(t))
	if err := os.WriteFile(filepath.Join(data, takes.ReportFile), []byte("{}"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"", ".", "..", "../takes", "20260716-182211/..", "/", "20260716-182211/../20260716-182211", "20260716-18221\n"} {
		if _, err := f.Open(name); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%q is opened: %v", name, err)
		}
		if err := f.Delete(name); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%q is deleted: %v", name, err)
		}
	}
	if _, err := f.OpenFile("20260716-182211", "../../secret"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a file beside the take is opened: %v", err)
	}
}

// A recording that breaks off, and a folder that can't be one, leave nothing
// behind, and the reason is one line.
func TestWhatIsNotKeptLeavesNothing(t *testing.T) {
	data := t.TempDir()
	f := takes.In(data)
	draft, err := f.Draft(thursday)
	if err != nil {
		t.Fatal(err)
	}
	broken, err := audio.Decode(strings.NewReader("RIFF\x24\x10\x00\x00WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x40\x1f\x00\x00\x80\x3e\x00\x00\x02\x00\x10\x00data\x00\x10\x00\x00\x01\x02\x03\x04"))
	if err != nil {
		t.Fatal(err)
	}
	var input *pitch.InputError
	if err := draft.Record(broken); !errors.As(err, &input) {
		t.Errorf("a recording that breaks off: %v", err)
	}
	draft.Drop()
	if entries, err := os.ReadDir(f.Dir()); err != nil || len(entries) > 0 {
		t.Errorf("a dropped draft leaves %v, %v", entries, err)
	}

	inTheWay := filepath.Join(data, "file")
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	var notKept *takes.NotKeptError
	if _, err := takes.In(inTheWay).Draft(thursday); !errors.As(err, &notKept) || strings.Contains(err.Error(), "\n") || !strings.Contains(err.Error(), "takes can't be kept in") {
		t.Errorf("a file where the folder would be: %v", err)
	}
}

// Whatever a program that was killed left behind is no take, and goes after a
// day.
func TestHalfATakeIsNeverListed(t *testing.T) {
	f := takes.In(t.TempDir())
	half, err := f.Draft(thursday)
	if err != nil {
		t.Fatal(err)
	}
	if err := half.Record(source(t, 8000, tone(8000))); err != nil {
		t.Fatal(err)
	}
	if names, _, err := f.Names("", 10); len(names) > 0 || err != nil {
		t.Errorf("half a take is listed: %v, %v", names, err)
	}
	name := keep(t, f, played(t))
	if _, err := half.Recording(); err != nil {
		t.Errorf("another take removed the one being written: %v", err)
	}
	later := time.Now().Add(25 * time.Hour)
	if _, err := f.Draft(later); err != nil {
		t.Fatal(err)
	}
	if _, err := half.Recording(); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("after a day half a take is still there: %v", err)
	}
	if _, err := f.Open(name); err != nil {
		t.Errorf("a whole take went with it: %v", err)
	}
}

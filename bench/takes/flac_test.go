package takes_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"heddle/audio"
	"heddle/bench/takes"
)

// Every bit of a recording of 16 bits is kept, at any rate that is marked.
// Debian's ffmpeg reads what was written as the format's outside judge.
func TestARecordingIsKeptBitForBit(t *testing.T) {
	for _, rate := range []int{8000, 11025, 16000, 44100, 48000, 192000} {
		want := tone(rate)
		file := recorded(t, rate, want)
		back, err := audio.Decode(file)
		if err != nil {
			t.Fatal(err)
		}
		got := make([]float32, len(want)+1)
		n, err := readAll(back, got)
		if err != nil || back.Rate != rate || math.Abs(back.LengthS-0.5) > 1e-3 || !slices.Equal(got[:n], want) {
			t.Errorf("%d Hz: %d of %d samples came back at %d Hz (%v)", rate, n, len(want), back.Rate, err)
		}
		if about, err := file.Stat(); err != nil || about.Size() > int64(len(want))*2 {
			t.Errorf("%d Hz: %d bytes for %d samples", rate, about.Size(), len(want))
		}
		judged(t, file.Name(), want)
	}
}

// recorded keeps samples as a take and opens its recording.
func recorded(t *testing.T, rate int, samples []float32) *os.File {
	t.Helper()
	f := takes.In(t.TempDir())
	draft, err := f.Draft(thursday)
	if err != nil {
		t.Fatal(err)
	}
	if err := draft.Record(source(t, rate, samples)); err != nil {
		t.Fatal(err)
	}
	name, err := draft.Keep(played(t))
	if err != nil {
		t.Fatal(err)
	}
	file, err := f.OpenFile(name, takes.RecordingFile)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	return file
}

// A take ends anywhere in a block of 4096 samples, a sample after its start too.
func TestATakeOfAnyLengthIsKept(t *testing.T) {
	const blocks = 5 * 4096
	for _, length := range []int{blocks, blocks + 1, blocks + 15, blocks + 16} {
		want := tone(48000)[:length]
		file := recorded(t, 48000, want)
		back, err := audio.Decode(file)
		if err != nil {
			t.Errorf("%d samples: %v", length, err)
			continue
		}
		got := make([]float32, length+1)
		if n, err := readAll(back, got); err != nil || !slices.Equal(got[:n], want) {
			t.Errorf("%d of %d samples came back (%v)", n, length, err)
		}
		judged(t, file.Name(), want)
	}
}

func readAll(s *audio.Source, x []float32) (n int, err error) {
	for n < len(x) {
		read, err := s.Read(x[n:])
		n += read
		if errors.Is(err, io.EOF) {
			return n, nil
		}
		if err != nil {
			return n, err
		}
	}
	return n, nil
}

// judged has ffmpeg decode a file.
func judged(t *testing.T, file string, want []float32) {
	t.Helper()
	ffmpeg, err := exec.LookPath("ffmpeg")
	if err != nil {
		t.Log("SKIPPED: ffmpeg is not installed, so that nothing else has read the FLAC files")
		return
	}
	var complaints bytes.Buffer
	command := exec.Command(ffmpeg, "-nostdin", "-v", "warning", "-i", file, "-f", "s16le", "-")
	command.Stderr = &complaints
	raw, err := command.Output()
	if err != nil || complaints.Len() > 0 || len(raw) != 2*len(want) {
		t.Fatalf("ffmpeg reads %d bytes of %s: %v %s", len(raw), filepath.Base(file), err, complaints.String())
	}
	for i, x := range want {
		if got := int16(raw[2*i]) | int16(raw[2*i+1])<<8; float32(got)/32768 != x {
			t.Fatalf("ffmpeg reads %d at %d, want %v", got, i, x)
		}
	}
}

// BenchmarkRecord writes a minute at 48 kHz.
func BenchmarkRecord(b *testing.B) {
	var x []float32
	for len(x) < 60*48000 {
		x = append(x, tone(48000)...)
	}
	f := takes.In(b.TempDir())
	for b.Loop() {
		draft, err := f.Draft(thursday)
		if err != nil {
			b.Fatal(err)
		}
		if err := draft.Record(source(b, 48000, x)); err != nil {
			b.Fatal(err)
		}
		draft.Drop()
	}
	b.ReportMetric(float64(b.Elapsed().Seconds())/float64(b.N)/60, "s/s")
}

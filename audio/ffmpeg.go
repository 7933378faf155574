package audio

import (
	"bufio"
	"bytes"
	"cmp"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"

	"heddle/pitch"
)

// Formats go through ffmpeg, where it is installed, if no encoder under a licence
// like ours exists or if only phones and browsers record them.

// ErrNoFFmpeg reports that a format needs ffmpeg and it isn't installed.
var ErrNoFFmpeg = errors.New("this format needs ffmpeg: install it, or use Opus, FLAC or WAV")

// HasFFmpeg reports whether ffmpeg is installed.
func HasFFmpeg() bool {
	_, err := exec.LookPath("ffmpeg")
	return err == nil
}

// An ffmpegWriter passes sound to ffmpeg, and passes ffmpeg's file on once it is
// whole: these formats fill in their heads at the end, so they can't be streamed.
type ffmpegWriter struct {
	ctx     context.Context
	w       io.Writer
	options []string
	file    string
	command *exec.Cmd
	in      *bufio.Writer
	pipe    io.Closer
	said    bytes.Buffer
	left    int64
	width   int
}

// NewMP3 returns a sink that writes an MP3 file of 192 kbit/s through ffmpeg.
// It must be closed.
func NewMP3(ctx context.Context, w io.Writer, t Tags) (Sink, error) {
	// An ID3 tempo is a whole number (id3.org, ID3v2.4, TBPM).
	return newFFmpeg(ctx, w, t, "-c:a", "libmp3lame", "-b:a", "192k", "-metadata", "TBPM="+strconv.Itoa(int(math.Round(t.Tempo))), "-f", "mp3")
}

// NewM4A returns a sink that writes an M4A file (AAC, 192 kbit/s), the format
// of phones, through ffmpeg. It must be closed.
func NewM4A(ctx context.Context, w io.Writer, t Tags) (Sink, error) {
	return newFFmpeg(ctx, w, t, "-c:a", "aac", "-b:a", "192k", "-metadata", "tmpo="+strconv.Itoa(int(math.Round(t.Tempo))), "-movflags", "+faststart", "-f", "ipod")
}

func newFFmpeg(ctx context.Context, w io.Writer, t Tags, options ...string) (Sink, error) {
	if !HasFFmpeg() {
		return nil, ErrNoFFmpeg
	}
	return &ffmpegWriter{ctx: ctx, w: w, options: append([]string{"-metadata", "title=" + t.Title}, options...)}, nil
}

// Start starts ffmpeg.
func (x *ffmpegWriter) Start(f Format) error {
	file, err := os.CreateTemp("", "heddle-*")
	if err != nil {
		return err
	}
	file.Close()
	x.file, x.width, x.left = file.Name(), f.channels(), f.Frames
	args := []string{"-v", "error", "-f", "f32le", "-ar", strconv.Itoa(f.SampleRate), "-ac", strconv.Itoa(x.width), "-i", "pipe:0", "-fflags", "+bitexact", "-flags:a", "+bitexact"}
	x.command = exec.CommandContext(x.ctx, "ffmpeg", append(append(args, x.options...), "-y", x.file)...)
	x.command.Stderr = &x.said
	pipe, err := x.command.StdinPipe()
	if err != nil {
		return err
	}
	x.pipe, x.in = pipe, bufio.NewWriterSize(pipe, 1<<16)
	return x.command.Start()
}

// Write hands frames over.
func (x *ffmpegWriter) Write(frames []float32) error {
	x.left -= int64(len(frames) / x.width)
	var raw [4]byte
	for _, s := range frames {
		binary.LittleEndian.PutUint32(raw[:], math.Float32bits(s))
		if _, err := x.in.Write(raw[:]); err != nil {
			return x.failed(err)
		}
	}
	return nil
}

// Finish waits for ffmpeg and passes the file on.
func (x *ffmpegWriter) Finish() error {
	if err := checkLength(x.left); err != nil {
		return err
	}
	if err := errors.Join(x.in.Flush(), x.pipe.Close()); err != nil {
		return x.failed(err)
	}
	if err := x.command.Wait(); err != nil {
		return x.failed(err)
	}
	file, err := os.Open(x.file)
	if err != nil {
		return err
	}
	defer file.Close()
	_, err = io.Copy(x.w, file)
	return err
}

// Close stops ffmpeg and removes its file. It may be called at any time.
func (x *ffmpegWriter) Close() error {
	if x.command != nil && x.command.Process != nil && x.command.ProcessState == nil {
		x.pipe.Close()
		_ = x.command.Process.Kill() // it may have ended by itself
		_ = x.command.Wait()         // its error is that it was killed
	}
	if x.file == "" {
		return nil
	}
	return os.Remove(x.file)
}

func (x *ffmpegWriter) failed(err error) error {
	if x.ctx.Err() != nil {
		return x.ctx.Err()
	}
	if x.command.ProcessState == nil {
		_ = x.pipe.Close()
		_ = x.command.Wait()
	}
	return fmt.Errorf("ffmpeg: %s", lastLine(x.said.String(), err))
}

// lastLine is the last line that a program printed, or the error if there is none.
func lastLine(said string, err error) string {
	lines := strings.Split(strings.TrimSpace(said), "\n")
	if last := lines[len(lines)-1]; last != "" {
		return last
	}
	return err.Error()
}

// openFFmpeg decodes a recording of a foreign kind through ffmpeg. A file is
// read by its name, because the index of an MP4 file is often at its end; what
// is no file is piped. Naming the format and the protocol keeps a recording
// from having ffmpeg open anything else.
func openFFmpeg(ctx context.Context, kind foreign, r, head io.Reader) (*Source, error) {
	if !HasFFmpeg() {
		return nil, notRecording(kind.name + ", which needs ffmpeg to be installed")
	}
	protocol, input, stdin := "pipe", "pipe:0", head
	if file, ok := r.(*os.File); ok {
		if info, err := file.Stat(); err == nil && info.Mode().IsRegular() {
			protocol, input, stdin = "file", "file:"+file.Name(), nil
		}
	}
	command := exec.CommandContext(ctx, "ffmpeg", "-v", "error", "-protocol_whitelist", protocol, "-f", kind.demuxer, "-i", input,
		"-vn", "-t", strconv.Itoa(int(LongestS)+1), "-c:a", "pcm_f32le", "-f", "wav", "pipe:1")
	var said bytes.Buffer
	command.Stdin, command.Stderr = stdin, &said
	out, err := command.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := command.Start(); err != nil {
		return nil, err
	}
	// ended waits for ffmpeg to end and says why it failed, if it did.
	ended := func() error {
		err := command.Wait()
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err == nil && said.Len() == 0:
			return nil
		case protocol == "pipe" && kind.demuxer == "mov":
			return &pitch.InputError{What: "recording", Value: kind.name + " that can't be read from a pipe", Want: "the name of a file"}
		}
		return notRecording(kind.name + " that ffmpeg can't read: " + lastLine(said.String(), errors.New("it gives no reason")))
	}
	source, err := openWAV(bufio.NewReaderSize(out, 1<<16))
	if err != nil {
		out.Close()
		return nil, cmp.Or(ended(), err)
	}
	source.Format = kind.name
	next := source.next
	source.next = func(frames [][2]float32) (int, error) {
		n, err := next(frames)
		if errors.Is(err, io.EOF) {
			err = cmp.Or(ended(), err)
		}
		return n, err
	}
	return source, nil
}

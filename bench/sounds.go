package bench

import (
	"bytes"
	"cmp"
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"
	"time"

	"heddle/audio"
	"heddle/bench/site"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/sound"
)

// The page plays each part as a seamless loop of its own, so that the player
// can mute one, set its level, and repeat any run of notes. All parts of one
// exercise have the same length and share one timeline.

// longestLoopS is the longest loop in seconds that the page plays: a browser
// holds every part unpacked, six parts at 23 MB for each minute.
const longestLoopS = 180

// A played is a request for sound.
type played struct {
	exercise *exercise.Exercise
	options  sound.Options
	key      string
}

// readPlayed reads what to play: a spec, and beside it the vamp, the line's
// tone and where the click falls.
func readPlayed(r *http.Request) (played, error) {
	a, err := site.Valid(r)
	if err != nil {
		return played{}, err
	}
	p := played{exercise: a.Exercise, options: sound.DefaultOptions()}
	// The page itself mixes and repeats the parts, and counts in.
	p.options.CountIn, p.options.Voice, p.options.Seed = 0, true, a.View.Sound.Seed
	p.options.Vamp, p.options.ClickOn = cmp.Or(a.View.Sound.Vamp, sound.VampFor(p.exercise)), cmp.Or(a.View.Sound.ClickOn, sound.EveryBeat)
	p.options.Tone, p.options.Articulation = cmp.Or(a.View.Sound.Tone, sound.ToneFor(p.exercise.Instrument)), a.View.Sound.Articulation
	o := p.options
	p.key = strings.Join([]string{p.exercise.Spec.Query(), string(o.Vamp), string(o.Tone), string(o.Articulation), string(o.ClickOn), strconv.FormatUint(o.Seed, 10)}, "\x00")
	return p, p.bounded()
}

// bounded refuses a loop that is too long to be held by a page.
func (p played) bounded() error {
	quarters := p.exercise.Length.Quarters()
	seconds := quarters * 60 / p.exercise.Tempo
	if seconds <= longestLoopS {
		return nil
	}
	want := "at most " + minutes(longestLoopS)
	var ways []string
	if bars := int(longestLoopS * p.exercise.Tempo / 60 / p.exercise.Rhythm.Meter.Bar().Quarters()); bars > 0 {
		ways = append(ways, pitch.Count(bars, "bar"))
	}
	if tempo := math.Ceil(quarters * 60 / longestLoopS); tempo <= exercise.FastestTempo {
		ways = append(ways, "a tempo of "+strconv.Itoa(int(tempo)))
	}
	if len(ways) > 0 {
		want += ", as with " + strings.Join(ways, " or ")
	}
	return &pitch.InputError{What: "playing time", Value: minutes(seconds), Want: want}
}

// minutes writes seconds as minutes and seconds, "12:48".
func minutes(seconds float64) string {
	whole := int(math.Ceil(seconds))
	return fmt.Sprintf("%d:%02d", whole/60, whole%60)
}

func (b *Bench) serveSound(w http.ResponseWriter, r *http.Request) {
	p, err := readPlayed(r)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	name := r.PathValue("part")
	if name == "timeline" {
		b.serveTimeline(w, r, p)
		return
	}
	render := func(ctx context.Context) ([]byte, error) { return p.renderCount(ctx) }
	if name != "count" {
		part, err := sound.ParsePart(name)
		if err != nil {
			site.Refuse(w, r, err)
			return
		}
		render = func(ctx context.Context) ([]byte, error) { return p.renderLoop(ctx, part) }
	}
	wav, err := b.sounds.get(r.Context(), name+"\x00"+p.key, func(ctx context.Context) ([]byte, error) {
		release, err := b.site.Renders.Take(ctx)
		if err != nil {
			return nil, err
		}
		defer release()
		if p.options.Gain, err = b.gainOf(ctx, p); err != nil {
			return nil, err
		}
		return render(ctx)
	})
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "audio/wav")
	w.Header().Set("Cache-Control", "private, max-age=600")
	http.ServeContent(site.SteadyWriter{ResponseWriter: w}, r, "", time.Time{}, bytes.NewReader(wav))
}

// headroom is how much softer the page plays than a file: the browser adds up the
// parts without a limiter.
const headroom = 0.7

// gainOf returns the gain of the mix, which all parts share and which takes a
// render of the mix to find.
func (b *Bench) gainOf(ctx context.Context, p played) (float64, error) {
	kept, err := b.sounds.get(ctx, "gain\x00"+p.key, func(ctx context.Context) ([]byte, error) {
		p.options.Seamless = true
		gain, err := sound.Gain(ctx, p.exercise, p.options)
		gain *= headroom
		return binary.BigEndian.AppendUint64(nil, math.Float64bits(gain)), err
	})
	if err != nil {
		return 0, err
	}
	return math.Float64frombits(binary.BigEndian.Uint64(kept)), nil
}

func (b *Bench) serveTimeline(w http.ResponseWriter, r *http.Request, p played) {
	p.options.Seamless = true
	timeline, err := sound.Plan(p.exercise, p.options)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	body, err := json.Marshal(struct {
		sound.Timeline
		Tempo  float64 `json:"tempo"`
		Groups []int   `json:"groups"` // of each note
		Pickup float64 `json:"pickup"` // quarter notes before the first bar line
	}{timeline, p.exercise.Tempo, groupsOf(p.exercise), p.exercise.Rhythm.Pickup.Quarters()})
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	w.Header().Set("Cache-Control", "private, max-age=600")
	site.Send(w, r, http.StatusOK, "application/json", body)
}

func groupsOf(ex *exercise.Exercise) []int {
	groups := make([]int, len(ex.Notes))
	for i, n := range ex.Notes {
		groups[i] = n.Group
	}
	return groups
}

func (p played) renderLoop(ctx context.Context, part sound.Part) ([]byte, error) {
	p.options.Seamless = true
	return wavOf(func(sink audio.Sink) error {
		_, err := sound.RenderPart(ctx, p.exercise, p.options, part, sink)
		return err
	})
}

func (p played) renderCount(ctx context.Context) ([]byte, error) {
	p.options.CountIn = 1
	timeline, err := sound.Plan(p.exercise, p.options)
	if err != nil {
		return nil, err
	}
	return wavOf(func(sink audio.Sink) error {
		head := &headOnly{Sink: sink, left: timeline.CountInEnd}
		_, err := sound.RenderPart(ctx, p.exercise, p.options, sound.Click, head)
		if errors.Is(err, errHeadDone) {
			return nil
		}
		return err
	})
}

// wavOf collects what a render writes as a WAV file of 16 bits.
func wavOf(render func(audio.Sink) error) ([]byte, error) {
	var file bytes.Buffer
	sink, err := audio.NewWAV(&file, audio.Bits16, audio.Tags{})
	if err != nil {
		return nil, err
	}
	if err := render(sink); err != nil {
		return nil, err
	}
	return file.Bytes(), nil
}

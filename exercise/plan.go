package exercise

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/phrase"
	"heddle/pitch"
	"heddle/touch"
)

// A plan is a spec whose every word has been read. Build works from it.
type plan struct {
	spec       Spec // becomes canonical as the plan grows
	instrument neck.Instrument
	retuned    bool // whether the tuning is not the instrument's own
	naming     pitch.Naming
	rhythm     line.Rhythm
	direction  line.Direction
	follow     line.Follow
	sizes      []int // of the groups of each scale of a bar
	repeats    line.Repeats
	orders     [][]int // one for each scale of a bar
	picking    finger.Picking
	touch      touch.Style
	bars       []bar // of the changes
	form       form  // what they are called, if they have a name
	key        pitch.Name
	spans      []span    // one, or one for each chord of the changes
	cycle      line.Beat // how long the spans last before they come again
	targets    []target
	placed     []line.Section
	phrased    bool // it is a phrase, not a line
	busy       phrase.Busy
	cells      []phrase.Cell
	dropped    []string // remarks about fields of the other form
	cut        cut
	scaleOf    []int // for each source, over all sections, its scale in the exercise
}

// A span is the harmony of one chord of the changes, or of the whole line.
type span struct {
	chord  pitch.Chord
	start  line.Beat        // from the beginning of the changes
	bar    int              // in which it lies
	scales []pitch.Scale    // home first
	laid   []pitch.Relation // the superimposed ones as they were given
}

// read parses every field of the spec and fills in all defaults except those that
// depend on the placements.
func read(s Spec) (*plan, error) {
	p := &plan{spec: s}
	for _, step := range []func() error{p.checkNumbers, p.readInstrument, p.readRhythm, p.readHarmony, p.readPattern, p.readForm, p.readCut, p.readLanding, p.readHands} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// checkNumbers checks values set in Go code against the same bounds as those
// read from text.
func (p *plan) checkNumbers() error {
	for _, f := range fields {
		for _, v := range f.Get(p.spec) {
			scratch := Spec{}
			if err := f.Set(&scratch, v); err != nil {
				return err
			}
		}
	}
	return nil
}

// named gives an input error from a lower package the name of the field.
func named(field string, err error) error {
	var input *pitch.InputError
	if errors.As(err, &input) {
		named := *input
		named.What = field
		return &named
	}
	return err
}

func (p *plan) readInstrument() error {
	s := &p.spec
	in, err := neck.Named(cmp.Or(s.Instrument, "guitar"))
	if err != nil {
		return named("instrument", err)
	}
	s.Instrument = in.Name
	own := neck.FormatTuning(in.Open)
	if s.Tuning != "" {
		if in.Open, err = neck.ParseTuning(s.Tuning, in); err != nil {
			return named("tuning", err)
		}
	}
	s.Tuning = neck.FormatTuning(in.Open)
	p.retuned = s.Tuning != own
	in.Frets = or(&s.Frets, in.Frets)
	in.ScaleMM = or(&s.Scale, in.ScaleMM)
	in.Capo, in.Left = s.Capo, s.Left
	or(&s.Reach, 100)
	if in.Capo >= in.Frets {
		return &pitch.InputError{What: "capo", Value: strconv.Itoa(in.Capo), Want: "a fret below the neck's " + strconv.Itoa(in.Frets)}
	}
	if s.Fret > in.LastFret() {
		return &pitch.InputError{What: "fret", Value: strconv.Itoa(s.Fret), Want: "a fret on this neck, 0 to " + strconv.Itoa(in.LastFret())}
	}
	p.instrument = in
	return named("tuning", in.Check())
}

// or fills in an unset field and returns its value.
func or[T int | float64](field *T, otherwise T) T {
	*field = cmp.Or(*field, otherwise)
	return *field
}

func (p *plan) readPattern() (err error) {
	s := &p.spec
	scales := len(p.spans[0].scales)
	switch {
	case line.IsRun(s.Groups):
	case len(s.Groups) == 0:
		s.Groups = defaultGroups(s.Order, scales)
	case len(s.Groups) == 1:
		s.Groups = slices.Repeat(s.Groups, scales)
	case len(s.Groups) != scales:
		return &pitch.InputError{What: "groups", Value: line.FormatGroups(s.Groups), Want: "one number for each of the " + strconv.Itoa(scales) + " scales, one for all, or run"}
	}
	if p.direction, err = line.ParseDirection(cmp.Or(s.Direction, string(line.Down))); err != nil {
		return named("direction", err)
	}
	if p.follow, err = line.ParseFollow(cmp.Or(s.Follow, string(line.FollowFirst))); err != nil {
		return named("follow", err)
	}
	if p.repeats, err = line.ParseRepeats(cmp.Or(s.Repeats, string(line.KeepRepeats))); err != nil {
		return named("repeats", err)
	}
	s.Direction, s.Follow, s.Repeats = string(p.direction), string(p.follow), string(p.repeats)
	p.sizes = s.Groups
	if line.IsRun(s.Groups) {
		p.sizes = slices.Repeat([]int{1}, scales)
	}
	s.Order = cmp.Or(s.Order, "straight")
	if p.orders, err = line.ParseOrder(s.Order, p.sizes); err != nil {
		return named("order", err)
	}
	s.Order = line.FormatOrder(p.orders)
	if line.IsRun(s.Groups) && s.Order != "straight" {
		return &pitch.InputError{What: "order", Value: s.Order, Want: "straight: a run has no groups"}
	}
	return nil
}

// defaultGroups gives each scale as many notes as its order plays, or two.
func defaultGroups(order string, scales int) []int {
	groups := slices.Repeat([]int{2}, scales)
	orders := strings.Split(order, "/")
	for i := range groups {
		steps := strings.FieldsFunc(orders[min(i, len(orders)-1)], func(r rune) bool { return r == ',' || r == ' ' })
		if len(steps) > 1 && len(steps) <= line.MostInGroup {
			groups[i] = len(steps)
		}
	}
	return groups
}

func (p *plan) readRhythm() (err error) {
	s, r := &p.spec, &p.rhythm
	if r.Value, err = line.ParseValue(cmp.Or(s.Value, string(line.Eighth))); err != nil {
		return named("value", err)
	}
	if r.Meter, err = line.ParseMeter(cmp.Or(s.Meter, "4/4")); err != nil {
		return named("meter", err)
	}
	if r.Swing, err = line.ParseSwing(cmp.Or(s.Feel, "straight")); err != nil {
		return named("feel", err)
	}
	s.Value, s.Meter, s.Feel = string(r.Value), r.Meter.String(), r.Swing.String()
	r.Pickup, r.Gap = inNotes(&s.Pickup, r.Value), inNotes(&s.Gap, r.Value)
	if r.Pickup >= r.Meter.Bar() {
		return &pitch.InputError{What: "pickup", Value: number(s.Pickup), Want: "less than a bar of " + s.Meter}
	}
	or(&s.Tempo, 80)
	return nil
}

// inNotes rounds a time in quarter notes to 1/960 and returns it as a Beat. In triplets
// and quintuplets it becomes a whole number of notes, so that what comes after lies in
// the beat again; it is then written with three decimals, which tell all times apart.
func inNotes(quarters *float64, value line.Value) line.Beat {
	b := line.Beat(math.Round(*quarters * float64(line.Quarter)))
	*quarters = b.Quarters()
	note := value.Length()
	if line.Quarter/note&(line.Quarter/note-1) == 0 {
		return b
	}
	if b > 0 {
		b = max(note, (b+note/2-1)/note*note) // half a note is rounded down
	}
	*quarters = math.Round(b.Quarters()*1000) / 1000
	return b
}

func (p *plan) readHands() (err error) {
	s := &p.spec
	if p.picking, err = finger.ParsePicking(cmp.Or(s.Picking, string(finger.Alternate))); err != nil {
		return named("picking", err)
	}
	if p.naming, err = pitch.ParseNaming(cmp.Or(s.Names, "english")); err != nil {
		return named("names", err)
	}
	if p.touch, err = touch.ParseStyle(cmp.Or(s.Touch, "plain")); err != nil {
		return err
	}
	s.Touch = p.touch.String()
	s.Picking, s.Names = string(p.picking), p.naming.String()
	return nil
}

// none is the value of land for a line that does not land.
const none = "none"

// readLanding reads the degrees to land on and the beat.
func (p *plan) readLanding() error {
	s := &p.spec
	s.Land = cmp.Or(s.Land, none)
	if p.phrased && s.Land == none {
		s.Land = phraseLand
	}
	or(&s.Ending, 1)
	beats := p.rhythm.Meter.Beats
	if beat := or(&s.LandBeat, 1); beat >= float64(beats)+1 {
		return &pitch.InputError{What: "land-beat", Value: number(beat), Want: "a beat of the bar, from 1 to under " + strconv.Itoa(beats+1)}
	}
	if s.Land == none {
		return nil
	}
	words, degrees, err := pitch.ParseDegrees(s.Land)
	if err != nil {
		return named("land", err)
	}
	for i, word := range words {
		p.targets = append(p.targets, target{word: word, degree: degrees[i]})
	}
	s.Land = strings.Join(p.landWords(), ",")
	return nil
}

// A target is a degree to land on, with the word it was typed as.
type target struct {
	word   string
	degree pitch.Degree
}

func (p *plan) landWords() []string {
	words := make([]string, len(p.targets))
	for i, t := range p.targets {
		words[i] = t.word
	}
	return words
}

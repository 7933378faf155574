package exercise

import (
	"encoding/json"
	"math"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/touch"
	"heddle/weave"
)

// MarshalJSON returns the exercise in the stable form that `heddle line --json`
// prints: fields are only ever added. Beats and durations are in
// quarter notes from the first bar line, lengths in mm rounded to 0.1.
func (ex *Exercise) MarshalJSON() ([]byte, error) {
	return json.Marshal(ex.document())
}

type document struct {
	Spec       Spec               `json:"spec"`
	Sentence   string             `json:"sentence"`
	Remarks    []string           `json:"remarks"`
	Scales     []scaleDocument    `json:"scales"`
	Chords     []chordDocument    `json:"chords"`
	Collection collectionDocument `json:"collection"`
	Notes      []noteDocument     `json:"notes"`
	Cycle      cycleDocument      `json:"cycle"`
	Endings    []endingDocument   `json:"endings"`
	Hand       handDocument       `json:"hand"`

	*readingDocument                  // of a given line
	Also             *readingDocument `json:"also,omitempty"` // another reading that costs nearly the same
}

// A readingDocument says which scales a given line is woven from.
type readingDocument struct {
	Segments []segmentDocument `json:"segments,omitempty"`
	Pattern  *patternDocument  `json:"pattern,omitempty"`
}

type segmentDocument struct {
	From    int    `json:"from"`
	To      int    `json:"to"`
	Scale   string `json:"scale"`
	Outside bool   `json:"outside"`
	Why     string `json:"why"`
}

type patternDocument struct {
	Groups    any            `json:"groups"` // sizes, or "run" as in a spec
	Order     string         `json:"order"`
	Follow    line.Follow    `json:"follow"`
	Direction line.Direction `json:"direction"`
	From      int            `json:"from"`
	To        int            `json:"to"`
}

func documentReading(r weave.Reading) *readingDocument {
	d := &readingDocument{Segments: make([]segmentDocument, len(r.Segments))}
	if p := r.Pattern; p != nil {
		d.Pattern = &patternDocument{p.Groups, p.Order, p.Follow, p.Direction, p.From, p.To}
		if line.IsRun(p.Groups) {
			d.Pattern.Groups = line.FormatGroups(p.Groups)
		}
	}
	for i, s := range r.Segments {
		d.Segments[i] = segmentDocument{s.From, s.To, s.Scale.Name(), s.Outside, s.Why}
	}
	return d
}

type scaleDocument struct {
	Name      string            `json:"name"`
	Away      string            `json:"away,omitempty"` // "a semitone down"
	Notes     []pitch.Name      `json:"notes"`
	Placement placementDocument `json:"placement"`
}

// A placementDocument is a placement in JSON.
type placementDocument struct {
	Window     [2]int         `json:"window"`
	RootString int            `json:"root_string"`
	RootFinger int            `json:"root_finger"`
	Shape      string         `json:"shape"`
	System     string         `json:"system"`
	Spots      []spotDocument `json:"spots"`
}

type spotDocument struct {
	String int        `json:"string"`
	Fret   int        `json:"fret"`
	Name   pitch.Name `json:"name"`
	Octave int        `json:"octave"`
	MIDI   int        `json:"midi"`
}

type chordDocument struct {
	Symbol string  `json:"symbol"`
	Beat   float64 `json:"beat"`
	Until  float64 `json:"until"`
}

// A collectionDocument is a collection in JSON.
type collectionDocument struct {
	Notes          []pitch.Name   `json:"notes"`
	Cardinality    int            `json:"cardinality"`
	Forte          string         `json:"forte"`
	PrimeForm      []int          `json:"prime_form"`
	PrimeFormRahn  []int          `json:"prime_form_rahn"`
	IntervalVector [6]int         `json:"interval_vector"`
	Transpositions int            `json:"transpositions"`
	MessiaenMode   *int           `json:"messiaen_mode"`
	Names          []nameDocument `json:"names"`
	Missing        []pitch.Name   `json:"missing"`
}

type nameDocument struct {
	Root pitch.Name     `json:"root"`
	Name string         `json:"name"`
	Kind pitch.NameKind `json:"kind"`
}

type noteDocument struct {
	Index     int            `json:"index"`
	Group     int            `json:"group"`
	Scale     int            `json:"scale"`
	Step      int            `json:"step"`
	Name      pitch.Name     `json:"name"`
	Octave    int            `json:"octave"`
	MIDI      int            `json:"midi"`
	Beat      float64        `json:"beat"`
	Duration  float64        `json:"duration"`
	String    int            `json:"string"`
	Fret      int            `json:"fret"`
	Finger    int            `json:"finger"`
	Stroke    string         `json:"stroke"`
	Touch     *touch.Touch   `json:"touch,omitempty"` // of a note that is not plain
	Degree    pitch.Degree   `json:"degree"`
	Function  pitch.Function `json:"function"`
	Roughness float64        `json:"roughness"`
	Role      string         `json:"role"`
}

type cycleDocument struct {
	Notes int `json:"notes"`
	Bars  int `json:"bars"`
}

type endingDocument struct {
	Notes    []noteDocument `json:"notes"`
	Replaced int            `json:"replaced"`
	Target   string         `json:"target"`
	Kind     string         `json:"kind"`
	Cost     float64        `json:"cost"`
}

type handDocument struct {
	TravelMM  float64 `json:"travel_mm"`
	WidestMM  float64 `json:"widest_mm"`
	Crossings int     `json:"crossings"`
}

func (ex *Exercise) document() document {
	d := document{
		Spec:       ex.Spec,
		Sentence:   ex.Sentence,
		Remarks:    ex.Remarks,
		Scales:     make([]scaleDocument, len(ex.Scales)),
		Chords:     make([]chordDocument, len(ex.Chords)),
		Collection: DocumentCollection(ex.Collection),
		Notes:      noteDocuments(ex.Notes),
		Cycle:      cycleDocument(ex.Cycle),
		Endings:    make([]endingDocument, len(ex.Endings)),
		Hand:       handDocument{tenth(ex.Hand.TravelMM), tenth(ex.Hand.WidestMM), ex.Hand.Crossings},
	}
	for i, s := range ex.Scales {
		d.Scales[i] = scaleDocument{s.Name(), s.Away, s.Notes, documentPlacement(s.Placement)}
	}
	for i, c := range ex.Chords {
		d.Chords[i] = chordDocument{c.Symbol, c.Start.Quarters(), c.End.Quarters()}
	}
	if len(ex.Readings) > 0 {
		d.readingDocument = documentReading(ex.Readings[0])
	}
	if len(ex.Readings) > 1 {
		d.Also = documentReading(ex.Readings[1])
	}
	for i, e := range ex.Endings {
		d.Endings[i] = endingDocument{noteDocuments(e.Notes), e.Replaced, e.Target, e.Kind, round(e.Cost, 1000)}
	}
	return d
}

func noteDocuments(notes []Note) []noteDocument {
	docs := make([]noteDocument, len(notes))
	for i, n := range notes {
		docs[i] = noteDocument{
			Index: n.Index, Group: n.Group, Scale: n.Scale, Step: n.Step,
			Name: n.Pitch.Name, Octave: n.Pitch.Octave, MIDI: n.Pitch.MIDI(),
			Beat: n.Start.Quarters(), Duration: n.Duration.Quarters(),
			String: n.String, Fret: n.Fret, Finger: n.Finger, Stroke: string(n.Stroke),
			Degree: n.Degree, Function: n.Function, Roughness: round(n.Roughness, 1000), Role: string(n.Role),
		}
		if n.Touch != (touch.Touch{}) {
			docs[i].Touch = &notes[i].Touch
		}
	}
	return docs
}

// documentPlacement returns the JSON form of a placement.
func documentPlacement(p neck.Placement) placementDocument {
	d := placementDocument{
		Window:     [2]int{p.Window.Low, p.Window.High},
		RootString: p.RootString, RootFinger: p.RootFinger, Shape: p.Shape, System: p.System,
		Spots: []spotDocument{},
	}
	for _, at := range p.AllPlaces() {
		d.Spots = append(d.Spots, spotDocument{at.String, at.Fret, at.Pitch.Name, at.Pitch.Octave, at.Pitch.MIDI()})
	}
	return d
}

// DocumentCollection returns the JSON form of a collection.
func DocumentCollection(c pitch.Collection) collectionDocument {
	d := collectionDocument{
		Notes: c.Notes, Cardinality: len(c.Notes), Forte: c.Forte,
		PrimeForm: c.PrimeForm, PrimeFormRahn: c.PrimeFormRahn, IntervalVector: c.IntervalVector,
		Transpositions: c.Transpositions, Names: []nameDocument{}, Missing: append([]pitch.Name{}, c.Missing...),
	}
	if c.Messiaen > 0 {
		d.MessiaenMode = &c.Messiaen
	}
	for _, n := range c.Names {
		d.Names = append(d.Names, nameDocument{n.Root, n.Name, n.Kind})
	}
	return d
}

// tenth rounds a length in mm to a tenth, as in JSON.
func tenth(mm float64) float64 { return round(mm, 10) }

func round(x, per float64) float64 { return math.Round(x*per) / per }

// MarshalJSON returns the pairs as `heddle near --json` prints them, best first.
func (p *Places) MarshalJSON() ([]byte, error) {
	doc := struct {
		Pairs []pairDocument `json:"pairs"`
	}{make([]pairDocument, len(p.Pairs))}
	for i, pair := range p.Pairs {
		d := pairDocument{
			Home: documentPlacement(pair.Home), Superimposed: make([]placementDocument, len(pair.Superimposed)),
			ShiftFrets: pair.ShiftFrets, ShiftMM: tenth(pair.ShiftMM), WidthMM: tenth(pair.WidthMM), CostFrets: tenth(pair.CostFrets),
			SharedSpots: pair.SharedSpots, Joined: pair.Joined, Why: pair.Why,
		}
		for j, s := range pair.Superimposed {
			d.Superimposed[j] = documentPlacement(s)
		}
		doc.Pairs[i] = d
	}
	return json.Marshal(doc)
}

type pairDocument struct {
	Home         placementDocument   `json:"home"`
	Superimposed []placementDocument `json:"superimposed"`
	ShiftFrets   int                 `json:"shift_frets"`
	ShiftMM      float64             `json:"shift_mm"`
	CostFrets    float64             `json:"cost_frets"`
	WidthMM      float64             `json:"width_mm"`
	SharedSpots  int                 `json:"shared_spots"`
	Joined       bool                `json:"joined"`
	Why          string              `json:"why"`
}

// MarshalJSON returns the table as `heddle over --json` prints it.
func (o Overlay) MarshalJSON() ([]byte, error) {
	doc := struct {
		Chord string        `json:"chord"`
		Home  string        `json:"home"`
		Rows  []rowDocument `json:"rows"`
	}{o.Chord.Symbol, o.Home.Name(), make([]rowDocument, len(o.Rows))}
	for i, r := range o.Rows {
		doc.Rows[i] = rowDocument{
			Scale: r.Scale.Name(), Interval: r.Interval, FromChord: r.FromChord, Notes: r.Scale.Notes, Degrees: r.Degrees,
			ChordTones: r.Count(pitch.ChordTone), Tensions: r.Count(pitch.Tension), Blue: r.Count(pitch.Blue),
			Avoid: r.Count(pitch.Avoid), Outside: r.Count(pitch.Outside),
			Roughness: round(r.Roughness, 1000), Shared: r.Shared, Collection: DocumentCollection(r.Collection),
		}
		if r.Near != nil {
			shift := tenth(r.Near.ShiftMM)
			doc.Rows[i].ShiftMM = &shift
		}
	}
	return json.Marshal(doc)
}

type rowDocument struct {
	Scale      string             `json:"scale"`
	Interval   string             `json:"interval"`
	FromChord  pitch.Degree       `json:"from_chord"`
	Notes      []pitch.Name       `json:"notes"`
	Degrees    []pitch.Degree     `json:"degrees"`
	ChordTones int                `json:"chord_tones"`
	Tensions   int                `json:"tensions"`
	Blue       int                `json:"blue"`
	Avoid      int                `json:"avoid"`
	Outside    int                `json:"outside"`
	Roughness  float64            `json:"roughness"`
	Shared     int                `json:"shared"`
	Collection collectionDocument `json:"collection"`
	ShiftMM    *float64           `json:"shift_mm"` // null if it has no placement on this neck
}

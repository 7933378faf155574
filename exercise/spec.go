package exercise

// A Spec states an exercise. Its fields have the same names as flags, URL
// query keys, JSON keys and lines of text; the doc of each gives the form.
type Spec struct {
	Chord       string   // chord: a chord symbol
	Changes     string   // changes: bars of one chord each, "Gm7 | C7 | %"
	Home        string   // home: a scale, "G minor pentatonic"
	Superimpose []string // superimpose: scales or intervals
	Groups      []int    // groups: notes from each scale in turn
	Order       string   // order: digital pattern, "1 3 2", or one per scale with "/"
	Follow      string   // follow: first, last
	Direction   string   // direction: down, up, down-up, up-down
	Fret        int      // fret: where the first finger should be
	Start       string   // start: a pitch of the home placement
	Value       string   // value: see line.Value
	Meter       string   // meter: "4/4"
	Pickup      float64  // pickup: quarter notes
	Feel        string   // feel: "straight", "swing 2:1"
	Gap         float64  // gap: quarter notes of rest between groups
	Tempo       float64  // tempo: quarter notes a minute, 20 to 400
	Bars        int      // bars: 0 for as long as the neck allows
	Land        string   // land: target degrees, "third", "root,fifth", "none"
	LandBeat    float64  // land-beat: beat of the bar, from 1
	Instrument  string   // instrument: guitar, bass, …
	Tuning      string   // tuning: lowest string first, "E2 A2 D3 G3 B3 E4"
	Frets       int      // frets on the neck
	Scale       float64  // scale length in mm
	Reach       float64  // reach between first and fourth finger in mm
	Capo        int      // capo: fret, 0 for none
	Left        bool     // left: left-handed
	Picking     string   // picking: alternate, economy, legato
	Names       string   // names: english, german, solfege
}

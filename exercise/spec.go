package exercise

// A Spec states an exercise. Its fields have the same names everywhere: as
// flags, URL query keys, JSON keys and `key: value` lines; [Fields] lists
// them with their meaning. A zero field is unset and takes its default; Build
// returns the canonical Spec, in which every field is filled in.
type Spec struct {
	Chord       string   // a chord symbol; default the home scale's own chord
	Changes     string   // bars, "Gm7 C7 | F7 | %", or a form, "blues in A"; default none, then Chord holds
	Home        string   // the home scale; with Changes, perhaps one for each bar or chord
	Superimpose []string // scales, or intervals from home
	Form        string   // line or phrase; default line
	Groups      []int    // notes from each scale in turn, 1 to 12, or only line.Run; default 2 each
	Order       string   // digital pattern, "1 3 2", or one for each scale with "/"; default straight
	Follow      string   // first or last; default first
	Direction   string   // down, up, down-up or up-down; default down
	Fret        int      // where the first finger should be, or OpenPosition; default the nearest pair, lowest in the middle of the neck
	Start       string   // a pitch of the home placement; default the outermost one
	Value       string   // a line.Value; default eighth
	Meter       string   // default 4/4
	Pickup      float64  // quarter notes before the first bar line
	Feel        string   // straight or swing L:S; default straight
	Gap         float64  // quarter notes of rest between groups
	Tempo       float64  // quarter notes a minute; default 80
	Bars        int      // 0 for as long as the neck allows
	Dips        int      // of a phrase: trips outside, or NoDips; default 1
	Busy        string   // of a phrase: sparse, medium or busy; default medium
	Choice      int      // of a phrase: which one, from 1, the best; default 1
	Cell        []string // of a phrase: cells to use as dips, each a cut spec as a query
	Cut         string   // the first and last note kept, "5-10"; default the whole line
	Repeats     string   // keep or skip; default keep
	Land        string   // target degrees, best liked first, or none; default none
	LandBeat    float64  // beat of the bar, from 1; default 1
	Ending      int      // which of the endings to play, from 1, the best; default 1
	Instrument  string   // default guitar
	Tuning      string   // lowest string first; default the instrument's own
	Frets       int      // default the instrument's own
	Scale       float64  // vibrating length in mm; default the instrument's own
	Reach       float64  // mm between first and fourth finger; default 100
	Capo        int      // the fret it sits behind; 0 for none
	Left        bool     // left-handed
	Picking     string   // alternate, economy or legato; default alternate
	Touch       string   // a touch.Style; default plain
	Names       string   // english, german or solfege; default english
}

// OpenPosition is the Fret of the open position, which every text form writes as 0.
// In Go, 0 is unset.
const OpenPosition = -1

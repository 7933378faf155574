package musicxml

import "encoding/xml"

// The parts of MusicXML's elements that are read; the rest is skipped. The
// names are those of the MusicXML 4.0 schema.

type xmlNote struct {
	Grace     *struct{}  `xml:"grace"`
	Cue       *struct{}  `xml:"cue"`
	Chord     *struct{}  `xml:"chord"`
	Rest      *struct{}  `xml:"rest"`
	Unpitched *struct{}  `xml:"unpitched"`
	Pitch     *xmlPitch  `xml:"pitch"`
	Duration  string     `xml:"duration"`
	Ties      []xmlTyped `xml:"tie"`
	Voice     string     `xml:"voice"`
	Staff     string     `xml:"staff"`
	Noteheads []struct {
		Parentheses string `xml:"parentheses,attr"`
	} `xml:"notehead"`
	Notations []xmlNotations `xml:"notations"`
}

type xmlPitch struct {
	Step   string `xml:"step"`
	Alter  string `xml:"alter"`
	Octave string `xml:"octave"`
}

type xmlTyped struct {
	Type string `xml:"type,attr"`
}

type xmlNotations struct {
	Tied      []xmlTyped     `xml:"tied"`
	Slides    []xmlTyped     `xml:"slide"`
	Glissandi []xmlTyped     `xml:"glissando"`
	Technical []xmlTechnical `xml:"technical"`
	Ornaments []struct {
		WavyLines []xmlTyped `xml:"wavy-line"`
	} `xml:"ornaments"`
	Articulations []struct {
		Accent       *struct{} `xml:"accent"`
		StrongAccent *struct{} `xml:"strong-accent"`
		Staccato     *struct{} `xml:"staccato"`
		Scoop        *struct{} `xml:"scoop"`
	} `xml:"articulations"`
}

type xmlBend struct {
	Alter   string    `xml:"bend-alter"`
	PreBend *struct{} `xml:"pre-bend"`
	Release *struct{} `xml:"release"`
}

type xmlTechnical struct {
	UpBow     *struct{}  `xml:"up-bow"`
	DownBow   *struct{}  `xml:"down-bow"`
	HammerOns []xmlTyped `xml:"hammer-on"`
	PullOffs  []xmlTyped `xml:"pull-off"`
	Fingering []string   `xml:"fingering"`
	String    string     `xml:"string"`
	Fret      string     `xml:"fret"`
	Bends     []xmlBend  `xml:"bend"`
}

type xmlAttributes struct {
	Divisions string `xml:"divisions"`
	Times     []struct {
		Beats    []string `xml:"beats"`
		BeatType []string `xml:"beat-type"`
	} `xml:"time"`
	StaffDetails []struct {
		Tunings []xmlTuning `xml:"staff-tuning"`
		Capo    string      `xml:"capo"`
	} `xml:"staff-details"`
	Transposes []xmlTranspose `xml:"transpose"`
}

type xmlTuning struct {
	Line   string `xml:"line,attr"`
	Step   string `xml:"tuning-step"`
	Alter  string `xml:"tuning-alter"`
	Octave string `xml:"tuning-octave"`
}

type xmlTranspose struct {
	Number       string `xml:"number,attr"`
	Diatonic     string `xml:"diatonic"`
	Chromatic    string `xml:"chromatic"`
	OctaveChange string `xml:"octave-change"`
}

type xmlDirection struct {
	Types []struct {
		Metronomes []struct {
			BeatUnit  []string   `xml:"beat-unit"`
			Dots      []struct{} `xml:"beat-unit-dot"`
			PerMinute string     `xml:"per-minute"`
		} `xml:"metronome"`
	} `xml:"direction-type"`
	Sound *xmlSound `xml:"sound"`
}

type xmlSound struct {
	Tempo string `xml:"tempo,attr"`
	Swing *struct {
		Straight *struct{} `xml:"straight"`
		First    string    `xml:"first"`
		Second   string    `xml:"second"`
		Type     string    `xml:"swing-type"`
	} `xml:"swing"`
}

type xmlHarmony struct {
	Roots []struct {
		Step  string `xml:"root-step"`
		Alter string `xml:"root-alter"`
	} `xml:"root"`
	Kinds []struct {
		Text string `xml:"text,attr"`
		Name string `xml:",chardata"`
	} `xml:"kind"`
	Basses []struct {
		Step  string `xml:"bass-step"`
		Alter string `xml:"bass-alter"`
	} `xml:"bass"`
	Degrees []struct {
		Print string `xml:"print-object,attr"`
		Value string `xml:"degree-value"`
		Alter string `xml:"degree-alter"`
		Type  string `xml:"degree-type"`
	} `xml:"degree"`
	Offset string `xml:"offset"`
}

type xmlBarline struct {
	Repeat *struct{} `xml:"repeat"`
	Ending *struct{} `xml:"ending"`
}

type xmlLength struct {
	Duration string `xml:"duration"`
}

type xmlWork struct {
	Title string `xml:"work-title"`
}

type xmlScorePart struct {
	ID   string `xml:"id,attr"`
	Name string `xml:"part-name"`
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

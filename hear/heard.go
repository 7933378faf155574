package hear

// A Heard is one note as it sounded.
type Heard struct {
	OnsetS, OffsetS float64 // seconds from the start of the recording
	MIDI            float64 // key number, 69 for 440 Hz, in hundredths of a semitone and finer
	Confidence      float64 // 0 to 1: how periodic, and how much alone, the note was
	Level           float64 // dB below full scale of its loudest part
}

// A Tuning is how far the guitar lies above A4 = 440 Hz, in cents.
type Tuning float64

// Options is what may be known of a take before it is heard. The zero value
// knows nothing.
type Options struct {
	// Lowest is the lowest MIDI key the instrument has, the open lowest
	// string; nothing lower is heard. Zero means E1.
	Lowest int
	// Highest is the highest MIDI key. Zero means E6.
	Highest int
}

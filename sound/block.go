package sound

import "math"

// blockLength is how many samples are made at a time: few enough that all of
// a block's buffers stay in a processor's first cache.
const blockLength = 512

// A block is a short stretch of the mix that parts add themselves to.
type block struct {
	from        int64 // of its first sample; negative before the start of the file
	left, right []float32
	send        []float32 // to the room
}

// A place is where a part stands: its gain to the left, to the right and to
// the room.
type place struct {
	left, right, send float32
}

// placeOf turns a strip into gains. The pan has equal power at every point
// (−3 dB in the middle); dB and send are the part's usual level and its
// share of room.
func placeOf(s Strip, dB, send float64) place {
	gain := math.Pow(10, (dB+s.LevelDB)/20)
	angle := (s.Pan + 1) * math.Pi / 4
	return place{float32(gain * math.Cos(angle)), float32(gain * math.Sin(angle)), float32(gain * send)}
}

// turned returns the place with something of the part put to one side, as the
// pieces of a drum kit are.
func (p place) turned(pan, gain, send float64) place {
	angle := (pan + 1) * math.Pi / 4
	l, r := gain*math.Sqrt2*math.Cos(angle), gain*math.Sqrt2*math.Sin(angle)
	return place{p.left * float32(l), p.right * float32(r), p.send * float32(gain*send)}
}

// scaled returns the place with a gain.
func (p place) scaled(gain float32) place {
	return place{p.left * gain, p.right * gain, p.send * gain}
}

// add adds one channel to the block.
func (b *block) add(mono []float32, p place) { b.addAt(0, mono, p) }

// addAt adds one channel to the block from a sample on.
func (b *block) addAt(at int, mono []float32, p place) {
	left, right, send := b.left[at:], b.right[at:], b.send[at:]
	left, right, send = left[:len(mono)], right[:len(mono)], send[:len(mono)]
	if p.send == 0 {
		for i, x := range mono {
			left[i] += x * p.left
			right[i] += x * p.right
		}
		return
	}
	for i, x := range mono {
		left[i] += x * p.left
		right[i] += x * p.right
		send[i] += x * p.send
	}
}

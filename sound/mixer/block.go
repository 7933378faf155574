// Package mixer adds parts to a stereo mix, block by block, with a place for
// each and a room for all, and plays sounds that were made beforehand.
package mixer

import "math"

// BlockLength is how many samples are made at a time: few enough that all of
// a block's buffers stay in a processor's first cache.
const BlockLength = 512

// A Block is a short stretch of the mix that parts add themselves to.
type Block struct {
	From        int64 // of its first sample; negative before the start of the file
	Left, Right []float32
	Send        []float32 // to the room
}

// A Place is a part's place in the mix: its gain to the left, to the right and to
// the room.
type Place struct {
	Left, Right, send float32
}

// Gain is the factor of a level in dB.
func Gain(dB float64) float64 { return math.Pow(10, dB/20) }

// PlaceAt turns a level and a pan into gains. The pan has equal power at every
// point (−3 dB in the middle); send is the part's share of room.
func PlaceAt(dB, pan, send float64) Place {
	gain := Gain(dB)
	angle := (pan + 1) * math.Pi / 4
	return Place{float32(gain * math.Cos(angle)), float32(gain * math.Sin(angle)), float32(gain * send)}
}

// Turned returns the place with something of the part put to one side, as the
// pieces of a drum kit are.
func (p Place) Turned(pan, gain, send float64) Place {
	angle := (pan + 1) * math.Pi / 4
	l, r := gain*math.Sqrt2*math.Cos(angle), gain*math.Sqrt2*math.Sin(angle)
	return Place{p.Left * float32(l), p.Right * float32(r), p.send * float32(gain*send)}
}

// scaled returns the place with a gain.
func (p Place) scaled(gain float32) Place {
	return Place{p.Left * gain, p.Right * gain, p.send * gain}
}

// Add adds one channel to the block.
func (b *Block) Add(mono []float32, p Place) { b.addAt(0, mono, p) }

// addAt adds one channel to the block from a sample on.
func (b *Block) addAt(at int, mono []float32, p Place) {
	left, right, send := b.Left[at:], b.Right[at:], b.Send[at:]
	left, right, send = left[:len(mono)], right[:len(mono)], send[:len(mono)]
	if p.send == 0 {
		for i, x := range mono {
			left[i] += x * p.Left
			right[i] += x * p.Right
		}
		return
	}
	for i, x := range mono {
		left[i] += x * p.Left
		right[i] += x * p.Right
		send[i] += x * p.send
	}
}

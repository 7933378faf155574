package sound

// A dice is a stream of chance that depends only on its seed: SplitMix64
// (Steele, Lea and Flood 2014).
type dice uint64

// rollFor returns the dice for a place in the music, so that what falls
// there does not depend on what was played before.
func rollFor(seed uint64, place ...int) dice {
	d := dice(seed ^ 0x9e3779b97f4a7c15)
	for _, p := range place {
		d ^= dice(p) * 0xd1342543de82ef95
		d = dice(d.next())
	}
	return d
}

// next returns 64 bits of chance.
func (d *dice) next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// unit returns a number from 0 up to 1.
func (d *dice) unit() float64 { return float64(d.next()>>11) / (1 << 53) }

// swing returns a number from −1 up to 1.
func (d *dice) swing() float64 { return 2*d.unit() - 1 }

// below returns a whole number from 0 up to n.
func (d *dice) below(n int) int { return int(d.unit() * float64(n)) }

// noise returns a white sample from −1 up to 1.
func (d *dice) noise() float32 { return float32(int32(d.next()>>32)) * (1.0 / (1 << 31)) }

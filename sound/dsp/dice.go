package dsp

// A Dice is a stream of chance that depends only on its seed: SplitMix64
// (Steele, Lea and Flood 2014).
type Dice uint64

// Roll returns the dice for a place in the music, so that what falls
// there does not depend on what was played before.
func Roll(seed uint64, place ...int) Dice {
	d := Dice(seed ^ 0x9e3779b97f4a7c15)
	for _, p := range place {
		d ^= Dice(p) * 0xd1342543de82ef95
		d = Dice(d.Next())
	}
	return d
}

// Next returns 64 bits of chance.
func (d *Dice) Next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Unit returns a number from 0 up to 1.
func (d *Dice) Unit() float64 { return float64(d.Next()>>11) / (1 << 53) }

// Swing returns a number from −1 up to 1.
func (d *Dice) Swing() float64 { return 2*d.Unit() - 1 }

// Below returns a whole number from 0 up to n.
func (d *Dice) Below(n int) int { return int(d.Unit() * float64(n)) }

// Noise returns a white sample from −1 up to 1.
func (d *Dice) Noise() float32 { return float32(int32(d.Next()>>32)) * (1.0 / (1 << 31)) }

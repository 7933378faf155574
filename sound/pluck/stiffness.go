package pluck

import "math"

// A shelf is the part of a loop's losses that rises with frequency and then
// levels off: 1 − h·(1−z⁻¹)(1+p)/2 / (1 − p·z⁻¹), where h is what is lost far above
// the corner.
type shelf struct {
	cut, pole float32 // h·(1+p)/2 and p
}

// delay is the shelf's phase delay in samples at ω radians a sample.
func (s shelf) delay(omega float64) float64 {
	sin, cos := math.Sincos(omega)
	c, p := float64(s.cut), float64(s.pole)
	// (1 − p·z⁻¹ − c(1 − z⁻¹)) / (1 − p·z⁻¹)
	above := math.Atan2((p-c)*sin, 1-c-(p-c)*cos)
	below := math.Atan2(p*sin, 1-p*cos)
	return (below - above) / omega
}

// allpassDelay is the phase delay in samples of (a + z⁻¹) / (1 + a·z⁻¹).
func allpassDelay(a, omega float64) float64 {
	sin, cos := math.Sincos(omega)
	return 1 + 2*math.Atan2(-a*sin, 1+a*cos)/omega
}

// Where the stretch of a stiff string is made exact, and what an allpass can do.
const (
	stretchedAt = 8     // the partial that lies exactly where B puts it
	mostStiff   = -0.97 // coefficient: 65 samples of delay at the lowest frequencies
	leastStiff  = 0.4   // 0.4 samples there: it takes back what the shelf stretches too much
)

// stiffness returns the coefficient of a loop's allpass for which
// partial k of a string lies at k·f₀·√((1+B·k²)/(1+B)), the law of a stiff string
// (Fletcher and Rossing 1998, eq. 2.68), for k = 8 exactly and for those
// below nearly. The shelf's own delay is allowed for. It is found by
// halving: the lower the coefficient, the larger the stretch.
func stiffness(hz, b float64, s shelf, rate float64) float64 {
	k := min(stretchedAt, math.Floor(0.2*rate/hz))
	if k < 2 {
		return 0
	}
	stretch := math.Sqrt((1 + b*k*k) / (1 + b))
	low := 2 * math.Pi * hz / rate
	high := k * low * stretch
	want := rate / hz * (1 - 1/stretch)
	from, to := mostStiff, leastStiff
	for range 24 {
		a := (from + to) / 2
		if allpassDelay(a, low)-allpassDelay(a, high)+s.delay(low)-s.delay(high) > want {
			from = a
		} else {
			to = a
		}
	}
	return (from + to) / 2
}

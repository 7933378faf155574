package performance

import "math/rand/v2"

// Band writes bass, keys and drums under a take.
func Band(r *rand.Rand, tempo, untilS float64) []Event {
	events := []Event{Program(0, 33), Program(1, 4)}
	quarterS := 60 / tempo
	root := r.IntN(12)
	chord := [][]int{{0, 3, 7, 10}, {0, 4, 7, 10}, {0, 4, 7, 11}}[r.IntN(3)]
	for beat := 0; float64(beat)*quarterS < untilS; beat++ {
		s := float64(beat) * quarterS
		hit := func(atS, lengthS float64, channel, key, velocity int) {
			events = append(events, noteOn(atS, channel, key, velocity), noteOff(atS+lengthS, channel, key))
		}
		hit(s, quarterS*0.8, 0, 28+(root+8)%12+[]int{0, 0, 7, 0}[beat%4], 90)
		if beat%2 == 0 {
			for _, d := range chord {
				hit(s+quarterS*0.5, quarterS*1.2, 1, 52+root+d, 75)
			}
		}
		hit(s, 0.1, 9, []int{36, 38}[beat%2], 95)
		hit(s, 0.1, 9, 42, 70)
		hit(s+quarterS/2, 0.1, 9, 42, 60)
	}
	return events
}

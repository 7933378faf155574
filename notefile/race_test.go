//go:build race

package notefile

// raceDetector says that tests run ten times slower and take more memory, so
// that sweeps are thinned and memory is not measured.
const raceDetector = true

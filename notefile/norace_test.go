//go:build !race

package notefile

// raceDetector says that tests run at full speed.
const raceDetector = false

//go:build race

package sound

// raced tells whether the race detector watches, under which everything takes
// ten times as long.
const raced = true

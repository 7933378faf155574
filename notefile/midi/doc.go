// Package midi writes exercises as Standard MIDI Files and reads lines from
// them.
package midi

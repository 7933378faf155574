// Package musicxml writes exercises as MusicXML 4.0 and reads lines from it.
package musicxml

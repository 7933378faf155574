// Package fretboard draws necks: the placements of an exercise's scales over
// one another ([Draw]), and the whole neck in small with the places to choose
// from ([Map]).
//
// A neck is seen as tablature is, string 1 on top, its frets in true
// proportion, mirrored for a left-handed player. Lengths are in mm.
//
// Each spot has a group whose id says where it is ([SpotID]), so that a page
// can light it; one spot may serve several notes of a line.
package fretboard

// Package sheet holds what every file written from an exercise needs: its bars,
// its groups with their labels, its title, and the limits of what is written.
package sheet

// Package exercise holds the [Spec], the one small value that everything is derived
// from, with its text, flag, URL and JSON forms. [Build] turns it into an [Exercise]:
// all that is known about every note. [Adopt] does the same for a line from outside.
package exercise

// Package exercise holds the one small value that everything is derived from, the
// [Spec], with its text, flag, URL and JSON forms, and [Build], which turns it
// into an [Exercise]: everything known about every note.
package exercise

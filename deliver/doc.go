// Package deliver writes an exercise in every format there is: one table of
// [Formats], one [Choices] value for sound and picture, one set of defaults.
// Whoever asks with the same exercise and the same choices gets the same
// bytes, whether they came as flags or in an address.
//
// [WriteFile] puts a file in place whole or not at all.
package deliver

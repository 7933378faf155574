// Package paper puts an exercise on paper: title, sentence, neck and music, as
// pages to print ([Pages]) or as one picture ([Poster]).
package paper

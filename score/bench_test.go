package score_test

import (
	"io"
	"testing"

	"heddle/exercise"
	"heddle/score"
	"heddle/score/fretboard"
	"heddle/score/internal/examples"
	"heddle/score/paper"
	"heddle/score/surface"
)

// sixtyFour is the exercise of the budget: 64 notes.
func sixtyFour(b testing.TB) *exercise.Exercise {
	ex := examples.Worked(b)
	for len(ex.Notes) < 64 {
		n := ex.Notes[len(ex.Notes)-57]
		last := ex.Notes[len(ex.Notes)-1]
		n.Index, n.Group, n.Start = len(ex.Notes), last.Group+(n.Step-last.Step)%2, last.Start+last.Duration
		ex.Notes = append(ex.Notes, n)
	}
	return ex
}

// The budget is 2 ms.
func BenchmarkSVGScoreWithNeck(b *testing.B) {
	ex := sixtyFour(b)
	surface.WritePageSVG(io.Discard, score.Sheet(ex, score.Options{}))
	b.ReportAllocs()
	for b.Loop() {
		if err := surface.WritePageSVG(io.Discard, score.Sheet(ex, score.Options{})); err != nil {
			b.Fatal(err)
		}
		if err := surface.WritePageSVG(io.Discard, fretboard.Draw(ex, fretboard.Options{})); err != nil {
			b.Fatal(err)
		}
	}
}

// The budget is 30 ms.
func BenchmarkPDFPage(b *testing.B) {
	ex := sixtyFour(b)
	for b.Loop() {
		pages, err := paper.Pages(ex, paper.Options{Title: "Out and back"})
		if err != nil {
			b.Fatal(err)
		}
		if err := surface.WritePDF(io.Discard, pages); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPNGSheetAt150(b *testing.B) {
	ex := sixtyFour(b)
	for b.Loop() {
		if err := surface.WritePNG(io.Discard, score.Sheet(ex, score.Options{}), 150); err != nil {
			b.Fatal(err)
		}
	}
}
